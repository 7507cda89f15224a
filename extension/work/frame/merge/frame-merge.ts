/** From a resolved frame to what merges its exposures. Opens nothing: whoever plans the work need not carry a decoder. */
import type { ResolvedFrame, ResolvedRoll } from "../../../recipe/resolve/resolve.ts";
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
  /** In the recipe's order: the first that can be read sets the axes. */
  readonly scans: readonly MergedScan[];
}

/** What to merge a frame from; nothing for a frame that is not merged. */
export function mergeOf(
  { fingerprints }: Pick<ResolvedRoll, "fingerprints">,
  frame: Pick<ResolvedFrame, "scans" | "merged">,
  workspace: Workspace,
): FrameMerge | undefined {
  if (!frame.merged) return undefined;
  const scans = frame.scans.map(({ name, path }) => {
    const locked = fingerprints[name];
    return { name, path: workspace.absolute(path), ...(locked ? { locked } : {}) };
  });
  return { scans };
}
