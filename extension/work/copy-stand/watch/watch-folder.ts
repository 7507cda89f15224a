/** Watches a folder for scans: the library's events and the clock, handed to the state machine of arrivals.ts. */
import { isScanPath } from "../../../recipe/scan-names.ts";
import { existsSync, type Stats } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { type FSWatcher, watch } from "chokidar";
import { isComplete } from "../../../scans/whole-file.ts";
import {
  type Arrival,
  type Arrivals,
  type FileState,
  inspected,
  LOCAL,
  NETWORK,
  NO_ARRIVALS,
  seen,
  settle,
  type SettleTimes,
  type Step,
  toConfirm,
  toInspect,
  vanished,
} from "./arrivals.ts";
import { isOnNetwork } from "./network-disk.ts";

export interface FolderWatch {
  /** Resolves when the files that were there at the beginning have been seen. */
  readonly ready: Promise<void>;
  readonly polling: boolean;
  close(): Promise<void>;
}

export interface WatchOptions {
  /** Polls instead of waiting for the system's events; by itself on network disks. */
  readonly polling?: boolean;
  readonly times?: SettleTimes;
  /** Called for each arrival, one after the other. */
  readonly onArrival: (arrival: Arrival) => void;
  /** Called when the folder disappears (false) and when it is there again (true). */
  readonly onFolder?: (present: boolean) => void;
  readonly onError?: (error: Error) => void;
}

/** What the file system knows of a file. */
type FileStats = Pick<Stats, "size" | "mtimeMs" | "ino">;

/** Milliseconds between two looks at the clock, and between two polls of a network disk. */
const TICK = 100;
const POLL = 1_000;
/** Milliseconds between two lists of the folder, which find what was written before the watcher had its first look. */
const LIST = 2_000;
/** Folders below the watched one: a camera's card has two levels. */
const DEPTH = 4;

/** @param folder absolute; it may be missing for now */
export function watchFolder(folder: string, options: WatchOptions): FolderWatch {
  return new ScanFolder(folder, options);
}

class ScanFolder implements FolderWatch {
  readonly polling: boolean;
  readonly ready: Promise<void>;
  readonly #folder: string;
  readonly #options: WatchOptions;
  readonly #times: SettleTimes;
  readonly #inspecting = new Set<string>();
  readonly #timers: readonly NodeJS.Timeout[];
  #state: Arrivals = NO_ARRIVALS;
  #isPresent: boolean;
  #isListing = false;
  #isClosed = false;
  #watcher: FSWatcher | undefined;
  #markReady: () => void = () => undefined;

  constructor(folder: string, options: WatchOptions) {
    this.#folder = folder;
    this.#options = options;
    this.polling = options.polling ?? isOnNetwork(folder);
    this.#times = options.times ?? (this.polling ? NETWORK : LOCAL);
    this.#isPresent = existsSync(folder);
    this.ready = new Promise<void>((done) => (this.#markReady = done));
    this.#timers = [setInterval(() => void this.#list(), LIST), setInterval(() => this.#tick(), TICK)];
    if (this.#isPresent) this.#open();
    else {
      options.onFolder?.(false);
      this.#markReady();
    }
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    for (const timer of this.#timers) clearInterval(timer);
    await this.#watcher?.close();
  }

  #nameOf(path: string): string {
    return relative(this.#folder, path).split(sep).join("/");
  }

  #take({ next, arrivals }: Step): void {
    this.#state = next;
    for (const arrival of arrivals) this.#options.onArrival(arrival);
  }

  #found(path: string, stats?: FileStats): void {
    if (stats) this.#take(seen(this.#state, this.#nameOf(path), stateOf(stats), performance.now()));
  }

  #open(): void {
    const found = (path: string, stats?: FileStats): void => this.#found(path, stats);
    this.#watcher = watch(this.#folder, {
      usePolling: this.polling,
      interval: POLL,
      binaryInterval: POLL,
      depth: DEPTH,
      alwaysStat: true,
      followSymlinks: false,
      ignored: (path, stats) => stats?.isFile() === true && !isScanPath(this.#nameOf(path)),
    })
      .on("add", found)
      .on("change", found)
      .on("unlink", (path) => this.#take(vanished(this.#state, this.#nameOf(path), performance.now())))
      .on("ready", () => this.#markReady())
      .on("error", (error) => this.#options.onError?.(error instanceof Error ? error : new Error(String(error))));
  }

  /** The clock: files that have come to rest are read, and those that are complete arrive. */
  #tick(): void {
    void this.#follow();
    // A poll may tell of the old name seconds later, or not at all.
    for (const name of toConfirm(this.#state))
      if (!existsSync(join(this.#folder, name))) this.#take(vanished(this.#state, name, performance.now()));
    for (const name of toInspect(this.#state, performance.now(), this.#times)) void this.#inspect(name);
    this.#take(settle(this.#state, performance.now(), this.#times));
  }

  async #inspect(name: string): Promise<void> {
    if (this.#inspecting.has(name)) return;
    this.#inspecting.add(name);
    try {
      const path = join(this.#folder, name);
      const before = stateOf(await stat(path));
      const whole = await isComplete(path);
      this.#state = inspected(this.#state, name, before, whole, performance.now());
    } catch {
      // It went away, or cannot be read yet: the next look decides.
    } finally {
      this.#inspecting.delete(name);
    }
  }

  /** A card reader that is pulled out takes its folder along; the watcher does not notice when it comes back. */
  async #follow(): Promise<void> {
    const now = existsSync(this.#folder);
    if (now === this.#isPresent) return;
    this.#isPresent = now;
    this.#options.onFolder?.(now);
    await this.#watcher?.close();
    if (now && !this.#isClosed) this.#open();
  }

  /** Finds files that the watcher had no event for. */
  async #list(): Promise<void> {
    if (this.#isListing || !this.#isPresent) return;
    this.#isListing = true;
    try {
      for await (const path of filesBelow(this.#folder, DEPTH))
        if (!this.#isClosed && isScanPath(this.#nameOf(path)))
          this.#found(path, await stat(path).catch(() => undefined));
    } catch {
      // The folder went away: the next look at the clock says so.
    } finally {
      this.#isListing = false;
    }
  }
}

/** Paths of the files in a folder and `depth` levels below; links are not followed. */
async function* filesBelow(folder: string, depth: number): AsyncGenerator<string> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isFile()) yield path;
    else if (entry.isDirectory() && depth > 0) yield* filesBelow(path, depth - 1);
  }
}

const stateOf = ({ size, mtimeMs, ino }: FileStats): FileState => ({
  size,
  changed: mtimeMs,
  id: ino,
});
