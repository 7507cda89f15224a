/** Fingerprints of all scans of a roll. */
import { errorText } from "../../scans/files/system-errors.ts";
import type { ResolvedRoll, ScanPlace } from "../../recipe/resolve/resolve.ts";
import { blanksOf } from "../../recipe/resolve/channels.ts";
import { eachLimited } from "../pool/each-limited.ts";
import type { Pool } from "../pool/pool.ts";
import type { Fingerprint } from "../../scans/files/fingerprint.ts";
import { fingerprintScanJob } from "./jobs.ts";
import type { Workspace } from "./workspace.ts";

export interface ScanFingerprints {
  /** Size in bytes and SHA-256 (hexadecimal) by the scan's name, in the order of names. */
  readonly fingerprints: Readonly<Record<string, Fingerprint>>;
  /** Scans that cannot be read, and why: with any of them the roll must not be locked, since a lock speaks for every scan. */
  readonly missing: readonly { readonly scan: string; readonly message: string }[];
  /** Scans, blanks and base scans that the roll names. */
  readonly total: number;
}

/** Reads every scan, blank and base scan of a roll whole. A scan that cannot be read is reported; only cancelling throws. */
export async function fingerprintScans(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  { signal, onProgress }: { signal?: AbortSignal; onProgress?: (done: number, total: number, scan: string) => void },
): Promise<ScanFingerprints> {
  const places = new Map<string, ScanPlace>();
  for (const { scans, light, base } of roll.frames)
    for (const place of [...scans, ...blanksOf(light), base.read?.scan]) if (place) places.set(place.name, place);
  let done = 0;
  const missing: { scan: string; message: string }[] = [];
  const entries = await eachLimited([...places.values()].toSorted(byName), pool.workers + 1, async ({ name, path }) => {
    try {
      const { size, sha256 } = await pool.run(fingerprintScanJob, { path: workspace.absolute(path) }, { signal });
      return [name, { size, sha256 }] as const;
    } catch (error) {
      if (signal?.aborted) throw error;
      missing.push({ scan: name, message: errorText(error) });
      return undefined;
    } finally {
      onProgress?.(++done, places.size, name);
    }
  });
  return {
    fingerprints: Object.fromEntries(entries.filter((entry) => entry !== undefined)),
    missing,
    total: places.size,
  };
}

const byName = (a: ScanPlace, b: ScanPlace): number => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);
