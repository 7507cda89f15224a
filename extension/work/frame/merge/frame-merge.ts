/** From a resolved frame to what merges its scans. Opens nothing: whoever plans the work need not carry a decoder. */
import type { ResolvedFrame, ResolvedRoll, ScanPlace } from "../../../recipe/resolve/resolve.ts";
import type { Fingerprint } from "../../../scans/files/fingerprint.ts";
import type { Workspace } from "../../files/workspace.ts";

/** One of several scans of one picture. Plain data: it crosses to the workers. */
export interface MergedScan {
  /** Absolute. */
  readonly path: string;
  /** In the recipe. */
  readonly name: string;
  readonly locked?: Fingerprint;
}

export interface FrameMerge {
  /** In the recipe's order: the first that can be read sets the axes. Of channels: green, red, blue. */
  readonly scans: readonly MergedScan[];
  /** True where each scan gives one channel. */
  readonly channels?: true;
}

/** What to merge a frame from; nothing for a frame that is not merged. */
export function mergeOf(
  { fingerprints }: Pick<ResolvedRoll, "fingerprints">,
  frame: Pick<ResolvedFrame, "scans" | "merged" | "channels">,
  workspace: Workspace,
): FrameMerge | undefined {
  if (!frame.merged) return undefined;
  const scans = frame.scans.map((place) => mergedScan({ fingerprints }, place, workspace));
  return { scans, ...(frame.channels ? { channels: true } : {}) };
}

/** A scan as the workers need it. */
export function mergedScan(
  { fingerprints }: Pick<ResolvedRoll, "fingerprints">,
  { name, path }: ScanPlace,
  workspace: Workspace,
): MergedScan {
  const locked = fingerprints[name];
  return { name, path: workspace.absolute(path), ...(locked ? { locked } : {}) };
}
