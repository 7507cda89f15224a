/** Which files of a folder are scans of one roll, and in which order they lie on the film. */
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { SCAN_KINDS, scanKind } from "../../../recipe/scan-names.ts";

export interface ScanFiles {
  /** One name a scan, in the order of the names. */
  readonly scans: readonly string[];
  /** Files left out because a better one of the same name lies beside them. */
  readonly duplicates: readonly string[];
}

/** The scans among a folder's names: of a raw file and a JPEG of one name, the raw file. */
export function scanFiles(names: readonly string[]): ScanFiles {
  const best = new Map<string, string>();
  const duplicates: string[] = [];
  for (const name of names) {
    const kind = scanKind(name);
    if (!kind || name.startsWith(".")) continue;
    const stem = name.slice(0, name.lastIndexOf(".")).toLowerCase();
    const rival = best.get(stem);
    const better = rival === undefined || SCAN_KINDS.indexOf(kind) < SCAN_KINDS.indexOf(scanKind(rival)!);
    if (rival !== undefined) duplicates.push(better ? rival : name);
    if (better) best.set(stem, name);
  }
  return { scans: [...best.values()].sort(byName), duplicates: duplicates.sort(byName) };
}

/** Names as people order them: numbers within them count as numbers. */
export function byName(a: string, b: string): number {
  const parts = (s: string): string[] => s.toLowerCase().match(/\d+|\D+/g) ?? [];
  const [p, q] = [parts(a), parts(b)];
  for (let i = 0; i < Math.min(p.length, q.length); i++) {
    if (p[i] === q[i]) continue;
    const [m, n] = [Number(p[i]), Number(q[i])];
    if (Number.isFinite(m) && Number.isFinite(n) && m !== n) return m - n;
    return p[i] < q[i] ? -1 : 1;
  }
  return p.length - q.length || (a < b ? -1 : a > b ? 1 : 0);
}

/** By the camera's clock where every scan has a time of its own (a file counter may start again at 1), else by name. */
export function inOrder<T extends FirstPassScan>(scans: readonly T[]): T[] {
  const times = scans.map((s) => s.info.time);
  const hasClock = times.every((t) => t !== undefined) && new Set(times).size === times.length;
  return scans.toSorted((a, b) => (hasClock ? (a.info.time! < b.info.time! ? -1 : 1) : byName(a.name, b.name)));
}
