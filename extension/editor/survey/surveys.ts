/** The last survey of each roll: kept on disk, and placed in the recipe's text as it changes. */
import type { Spot } from "../../engine/image/spot.ts";
import { stampsOf } from "../files.ts";
import * as vscode from "vscode";
import type { Reading } from "../../recipe/language/document-cache.ts";
import {
  type PlacedFailure,
  type PlacedFinding,
  placeFailures,
  placeFindings,
  proposedSpots,
} from "../../recipe/language/findings.ts";
import {
  NONE_DISMISSED,
  partProposals,
  type Dismissed,
  type SpotPlace,
  withoutDismissed,
  withDismissed,
} from "../../recipe/survey/dismissed.ts";
import { folderCache } from "../../scans/files/cache.ts";
import { type DismissedStore, dismissedStore } from "../../work/survey/dismissed-store.ts";
import type { SurveyReport } from "../../work/survey/survey-roll.ts";
import { type KeptSurvey, type SurveyStore, surveyStore } from "../../work/survey/survey-store.ts";
import { VERSION } from "../../work/files/version.ts";

/**
 * The last survey of each roll, for the session and on disk. What it says is placed in a recipe's text again whenever
 * somebody asks; findings about a file that has changed since are no longer given.
 */
export class Surveys implements vscode.Disposable {
  readonly #store: SurveyStore;
  readonly #dismissedStore: DismissedStore;
  readonly #kept = new Map<string, KeptSurvey>();
  /** What was dismissed, as far as it has been read. */
  readonly #dismissed = new Map<string, Dismissed>();
  /** The surveys, by what of their proposals is open and what was dismissed. */
  readonly #parted = new Map<string, ReturnType<typeof partProposals<SurveyReport>>>();
  readonly #recalled = new Map<string, Promise<void>>();
  /** Files that are no longer what was surveyed. */
  #changedFiles: ReadonlySet<string> = new Set();
  readonly #changed = new vscode.EventEmitter<string>();
  #watcher: vscode.Disposable | undefined;

  /** Tells a roll's file name when there is a new survey of it, or when files that it looked at have changed. */
  readonly onDidChange = this.#changed.event;

  constructor(store: SurveyStore, dismissed: DismissedStore) {
    this.#store = store;
    this.#dismissedStore = dismissed;
  }

