/**
 * Which files of a watched folder are scans that are complete. A pure state machine: it is told what a directory watcher
 * and the clock say, and answers with what has happened to scans.
 */
import { isScanPath, SCAN_KINDS, scanKind } from "../../../recipe/scan-names.ts";

/** What is known of a file on disk. */
export interface FileState {
  readonly size: number;
  /** Time of the last change, in milliseconds. */
  readonly changed: number;
  /** Number of the file on its disk, 0 where the disk gives none: a renamed file keeps it. */
  readonly id: number;
}

export type Arrival =
  /** A scan is complete. `replaces` names a file of lower quality of the same exposure that was given before. */
  | { readonly kind: "complete"; readonly name: string; readonly state: FileState; readonly replaces?: string }
  /** A complete scan has another name now. */
  | { readonly kind: "renamed"; readonly from: string; readonly name: string }
  /** A complete scan was deleted or moved away. */
  | { readonly kind: "deleted"; readonly name: string }
  /** A file has stopped growing long ago and its end is missing. */
  | { readonly kind: "incomplete"; readonly name: string };

export interface SettleTimes {
  /** Milliseconds without a change after which a file that has its end is complete. */
  readonly still: number;
  /** Milliseconds without a change after which a file without its end is given up. */
  readonly patience: number;
  /** Milliseconds that a JPEG or TIFF waits for a raw file of its name. */
  readonly pair: number;
}

/** A local disk reports changes at once; a network disk reports them late and in steps. */
export const LOCAL: SettleTimes = { still: 250, patience: 10_000, pair: 2_000 };
export const NETWORK: SettleTimes = { still: 2_000, patience: 30_000, pair: 6_000 };

interface Pending {
  readonly state: FileState;
  /** When it was last seen to change. */
  readonly since: number;
  /** Whether its end is there, as far as that has been asked. */
  readonly whole?: boolean;
  readonly reported?: true;
}

/** Plain data; every function below returns a new one. */
export interface Arrivals {
  readonly pending: ReadonlyMap<string, Pending>;
  readonly complete: ReadonlyMap<string, FileState>;
  /** Complete files that vanished a moment ago: they may come back under another name. */
  readonly vanished: ReadonlyMap<string, { readonly state: FileState; readonly at: number }>;
}

export const NO_ARRIVALS: Arrivals = { pending: new Map(), complete: new Map(), vanished: new Map() };

const stemOf = (name: string): string => name.slice(0, name.lastIndexOf(".")).toLowerCase();
const rankOf = (name: string): number => SCAN_KINDS.indexOf(scanKind(name) ?? "jpeg");
const sameFile = (a: FileState, b: FileState): boolean => a.size === b.size && a.changed === b.changed && a.id === b.id;

export interface Step {
  readonly next: Arrivals;
  readonly arrivals: readonly Arrival[];
}

/** A file was seen: new, or changed. */
export function seen(now: Arrivals, name: string, state: FileState, time: number): Step {
  if (!isScanPath(name)) return { next: now, arrivals: [] };
  const known = now.complete.get(name);
  if (known && sameFile(known, state)) return { next: now, arrivals: [] };
  const from = [...now.vanished].find(([, gone]) => sameFile(gone.state, state))?.[0];
  if (from !== undefined && !known) {
    const next = { ...now, complete: withEntry(now.complete, name, state), vanished: without(now.vanished, from) };
    return { next, arrivals: [{ kind: "renamed", from, name }] };
  }
  const waiting = now.pending.get(name);
  if (waiting && sameFile(waiting.state, state)) return { next: now, arrivals: [] };
  return { next: { ...now, pending: withEntry(now.pending, name, { state, since: time }) }, arrivals: [] };
}

