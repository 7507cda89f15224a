/** Decodes the exposures of a frame and merges them into one scan. A part that cannot be used is named and left out. */
import { type PartReading, type PartRefusal, startMerge } from "../../../engine/merge/merge.ts";
import type { ScanInfo } from "../../../engine/types.ts";
import { failureOf, isWorkerLoss } from "../../../failure.ts";
import type { DecodedScan } from "../../../scans/decode.ts";
import type { ScanWarning } from "../../../scans/errors.ts";
import { checkLock } from "../check-lock.ts";
import type { FrameLight } from "../develop.ts";
import { openScan } from "../open-scan.ts";
import type { FrameMerge, MergedScan } from "./frame-merge.ts";
import { openChannels } from "./open-channels.ts";

/** How the scans of a merge are read. */
export interface MergeReading {
  readonly half?: boolean;
  /** Reads scans that are made smaller already, in place of decoding them. */
  readonly read?: (path: string) => Promise<DecodedScan>;
  readonly checkpoint: () => void;
}

/** A merged scan; `info` is the first scan's, with the exposure that its signals are in units of. */
export interface OpenedMerge extends DecodedScan {
  /** Scans that took part. */
  readonly parts: readonly MergedScan[];
}

/**
 * Decodes one scan after the other, its lens's faults corrected, and merges them: exposures, each laid on the first that
 * can be read, or channels.
 * @throws the failure of the last scan where none can be read (of channels, where any cannot), and a lock that a scan
 *   breaks
 */
export async function openMerged(
  merge: FrameMerge,
  light: Pick<FrameLight, "lens" | "references" | "times">,
  { half = false, read, checkpoint }: MergeReading,
): Promise<OpenedMerge> {
  const open = async ({ path, locked }: MergedScan): Promise<DecodedScan> => {
    await checkLock(path, locked);
    return read ? read(path) : openScan(path, light.lens, { half });
  };
  return merge.channels
    ? await openChannels(merge, light, { open, checkpoint })
    : await openExposures(merge, open, checkpoint);
}

async function openExposures(
  { scans }: FrameMerge,
  open: (part: MergedScan) => Promise<DecodedScan>,
  checkpoint: () => void,
): Promise<OpenedMerge> {
  const warnings: ScanWarning[] = [];
  const parts: (MergedScan & Partial<PartReading> & { readonly info: ScanInfo })[] = [];
  let merge: ReturnType<typeof startMerge> | undefined;
  let failure: unknown;
  for (const part of scans) {
    const decoded = await open(part).catch((error: unknown) => {
      if (!isOwnFault(error)) throw error;
      failure = error;
      warnings.push(leftOut(part, failureOf(error).message));
      return undefined;
    });
    checkpoint();
    if (!decoded) continue;
    const { scan, info } = decoded;
    warnings.push(...decoded.warnings);
    if (!merge) {
      merge = startMerge(scan, checkpoint);
      parts.push({ ...part, info });
      continue;
    }
    const reading = merge.add(scan, (info.iso ?? 1) / (parts[0]!.info.iso ?? info.iso ?? 1));
    checkpoint();
    if (typeof reading === "string") warnings.push(leftOut(part, REFUSALS[reading]));
    else parts.push({ ...part, ...reading, info });
  }
  if (!merge) throw failure;
  const shortest = parts.reduce((least, one) => ((one.exposure ?? 1) < (least.exposure ?? 1) ? one : least));
  const { shutter, iso, aperture } = shortest.info;
  return {
    scan: merge.finish(),
    info: { ...parts[0]!.info, shutter, iso, aperture },
    warnings: unique(warnings),
    parts,
  };
}

const REFUSALS: Record<PartRefusal, string> = {
  size: "it has another size than the first.",
  exposure: "nothing is well exposed both in it and in the first.",
  picture: "it does not show the first one’s picture.",
};

const leftOut = ({ name }: MergedScan, why: string): ScanWarning => ({
  code: "exposure",
  message: `${name} takes no part in its frame, which is made of its other exposures: ${why}`,
});

/** Cancelled work, a lost worker and a broken lock end the frame; a scan that cannot be read ends itself. */
function isOwnFault(error: unknown): boolean {
  const { code } = failureOf(error);
  return code !== "cancelled" && code !== "fingerprint" && !isWorkerLoss(error);
}

const unique = (warnings: readonly ScanWarning[]): ScanWarning[] => [
  ...new Map(warnings.map((warning) => [warning.message, warning])).values(),
];
