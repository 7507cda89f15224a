/** Watches a folder for scans: the library's events and the clock, handed to the state machine of arrivals.ts. */
import { isScanPath } from "../../../recipe/scan-names.ts";
import { existsSync } from "node:fs";
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

/** Milliseconds between two looks at the clock, and between two polls of a network disk. */
const TICK = 100;
const POLL = 1_000;
/** Milliseconds between two lists of the folder, which find what was written before the watcher had its first look. */
const LIST = 2_000;
/** Folders below the watched one: a camera's card has two levels. */
const DEPTH = 4;

/** @param folder absolute; it may be missing for now */
export function watchFolder(folder: string, options: WatchOptions): FolderWatch {
  const polling = options.polling ?? isOnNetwork(folder);
  const times = options.times ?? (polling ? NETWORK : LOCAL);
  let state: Arrivals = NO_ARRIVALS;
  let present = existsSync(folder);
  let watcher: FSWatcher | undefined;
  let closed = false;
  const inspecting = new Set<string>();
  let markReady: () => void = () => undefined;
  const ready = new Promise<void>((done) => (markReady = done));

  const nameOf = (path: string): string => relative(folder, path).split(sep).join("/");
  const take = ({ next, arrivals }: Step): void => {
    state = next;
    for (const arrival of arrivals) options.onArrival(arrival);
  };

  const found = (path: string, stats?: { size: number; mtimeMs: number; ino: number }): void => {
    if (stats) take(seen(state, nameOf(path), stateOf(stats), performance.now()));
  };

  function open(): void {
    watcher = watch(folder, {
      usePolling: polling,
      interval: POLL,
      binaryInterval: POLL,
      depth: DEPTH,
      alwaysStat: true,
      followSymlinks: false,
      ignored: (path, stats) => stats?.isFile() === true && !isScanPath(nameOf(path)),
    });
    watcher
      .on("add", found)
      .on("change", found)
      .on("unlink", (path) => take(vanished(state, nameOf(path), performance.now())))
      .on("ready", () => markReady())
      .on("error", (error) => options.onError?.(error instanceof Error ? error : new Error(String(error))));
  }

  async function inspect(name: string): Promise<void> {
    if (inspecting.has(name)) return;
    inspecting.add(name);
    try {
      const path = join(folder, name);
      const before = stateOf(await stat(path));
      const whole = await isComplete(path);
      state = inspected(state, name, before, whole, performance.now());
    } catch {
      // It went away, or cannot be read yet: the next look decides.
    } finally {
      inspecting.delete(name);
    }
  }

  /** A card reader that is pulled out takes its folder along; the watcher does not notice when it comes back. */
  async function follow(): Promise<void> {
    const now = existsSync(folder);
    if (now === present) return;
    present = now;
    options.onFolder?.(now);
    await watcher?.close();
    if (now && !closed) open();
  }

  let listing = false;
  async function list(): Promise<void> {
    if (listing || !present) return;
    listing = true;
    try {
      for await (const path of filesBelow(folder, DEPTH))
        if (!closed && isScanPath(nameOf(path))) found(path, await stat(path).catch(() => undefined));
    } catch {
      // The folder went away: the next look at the clock says so.
    } finally {
      listing = false;
    }
  }

  const lister = setInterval(() => void list(), LIST);
  const timer = setInterval(() => {
    void follow();
    for (const name of toInspect(state, performance.now(), times)) void inspect(name);
    take(settle(state, performance.now(), times));
  }, TICK);
  if (present) open();
  else {
    options.onFolder?.(false);
    markReady();
  }
  return {
    ready,
    polling,
    async close() {
      closed = true;
      clearInterval(timer);
      clearInterval(lister);
      await watcher?.close();
    },
  };
}

/** Paths of the files in a folder and `depth` levels below; links are not followed. */
async function* filesBelow(folder: string, depth: number): AsyncGenerator<string> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isFile()) yield path;
    else if (entry.isDirectory() && depth > 0) yield* filesBelow(path, depth - 1);
  }
}

const stateOf = ({ size, mtimeMs, ino }: { size: number; mtimeMs: number; ino: number }): FileState => ({
  size,
  changed: mtimeMs,
  id: ino,
});
