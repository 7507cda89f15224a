/** Runs a session: watches the folder, has each scan measured and judged, and lets the recipe grow. */
import { basename, dirname, join, relative, sep } from "node:path";
import { composeRecipe } from "../../recipe/edit/compose.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import type { FilmFormat } from "../../recipe/generated/types.ts";
import { resolveRoll } from "../../recipe/resolve/resolve.ts";
import { loadDocument } from "../../recipe/resolve/workspace.ts";
import { folderCache } from "../../scans/files/cache.ts";
import { stampOf } from "../files/content-hash.ts";
import { VERSION } from "../files/version.ts";
import type { Workspace } from "../files/workspace.ts";
import { failureText } from "../../failure.ts";
import type { Pool } from "../pool/pool.ts";
import type { Arrival } from "./watch/arrivals.ts";
import { numbersAround } from "../../engine/verdict/film-numbers.ts";
import { cropsKey, POSITIVE_WRITTEN } from "./measure/kept-pictures.ts";
import { rollEdits } from "./recipe/roll-edits.ts";
import { renameEdits } from "./recipe/rename-edits.ts";
import { type RollView, rollView, type ViewOptions } from "./recipe/roll-view.ts";
import {
  expectation,
  type Judged,
  judgeArrival,
  judgedAsBlank,
  judgeUnreadable,
  currentRoles,
  knownRollOf,
  type Session,
  type SessionScan,
  tally,
  type Tally,
  usedPictures,
} from "./session.ts";
import { type SessionStore, sessionStore } from "./session-store.ts";
import { type FolderWatch, watchFolder, type WatchOptions } from "./watch/watch-folder.ts";
import { valueAt, withoutOwn, type Written } from "./recipe/written.ts";
import { measureArrivalJob } from "./jobs.ts";
import { firstPassJob } from "../new-roll/jobs.ts";

/** The recipe's text, wherever it is kept. */
export interface RecipeText {
  /** Absolute path of the recipe. */
  readonly file: string;
  read(): Promise<string | undefined>;
  /** Writes a recipe that is not there yet. */
  create(text: string): Promise<void>;
  /** Changes the recipe by the one edit function, if it still says `seen`. @returns false where it does not */
  change(seen: string, edits: readonly ValueEdit[], label: string): Promise<boolean>;
}

export interface CopyStandOptions extends ViewOptions {
  /** Absolute folder that scans arrive in. */
  readonly folder: string;
  /** The roll's recipe; without one scans are judged and nothing is written. */
  readonly recipe?: RecipeText;
  /** Absolute path of the stock's recipe, for a roll that is created. */
  readonly stock?: string;
  readonly format?: FilmFormat;
  readonly title?: string;
  /** Where judged scans and their positives are kept. */
  readonly cache: { readonly folder: string; readonly maxBytes: number };
  readonly polling?: boolean;
  readonly times?: WatchOptions["times"];
}

/** What a session reports, in this order for each scan. */
export interface CopyStandEvents {
  /** A scan is complete on disk, and is measured now. */
  onArrived?(name: string): void;
  /** The scan's first positive is in the cache. */
  onPositive?(name: string): void;
  onVerdict?(judged: Judged, tally: Tally, seconds: number): void;
  /** A scan that was judged in an earlier session. */
  onRecalled?(scan: SessionScan): void;
  onRenamed?(from: string, name: string): void;
  onDeleted?(name: string): void;
  onFolder?(present: boolean): void;
  /** Something failed that concerns the session and no scan: the recipe could not be written, the disk not be watched. */
  onFailure?(message: string): void;
  /** Nothing is waiting to be measured. */
  onIdle?(): void;
}

export interface CopyStand {
  /** Resolves when everything that lay in the folder at the beginning has been judged. */
  readonly ready: Promise<void>;
  readonly polling: boolean;
  session(): Session;
  view(): Promise<RollView>;
  tally(): Promise<Tally>;
  /** A positive as a JPEG file's bytes. */
  positive(name: string): Promise<Uint8Array | undefined>;
  /** The grain in the middle and the corners, as a JPEG file's bytes (grain-crops.ts). */
  crops(name: string): Promise<Uint8Array | undefined>;
  /** Test shots are judged and make no frames. */
  setTesting(testing: boolean): void;
  /** Stops watching; a scan that is being measured is left for the next session. */
  close(): Promise<void>;
}

/** Longer side of a positive in pixels: large on a screen, and quick to draw. */
const LONGER_SIDE = 1600;
/** Attempts to change a recipe that somebody else changes at the same time. */
const ATTEMPTS = 5;

/** The recipe of an empty roll, as it is created with the first scan that makes a frame. */
function newRollText({ folder, recipe, stock, format, title }: CopyStandOptions): string {
  const file = recipe?.file ?? join(folder, "none.roll.yaml");
  const posix = (to: string): string => relative(dirname(file), to).split(sep).join("/") || ".";
  const values: ValueEdit[] = [
    { path: ["title"], value: title ?? basename(file).replace(/\.roll\.ya?ml$/i, "") },
    { path: ["stock"], value: stock && posix(stock) },
    { path: ["format"], value: format },
    { path: ["scans"], value: posix(folder) },
  ];
  return composeRecipe({
    kind: "roll",
    head: "Written at the copy stand, scan by scan. Every value may be changed; what you change stays.",
    values,
    comments: [],
  });
}

