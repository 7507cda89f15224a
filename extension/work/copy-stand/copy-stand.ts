/** Runs a session: watches the folder, has each scan measured and judged, and lets the recipe grow. */
import { join } from "node:path";
import { numbersAround } from "../../engine/verdict/film-numbers.ts";
import { failureText } from "../../failure.ts";
import { type ByteCache, folderCache } from "../../scans/files/cache.ts";
import { stampOf } from "../files/content-hash.ts";
import { VERSION } from "../files/version.ts";
import type { Workspace } from "../files/workspace.ts";
import { firstPassJob } from "../new-roll/jobs.ts";
import type { Pool } from "../pool/pool.ts";
import { measureArrivalJob } from "./jobs.ts";
import { cropsKey, POSITIVE_WRITTEN } from "./measure/kept-pictures.ts";
import { GrowingRecipe, type RecipeOptions } from "./recipe/growing-recipe.ts";
import type { RollView } from "./recipe/roll-view.ts";
import {
  currentRoles,
  expectation,
  type Judged,
  judgeArrival,
  judgedAsBlank,
  judgeUnreadable,
  knownRollOf,
  type Session,
  type SessionScan,
  tally,
  type Tally,
  usedPictures,
} from "./session.ts";
import { type SessionStore, sessionStore } from "./session-store.ts";
import type { Arrival } from "./watch/arrivals.ts";
import { type FolderWatch, watchFolder, type WatchOptions } from "./watch/watch-folder.ts";

export interface CopyStandOptions extends RecipeOptions {
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
export function openCopyStand(
  options: CopyStandOptions,
  workspace: Workspace,
  pool: Pool,
  events: CopyStandEvents = {},
): CopyStand {
  return new OpenCopyStand(options, workspace, pool, events);
}

class OpenCopyStand implements CopyStand {
  readonly ready: Promise<void>;
  readonly #options: CopyStandOptions;
  readonly #workspace: Workspace;
  readonly #pool: Pool;
  readonly #events: CopyStandEvents;
  readonly #bytes: ByteCache;
  readonly #store: SessionStore;
  readonly #recipe: GrowingRecipe;
  readonly #watch: FolderWatch;
  readonly #stopped = new AbortController();
  readonly #queue: Arrival[] = [];
  /** File stamps of the scans in the folder, by name. */
  readonly #stamps = new Map<string, string>();
  #session: Session = [];
  #isTesting = false;
  #working: Promise<void> | undefined;
  #isListed = false;
  #markReady: () => void = () => undefined;

