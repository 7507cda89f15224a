import * as vscode from "vscode";
import type { Reading } from "../../recipe/language/library.ts";
import {
  type PlacedFault,
  type PlacedFinding,
  placeFaults,
  placeFindings,
  proposedSpots,
} from "../../recipe/language/findings.ts";
import { folderCache } from "../../scans/cache.ts";
import type { SurveyReport } from "../../work/survey-roll.ts";
import { type KeptSurvey, type SurveyStore, surveyStore } from "../../work/survey-store.ts";
import { VERSION } from "../../work/version.ts";
import { uriOf } from "../uris.ts";

/**
 * The last survey of each roll, for the session and on disk. What it says is placed in a recipe's text anew whenever
 * somebody asks; findings about a file that has changed since are no longer given.
 */
export class Surveys implements vscode.Disposable {
  readonly #store: SurveyStore;
  readonly #kept = new Map<string, KeptSurvey>();
  readonly #recalled = new Map<string, Promise<void>>();
  /** Files that are no longer what was surveyed. */
  #changedFiles: ReadonlySet<string> = new Set();
  readonly #changed = new vscode.EventEmitter<string>();
  #watcher: vscode.Disposable | undefined;

  /** Tells a roll's file name when there is a new survey of it, or when files that it looked at have changed. */
  readonly onDidChange = this.#changed.event;

  constructor(store: SurveyStore) {
    this.#store = store;
  }

  /** Rolls that have been surveyed. */
  get rolls(): readonly string[] {
    return [...this.#kept.keys()];
  }

  of(roll: string): SurveyReport | undefined {
    return this.#kept.get(roll)?.report;
  }

  /** Keeps a survey in place of the roll's last one. */
  async keep(roll: string, survey: KeptSurvey): Promise<void> {
    this.#kept.set(roll, survey);
    this.#recalled.set(roll, Promise.resolve());
    await this.look();
    this.#changed.fire(roll);
    await this.#store.write(roll, survey);
  }

  /** Brings back what was kept on disk. Asks the disk once a session. */
  recall(roll: string): Promise<void> {
    const known = this.#recalled.get(roll);
    if (known) return known;
    const asked = this.#recall(roll);
    this.#recalled.set(roll, asked);
    return asked;
  }

  /** The findings that hold for the text and the files as they are now. */
  findings(reading: Reading): PlacedFinding[] {
    const report = this.of(reading.document.file);
    return report ? placeFindings(reading, report, this.#isChanged) : [];
  }

  faults(reading: Reading): PlacedFault[] {
    const report = this.of(reading.document.file);
    return report ? placeFaults(reading, report, this.#isChanged) : [];
  }

  /** Spots to heal that are not in the recipe yet; undefined where no survey of the frame holds. */
  proposals(reading: Reading, frame: string): ReturnType<typeof proposedSpots> {
    const report = this.of(reading.document.file);
    return report && proposedSpots(reading, report, frame, this.#isChanged);
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
    const found = await this.#store.read(roll);
    // A survey that was made meanwhile is newer.
    if (!found || this.#kept.has(roll)) return;
    this.#kept.set(roll, found);
    await this.look();
    this.#changed.fire(roll);
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

/** Bytes that all surveys together may have on disk: one of 36 frames has about half a million. */
const MOST_BYTES = 100e6;

export function openSurveys(context: vscode.ExtensionContext): Surveys {
  const folder = vscode.Uri.joinPath(context.globalStorageUri, "surveys").fsPath;
  return new Surveys(surveyStore(folderCache(folder, MOST_BYTES), VERSION));
}

/** What files are known by: size and time of the last change. */
export async function stampsOf(paths: readonly string[]): Promise<Record<string, string>> {
  const stamps = await Promise.all(
    [...new Set(paths)].map(async (path) => {
      const found = await Promise.resolve(vscode.workspace.fs.stat(uriOf(path))).catch(() => undefined);
      return [path, found ? `${found.size} ${found.mtime}` : "missing"] as const;
    }),
  );
  return Object.fromEntries(stamps);
}