export function openCopyStand(
  options: CopyStandOptions,
  workspace: Workspace,
  pool: Pool,
  events: CopyStandEvents = {},
): CopyStand {
  const { folder, recipe, cache } = options;
  const bytes = folderCache(cache.folder, cache.maxBytes);
  const store: SessionStore = sessionStore(bytes, [folder, recipe?.file ?? ""], VERSION);
  const stopped = new AbortController();
  const queue: Arrival[] = [];
  const stamps = new Map<string, string>();
  let session: Session = [];
  let written: Written = {};
  let testing = false;
  let working: Promise<void> | undefined;
  let listed = false;
  let markReady: () => void = () => undefined;
  const ready = new Promise<void>((done) => (markReady = done));

  const watch: FolderWatch = watchFolder(folder, {
    ...(options.polling === undefined ? {} : { polling: options.polling }),
    ...(options.times ? { times: options.times } : {}),
    onArrival(arrival) {
      queue.push(arrival);
      working ??= work();
    },
    onFolder: (present) => events.onFolder?.(present),
    onError: (error) => events.onFailure?.(`The folder cannot be watched: ${error.message}`),
  });
  void watch.ready.then(() => {
    listed = true;
    // Files need a moment to be known as complete.
    setTimeout(idle, 3 * (options.times?.still ?? 250) + 300);
  });

  function idle(): void {
    if (working || !listed) return;
    markReady();
    events.onIdle?.();
  }

  async function work(): Promise<void> {
    if (session.length === 0 && stamps.size === 0) written = await store.readWritten();
    for (let arrival = queue.shift(); arrival && !stopped.signal.aborted; arrival = queue.shift())
      try {
        await take(arrival);
      } catch (error) {
        if (!stopped.signal.aborted) events.onFailure?.(failureText(error));
      }
    working = undefined;
    idle();
  }

  async function take(arrival: Arrival): Promise<void> {
    const { name } = arrival;
    if (arrival.kind === "deleted") return events.onDeleted?.(name);
    if (arrival.kind === "renamed") return await rename(arrival.from, name);
    const path = workspace.absolute(workspace.inside(join(folder, name)));
    const stamp = stampOf(path);
    stamps.set(name, stamp);
    const kept = await store.read(name, stamp);
    if (kept) {
      // In the recipe, or left out of it by somebody: either way it was judged, and is no news.
      session = [...session, kept];
      return events.onRecalled?.(kept);
    }
    events.onArrived?.(name);
    const from = performance.now();
    const judged =
      arrival.kind === "incomplete" ? await incomplete(name, path, stamp) : await judge(arrival, path, stamp);
    if (!judged) return;
    const blankBefore = currentRoles(session, await view()).blank?.name;
    session = [...session, judged.scan];
    if (judged.role.role !== "none") await grow(judged);
    await store.write(judged.scan);
    events.onVerdict?.(judged, tally(session, await view()), (performance.now() - from) / 1000);
    await followBlank(blankBefore, name);
    if (judged.role.role === "leader") await followLeader();
  }

  /** The base that a leader shows after the pictures moves the whole start: the newest picture says where to. */
  async function followLeader(): Promise<void> {
    const newest = usedPictures(session, await view()).at(-1);
    if (newest) await measureAgain(newest.name);
  }

  /** The bare light may be recognised only when film has come: its verdict follows, and pictures are measured by it. */
  async function followBlank(before: string | undefined, newest: string): Promise<void> {
    const now = await view();
    const blank = currentRoles(session, now).blank?.name;
    const scan = blank === before ? undefined : session.findLast((one) => one.name === blank);
    if (!scan?.light) return;
    if (scan.name !== newest) {
      const judged = judgedAsBlank(scan, now);
      session = session.map((one) => (one === scan ? judged.scan : one));
      await store.write(judged.scan);
      events.onVerdict?.(judged, tally(session, now), 0);
    }
    // The base is read on the leader, and the pictures are measured by the base.
    const isLeader = ({ kind, name }: SessionScan): boolean => kind === "leader" && name !== blank;
    for (const { name } of session.filter(isLeader)) await measureAgain(name);
    for (const { name } of session.filter(({ picture }) => picture)) await measureAgain(name);
  }

  /** A scan is measured again when what it is measured by has come. It keeps its place in the session and the roll. */
  async function measureAgain(name: string): Promise<void> {
    const old = session.findLast((one) => one.name === name);
    const path = workspace.absolute(workspace.inside(join(folder, name)));
    if (!old || !stamps.has(name) || stampOf(path) !== old.stamp) return;
    const judged = await judge({ name }, path, old.stamp, old.frame);
    if (!judged || stopped.signal.aborted) return;
    session = session.map((one) => (one === old ? judged.scan : one));
    if (judged.role.role !== "none") await grow(judged);
    await store.write(judged.scan);
    if (judged.scan.verdict.word !== old.verdict.word) events.onVerdict?.(judged, tally(session, await view()), 0);
  }

  async function judge(
    { name, replaces }: { readonly name: string; readonly replaces?: string },
    path: string,
    stamp: string,
    own?: string,
  ): Promise<Judged | undefined> {
    const before = await view();
    const { frame, numbers } = own === undefined ? expectation(before) : { frame: own, numbers: numbersAround(own) };
    const positive = { ...cache, key: store.positiveKey(name, stamp), long: LONGER_SIDE };
    let measured;
    try {
      measured = await pool.run(
        measureArrivalJob,
        { path, name, frame, numbers, roll: knownRollOf(session, before), positive },
        {
          signal: stopped.signal,
          onProgress: (part) => part === POSITIVE_WRITTEN && events.onPositive?.(name),
        },
      );
    } catch (error) {
      if (stopped.signal.aborted) return undefined;
      return judgeUnreadable(name, stamp, failureText(error));
    }
    const arrived = { name, stamp, measured, ...(replaces === undefined ? {} : { replaces }), test: testing };
    return judgeArrival(session, before, arrived);
  }

  /** A file without its end: the decoder says best what is wrong with it. */
  async function incomplete(name: string, path: string, stamp: string): Promise<Judged> {
    const why = await pool.run(firstPassJob, { path }, { signal: stopped.signal }).then(
      () => `${name} has stopped growing and its end is missing.`,
      (error: unknown) => failureText(error),
    );
    return judgeUnreadable(name, stamp, why);
  }

  /** The roll as the recipe says it, or as it will be: an empty roll of the stock. */
  async function view(): Promise<RollView> {
    const text = await recipe?.read();
    const file = workspace.inside(recipe?.file ?? join(folder, "none.roll.yaml"));
    const document = parseRecipe(text ?? newRollText(options), { file, kind: "roll" });
    const { resolved, stock } = await loadDocument(document, workspace);
    const roll = resolved ?? resolveRoll(parseRecipe("version: 1\n", { file, kind: "roll" }));
    // JSON is YAML: the values alone are read again, without what this session wrote.
    const rest = JSON.stringify(withoutOwn(document.value ?? { version: 1 }, written));
    return rollView(roll, options, resolveRoll(parseRecipe(rest, { file, kind: "roll" }), stock));
  }

  async function grow(judged: Judged): Promise<void> {
    if (!recipe) return;
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      const seen = (await recipe.read()) ?? (await create(recipe));
      const document = parseRecipe(seen, { file: workspace.inside(recipe.file), kind: "roll" });
      const stated = (path: ValueEdit["path"]): unknown => valueAt(document.value, path);
      const made = rollEdits(session, await view(), judged, stated, written);
      if (made.edits.length === 0) return;
      if (!(await recipe.change(seen, made.edits, made.label))) continue;
      written = made.written;
      await store.writeWritten(written);
      return;
    }
    events.onFailure?.(
      `The recipe changes all the time; ${judged.scan.name} was not added to it. Start again to add it.`,
    );
  }

  async function create(to: RecipeText): Promise<string> {
    await to.create(newRollText(options));
    return (await to.read()) ?? newRollText(options);
  }

  async function rename(from: string, name: string): Promise<void> {
    const scan = session.findLast((one) => one.name === from);
    if (!scan) return;
    const stamp = stampOf(workspace.absolute(workspace.inside(join(folder, name))));
    const picture = scan.picture && { ...scan.picture, reading: { ...scan.picture.reading, name } };
    const renamed: SessionScan = { ...scan, name, stamp, ...(picture ? { picture } : {}) };
    const image = await bytes.read(store.positiveKey(from, scan.stamp));
    if (image) await bytes.write(store.positiveKey(name, stamp), image);
    const grain = await bytes.read(cropsKey(store.positiveKey(from, scan.stamp)));
    if (grain) await bytes.write(cropsKey(store.positiveKey(name, stamp)), grain);
    session = session.map((one) => (one === scan ? renamed : one));
    stamps.set(name, stamp);
    await store.write(renamed);
    const edits = renameEdits(await view(), from, name);
    const seen = await recipe?.read();
    if (recipe && seen !== undefined && edits.length > 0) await recipe.change(seen, edits, `Rename ${from} to ${name}`);
    events.onRenamed?.(from, name);
  }

  return {
    ready,
    polling: watch.polling,
    session: () => session,
    view,
    tally: async () => tally(session, await view()),
    async positive(name) {
      const stamp = stamps.get(name);
      return stamp === undefined ? undefined : await bytes.read(store.positiveKey(name, stamp));
    },
    async crops(name) {
      const stamp = stamps.get(name);
      return stamp === undefined ? undefined : await bytes.read(cropsKey(store.positiveKey(name, stamp)));
    },
    setTesting: (now) => (testing = now),
    async close() {
      stopped.abort();
      await watch.close();
      await working;
    },
  };
}