  /** Rolls that have been surveyed. */
  get rolls(): readonly string[] {
    return [...this.#kept.keys()];
  }

  of(roll: string): SurveyReport | undefined {
    return this.#kept.get(roll)?.report;
  }

  /** The survey as it proposes what is to be done: without spots that were dismissed. */
  open(roll: string): SurveyReport | undefined {
    return this.#parted.get(roll)?.open;
  }

  /** Keeps a survey in place of the roll's last one. */
  async keep(roll: string, survey: KeptSurvey): Promise<void> {
    await this.#readPassed(roll);
    this.#adopt(roll, survey);
    this.#recalled.set(roll, Promise.resolve());
    await this.look();
    this.#changed.fire(roll);
    await this.#store.write(roll, survey);
  }

  /** Brings back what was kept on disk. Asks the disk once a session. */
  recall(roll: string): Promise<void> {
    const known = this.#recalled.get(roll);
    if (known) return known;
    const stored = this.#recall(roll);
    this.#recalled.set(roll, stored);
    return stored;
  }

  /** The findings that hold for the text and the files as they are now. */
  findings(reading: Reading): PlacedFinding[] {
    const report = this.open(reading.document.file);
    return report ? placeFindings(reading, report, this.#isChanged) : [];
  }

  failures(reading: Reading): PlacedFailure[] {
    const report = this.of(reading.document.file);
    return report ? placeFailures(reading, report, this.#isChanged) : [];
  }

  /** Spots to heal that are not in the recipe yet, open and dismissed; undefined where no survey of the frame holds. */
  proposals(reading: Reading, frame: string): Proposed | undefined {
    const parted = this.#parted.get(reading.document.file);
    const open = parted && proposedSpots(reading, parted.open, frame, this.#isChanged);
    const dismissed = parted && proposedSpots(reading, parted.dismissed, frame, this.#isChanged);
    return open && dismissed && { ...open, dismissed };
  }

  /** Passes a proposed spot over, or proposes it again. It outlasts the survey: another one proposes it no more. */
  async dismiss(roll: string, place: SpotPlace, spot: Spot, over: boolean): Promise<void> {
    const change = over ? withDismissed : withoutDismissed;
    this.#dismissed.set(roll, await this.#dismissedStore.change(roll, (now) => change(now, place, spot)));
    const kept = this.#kept.get(roll);
    if (kept) this.#adopt(roll, kept);
    this.#changed.fire(roll);
  }

  /** Whether a scan or the blank is no longer the file that was surveyed. */
  isStale(roll: string): boolean {
    return Object.keys(this.#kept.get(roll)?.stamps ?? {}).some(this.#isChanged);
  }

  /** Looks whether the files are still those that were surveyed. */
  async look(): Promise<void> {
    this.#watcher ??= this.#kept.size > 0 ? this.#watch() : undefined;
    const before = this.#changedFiles;
    const all = [...this.#kept].flatMap(([roll, { stamps }]) =>
      Object.entries(stamps).map(([path, stamp]) => ({ roll, path, stamp })),
    );
    const now = await stampsOf(all.map(({ path }) => path));
    const changed = all.filter(({ path, stamp }) => now[path] !== stamp);
    this.#changedFiles = new Set(changed.map(({ path }) => path));
    const concerned = all.filter(({ path }) => before.has(path) !== this.#changedFiles.has(path));
    for (const roll of new Set(concerned.map(({ roll }) => roll))) this.#changed.fire(roll);
  }

  dispose(): void {
    this.#watcher?.dispose();
    this.#changed.dispose();
  }

  readonly #isChanged = (path: string): boolean => this.#changedFiles.has(path);

  async #recall(roll: string): Promise<void> {
    const [found] = await Promise.all([this.#store.read(roll), this.#readPassed(roll)]);
    // A survey that was made meanwhile is newer.
    if (!found || this.#kept.has(roll)) return;
    this.#adopt(roll, found);
    await this.look();
    this.#changed.fire(roll);
  }

  #adopt(roll: string, survey: KeptSurvey): void {
    this.#kept.set(roll, survey);
    this.#parted.set(roll, partProposals(survey.report, this.#dismissed.get(roll) ?? NONE_DISMISSED));
  }

  async #readPassed(roll: string): Promise<void> {
    const read = this.#dismissed.has(roll) ? undefined : await this.#dismissedStore.read(roll);
    // Meanwhile something may have been dismissed.
    if (read && !this.#dismissed.has(roll)) this.#dismissed.set(roll, read);
  }

  /** Files that come and go are told of elsewhere; these are replaced in place. */
  #watch(): vscode.Disposable {
    const watcher = vscode.workspace.createFileSystemWatcher("**/*", true, false, true);
    let timer: NodeJS.Timeout | undefined;
    watcher.onDidChange(({ path }) => {
      if (![...this.#kept.values()].some(({ stamps }) => Object.hasOwn(stamps, path))) return;
      clearTimeout(timer);
      timer = setTimeout(() => void this.look(), 300);
    });
    return vscode.Disposable.from(watcher, new vscode.Disposable(() => clearTimeout(timer)));
  }
}

type Spots = NonNullable<ReturnType<typeof proposedSpots>>;
export interface Proposed extends Spots {
  readonly dismissed: Spots;
}

/** Bytes that all surveys together may have on disk: one of 36 frames has about half a million. */
const MAX_BYTES = 100e6;

export function openSurveys(context: vscode.ExtensionContext): Surveys {
  const folder = (name: string): string => vscode.Uri.joinPath(context.globalStorageUri, name).fsPath;
  return new Surveys(
    surveyStore(folderCache(folder("surveys"), MAX_BYTES), VERSION),
    dismissedStore(folder("dismissed")),
  );
}