  constructor(options: CopyStandOptions, workspace: Workspace, pool: Pool, events: CopyStandEvents) {
    this.#options = options;
    this.#workspace = workspace;
    this.#pool = pool;
    this.#events = events;
    const { folder, recipe, cache } = options;
    this.#bytes = folderCache(cache.folder, cache.maxBytes);
    this.#store = sessionStore(this.#bytes, [folder, recipe?.file ?? ""], VERSION);
    this.#recipe = new GrowingRecipe(options, workspace, this.#store);
    this.ready = new Promise<void>((done) => (this.#markReady = done));
    this.#watch = this.#watchFolder();
  }

  get polling(): boolean {
    return this.#watch.polling;
  }

  session(): Session {
    return this.#session;
  }

  view(): Promise<RollView> {
    return this.#recipe.view();
  }

  async tally(): Promise<Tally> {
    return tally(this.#session, await this.view());
  }

  async positive(name: string): Promise<Uint8Array | undefined> {
    const key = this.#positiveKey(name);
    return key === undefined ? undefined : await this.#bytes.read(key);
  }

  async crops(name: string): Promise<Uint8Array | undefined> {
    const key = this.#positiveKey(name);
    return key === undefined ? undefined : await this.#bytes.read(cropsKey(key));
  }

  setTesting(testing: boolean): void {
    this.#isTesting = testing;
  }

  async close(): Promise<void> {
    this.#stopped.abort();
    await this.#watch.close();
    await this.#working;
  }

  #watchFolder(): FolderWatch {
    const { folder, polling, times } = this.#options;
    const watch = watchFolder(folder, {
      ...(polling === undefined ? {} : { polling }),
      ...(times ? { times } : {}),
      onArrival: (arrival) => {
        this.#queue.push(arrival);
        this.#working ??= this.#work();
      },
      onFolder: (present) => this.#events.onFolder?.(present),
      onError: (error) => this.#events.onFailure?.(`The folder cannot be watched: ${error.message}`),
    });
    void watch.ready.then(() => {
      this.#isListed = true;
      // Files need a moment to be known as complete.
      setTimeout(() => this.#idle(), 3 * (times?.still ?? 250) + 300);
    });
    return watch;
  }

  #idle(): void {
    if (this.#working || !this.#isListed) return;
    this.#markReady();
    this.#events.onIdle?.();
  }

  async #work(): Promise<void> {
    if (this.#session.length === 0 && this.#stamps.size === 0) await this.#recipe.recall();
    for (let arrival = this.#queue.shift(); arrival && !this.#isStopped; arrival = this.#queue.shift())
      try {
        await this.#take(arrival);
      } catch (error) {
        if (!this.#isStopped) this.#events.onFailure?.(failureText(error));
      }
    this.#working = undefined;
    this.#idle();
  }

  async #take(arrival: Arrival): Promise<void> {
    const { name } = arrival;
    if (arrival.kind === "deleted") return this.#events.onDeleted?.(name);
    if (arrival.kind === "renamed") return await this.#rename(arrival.from, name);
    const path = this.#pathOf(name);
    const stamp = stampOf(path);
    this.#stamps.set(name, stamp);
    const kept = await this.#store.read(name, stamp);
    if (kept) {
      // In the recipe, or left out of it by somebody: either way it was judged, and is no news.
      this.#session = [...this.#session, kept];
      return this.#events.onRecalled?.(kept);
    }
    this.#events.onArrived?.(name);
    const from = performance.now();
    const judged =
      arrival.kind === "incomplete"
        ? await this.#incomplete(name, path, stamp)
        : await this.#judge(arrival, path, stamp);
    if (!judged) return;
    const blankBefore = currentRoles(this.#session, await this.view()).blank?.name;
    this.#session = [...this.#session, judged.scan];
    await this.#keep(judged);
    this.#events.onVerdict?.(judged, await this.tally(), (performance.now() - from) / 1000);
    await this.#followBlank(blankBefore, name);
    if (judged.role.role === "leader") await this.#followLeader();
  }

  /** Writes a judged scan into the recipe and onto the disk. */
  async #keep(judged: Judged): Promise<void> {
    const { name } = judged.scan;
    if (judged.role.role !== "none" && !(await this.#recipe.grow(this.#session, judged)))
      this.#events.onFailure?.(`The recipe changes all the time; ${name} was not added to it. Start again to add it.`);
    await this.#store.write(judged.scan);
  }

  /** The base that a leader shows after the pictures moves the whole start: the newest picture says where to. */
  async #followLeader(): Promise<void> {
    const newest = usedPictures(this.#session, await this.view()).at(-1);
    if (newest) await this.#measureAgain(newest.name);
  }

  /** The bare light may be recognised only when film has come: its verdict follows, and pictures are measured by it. */
  async #followBlank(before: string | undefined, newest: string): Promise<void> {
    const now = await this.view();
    const blank = currentRoles(this.#session, now).blank?.name;
    const scan = blank === before ? undefined : this.#session.findLast((one) => one.name === blank);
    if (!scan?.light) return;
    if (scan.name !== newest) {
      const judged = judgedAsBlank(scan, now);
      this.#replace(scan, judged.scan);
      await this.#store.write(judged.scan);
      this.#events.onVerdict?.(judged, tally(this.#session, now), 0);
    }
    // The base is read on the leader, and the pictures are measured by the base.
    const isLeader = ({ kind, name }: SessionScan): boolean => kind === "leader" && name !== blank;
    for (const { name } of this.#session.filter(isLeader)) await this.#measureAgain(name);
    for (const { name } of this.#session.filter(({ picture }) => picture)) await this.#measureAgain(name);
  }

  /** A scan is measured again when what it is measured by has come. It keeps its place in the session and the roll. */
  async #measureAgain(name: string): Promise<void> {
    const old = this.#session.findLast((one) => one.name === name);
    const path = this.#pathOf(name);
    if (!old || !this.#stamps.has(name) || stampOf(path) !== old.stamp) return;
    const judged = await this.#judge({ name }, path, old.stamp, old.frame);
    if (!judged || this.#isStopped) return;
    this.#replace(old, judged.scan);
    await this.#keep(judged);
    if (judged.scan.verdict.word !== old.verdict.word) this.#events.onVerdict?.(judged, await this.tally(), 0);
  }

  async #judge(
    { name, replaces }: { readonly name: string; readonly replaces?: string },
    path: string,
    stamp: string,
    own?: string,
  ): Promise<Judged | undefined> {
    const before = await this.view();
    const { frame, numbers } = own === undefined ? expectation(before) : { frame: own, numbers: numbersAround(own) };
    const positive = { ...this.#options.cache, key: this.#store.positiveKey(name, stamp), long: LONGER_SIDE };
    let measured;
    try {
      measured = await this.#pool.run(
        measureArrivalJob,
        { path, name, frame, numbers, roll: knownRollOf(this.#session, before), positive },
        {
          signal: this.#stopped.signal,
          onProgress: (part) => part === POSITIVE_WRITTEN && this.#events.onPositive?.(name),
        },
      );
    } catch (error) {
      return this.#isStopped ? undefined : judgeUnreadable(name, stamp, failureText(error));
    }
    const arrived = { name, stamp, measured, ...(replaces === undefined ? {} : { replaces }), test: this.#isTesting };
    return judgeArrival(this.#session, before, arrived);
  }

  /** A file without its end: the decoder says best what is wrong with it. */
  async #incomplete(name: string, path: string, stamp: string): Promise<Judged> {
    const why = await this.#pool.run(firstPassJob, { path }, { signal: this.#stopped.signal }).then(
      () => `${name} has stopped growing and its end is missing.`,
      (error: unknown) => failureText(error),
    );
    return judgeUnreadable(name, stamp, why);
  }

  /** Follows a file that was renamed: what was measured of it moves along. */
  async #rename(from: string, name: string): Promise<void> {
    const scan = this.#session.findLast((one) => one.name === from);
    if (!scan) return;
    const stamp = stampOf(this.#pathOf(name));
    const picture = scan.picture && { ...scan.picture, reading: { ...scan.picture.reading, name } };
    const renamed: SessionScan = { ...scan, name, stamp, ...(picture ? { picture } : {}) };
    const [oldKey, key] = [this.#store.positiveKey(from, scan.stamp), this.#store.positiveKey(name, stamp)];
    await this.#copyBytes(oldKey, key);
    await this.#copyBytes(cropsKey(oldKey), cropsKey(key));
    this.#replace(scan, renamed);
    this.#stamps.set(name, stamp);
    await this.#store.write(renamed);
    await this.#recipe.rename(from, name);
    this.#events.onRenamed?.(from, name);
  }

  async #copyBytes(from: string, to: string): Promise<void> {
    const bytes = await this.#bytes.read(from);
    if (bytes) await this.#bytes.write(to, bytes);
  }

  #replace(old: SessionScan, scan: SessionScan): void {
    this.#session = this.#session.map((one) => (one === old ? scan : one));
  }

  #pathOf(name: string): string {
    return this.#workspace.absolute(this.#workspace.inside(join(this.#options.folder, name)));
  }

  #positiveKey(name: string): string | undefined {
    const stamp = this.#stamps.get(name);
    return stamp === undefined ? undefined : this.#store.positiveKey(name, stamp);
  }

  get #isStopped(): boolean {
    return this.#stopped.signal.aborted;
  }
}
