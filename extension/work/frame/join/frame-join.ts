/** From a resolved frame to what joins its scans. Opens nothing: whoever plans the work need not carry a decoder. */
import { JobError } from "../../../failure.ts";
import type { Spot } from "../../../engine/image/spot.ts";
import type { JoinPlace } from "../../../engine/image/join/place.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../../recipe/resolve/resolve.ts";
import type { Fingerprint } from "../../../scans/files/fingerprint.ts";
import type { Workspace } from "../../files/workspace.ts";
import { type FrameMerge, mergeOf } from "../merge/frame-merge.ts";

/** One scan of several that make up a frame. Plain data: it crosses to the workers. */
export interface JoinedScan {
  /** Absolute. */
  readonly path: string;
  /** In pixels of the full scan. */
  readonly place: JoinPlace;
  readonly locked?: Fingerprint;
}

export interface FrameJoin {
  readonly scans: readonly JoinedScan[];
  /** Sensor dust, which lies at the same place in each scan; the setup's own spots are those of the joined picture. */
  readonly sensorDust: readonly Spot[];
}

/** What a frame of several scans is made of. */
export interface FrameParts {
  readonly join?: FrameJoin;
  readonly merge?: FrameMerge;
  /** Of the joined picture alone, or of the merged scan. */
  readonly spots: readonly Spot[];
}

/**
 * What to join or to merge a frame from; nothing for a frame of one scan.
 * @throws JobError when it has not been measured how the scans lie to one another
 */
export function partsOf(
  roll: Pick<ResolvedRoll, "fingerprints">,
  frame: ResolvedFrame,
  workspace: Workspace,
): FrameParts | undefined {
  if (frame.scans.length < 2) return undefined;
  const merge = mergeOf(roll, frame, workspace);
  if (merge) return { merge, spots: [...frame.light.spots, ...frame.spots] };
  const { join } = frame;
  if (!join)
    throw new JobError({
      code: "join",
      message: `Frame ${frame.id} is made of ${frame.scans.length} scans, and the recipe does not state their positions (key join).`,
      remedy: "Measure the joins of this roll’s large frames first.",
    });
  const scans = frame.scans.map(({ name, path }, i) => ({
    path: workspace.absolute(path),
    place: join[i],
    locked: roll.fingerprints[name],
  }));
  return { join: { scans, sensorDust: frame.light.spots }, spots: frame.spots };
}
