/** Fingerprints of files that are asked for again and again, as previews do: a file is read again once it has changed. */
import { statSync } from "node:fs";
import { type Fingerprint, fingerprint } from "./fingerprint.ts";

interface Remembered {
  readonly state: string;
  readonly print: Fingerprint;
}

const remembered = new Map<string, Remembered>();
/** Files that are remembered, the longest unused forgotten first: several rolls. */
const MAX_FILES = 2000;
/** Nanoseconds: a file that was changed less than this ago may change once more without its time telling. */
const SETTLED = 2_000_000_000n;

/**
 * The same as `fingerprint`, read once for each state of a file: its place on the disk, size and times.
 * @throws ScanError where it cannot be read
 */
export async function rememberedFingerprint(path: string): Promise<Fingerprint> {
  const before = stateOf(path);
  const known = remembered.get(path);
  remembered.delete(path);
  if (known && known.state === before?.state) {
    remembered.set(path, known);
    return known.print;
  }
  const print = await fingerprint(path);
  if (!before?.isSettled || stateOf(path)?.state !== before.state) return print;
  remembered.set(path, { state: before.state, print });
  for (const oldest of remembered.keys()) if (remembered.size > MAX_FILES) remembered.delete(oldest);
  return print;
}

/** Where a link leads counts, not the link itself. */
function stateOf(path: string): { readonly state: string; readonly isSettled: boolean } | undefined {
  const found = statSync(path, { bigint: true, throwIfNoEntry: false });
  if (!found?.isFile()) return undefined;
  const { dev, ino, size, mtimeNs, ctimeNs } = found;
  const changed = mtimeNs > ctimeNs ? mtimeNs : ctimeNs;
  const now = BigInt(Date.now()) * 1_000_000n;
  return { state: [dev, ino, size, mtimeNs, ctimeNs].join(":"), isSettled: now - changed > SETTLED };
}