/** A file is no longer there. It counts as deleted when no file like it has come within the time that pairs wait. */
export function vanished(now: Arrivals, name: string, time: number): Step {
  const state = now.complete.get(name);
  const pending = without(now.pending, name);
  if (!state) return { next: { ...now, pending }, arrivals: [] };
  // Some disks report the new name before the old one goes.
  const renamed = [...pending].find(([, waiting]) => sameFile(waiting.state, state))?.[0];
  if (renamed !== undefined) {
    const complete = withEntry(without(now.complete, name), renamed, state);
    return {
      next: { ...now, complete, pending: without(pending, renamed) },
      arrivals: [{ kind: "renamed", from: name, name: renamed }],
    };
  }
  const next = {
    pending,
    complete: without(now.complete, name),
    vanished: withEntry(now.vanished, name, { state, at: time }),
  };
  return { next, arrivals: [] };
}

/** Files whose end has to be looked for: they have not changed for a while. */
export function toInspect(now: Arrivals, time: number, { still }: SettleTimes): string[] {
  return [...now.pending].flatMap(([name, { since, whole }]) =>
    whole === undefined && time - since >= still ? [name] : [],
  );
}

/** Complete scans that another file looks just like: they are being renamed, or have two names. Whether they are still there decides. */
export function toConfirm({ pending, complete }: Arrivals): string[] {
  const waiting = [...pending.values()];
  return [...complete].flatMap(([name, state]) => (waiting.some((one) => sameFile(one.state, state)) ? [name] : []));
}

/** What was found of a file's end; `state` is the file as it was when it was looked for. */
export function inspected(now: Arrivals, name: string, state: FileState, whole: boolean, time: number): Arrivals {
  const waiting = now.pending.get(name);
  if (!waiting) return now;
  const next = sameFile(waiting.state, state) ? { ...waiting, whole } : { state, since: time };
  return { ...now, pending: withEntry(now.pending, name, next) };
}

/** Time passes: what is complete by now, in the order of the names' last change, and what has been given up. */
export function settle(now: Arrivals, time: number, times: SettleTimes): Step {
  let { pending, complete, vanished: gone } = now;
  const arrivals: Arrival[] = [];
  const byAge = [...pending].toSorted(([a, p], [b, q]) => p.state.changed - q.state.changed || (a < b ? -1 : 1));
  for (const [name, waiting] of byAge) {
    const { state, since, whole, reported } = waiting;
    if (whole === false && !reported && time - since >= times.patience) {
      pending = withEntry(pending, name, { ...waiting, reported: true });
      arrivals.push({ kind: "incomplete", name });
    }
    if (whole !== true || time - since < times.still) continue;
    // A scan that is being renamed: a poll may see the new name long before it misses the old one.
    const isTwin = [...complete].some(([other, of]) => other !== name && sameFile(of, state));
    if (isTwin && time - since < times.patience) continue;
    const same = (other: string): boolean => other !== name && stemOf(other) === stemOf(name);
    const better = [...complete.keys(), ...pending.keys()].some((other) => same(other) && rankOf(other) < rankOf(name));
    const lowerQuality = [...complete.keys()].find((other) => same(other) && rankOf(other) > rankOf(name));
    if (better) {
      // Of one exposure the raw file is the scan; the other one is known and no scan of its own.
      pending = without(pending, name);
      continue;
    }
    if (rankOf(name) > 0 && time - since < times.pair) continue;
    pending = without(pending, name);
    complete = withEntry(lowerQuality === undefined ? complete : without(complete, lowerQuality), name, state);
    arrivals.push({ kind: "complete", name, state, ...(lowerQuality === undefined ? {} : { replaces: lowerQuality }) });
  }
  for (const [name, { at }] of gone)
    if (time - at >= times.pair) {
      gone = without(gone, name);
      arrivals.push({ kind: "deleted", name });
    }
  return { next: { pending, complete, vanished: gone }, arrivals };
}

function withEntry<V>(map: ReadonlyMap<string, V>, key: string, value: V): Map<string, V> {
  return new Map(map).set(key, value);
}

function without<V>(map: ReadonlyMap<string, V>, key: string): ReadonlyMap<string, V> {
  if (!map.has(key)) return map;
  const copy = new Map(map);
  copy.delete(key);
  return copy;
}
