/** The frames of a roll: pictures found on its scans, repeated scans set aside, parts of one picture joined. */
import type { Rgb } from "../../../engine/types.ts";
import type { RollGround } from "../light/roll-ground.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { FoundPicture } from "./find-frame.ts";
import { findTogether } from "./find-pictures.ts";
import { samplesWithoutFlare } from "../../../engine/auto/roll/common-flare.ts";
import { frameShots, type ShotFrame } from "./join-shots.ts";
import { withoutRetakes } from "./without-retakes.ts";

export interface RollFrames {
  readonly frames: readonly ShotFrame[];
  /** What was found on each picture's scan. */
  readonly seen: readonly FoundPicture[];
  /** Scans that are not used, by the name of the one that is. */
  readonly unused: ReadonlyMap<string, readonly string[]>;
  readonly warnings: readonly string[];
}

/** @param base that joined scans are looked at with: the film's, or the stock's */
export async function rollFrames(
  pictures: readonly FirstPassScan[],
  { alone, base, flare, light, setup }: RollGround,
  joinBase: Rgb | undefined,
  context: StartContext,
): Promise<RollFrames> {
  const together = await findTogether(pictures, alone, { base: base?.density, flare }, setup, context);
  const seen = samplesWithoutFlare(together.seen, flare);
  const shown = pictures.map(({ name }, i) => ({ name, path: context.pathOf(name), seen: seen[i] }));
  const { shots, unused, warnings } = withoutRetakes(shown);
  // Where the roll's pictures lie whole in their scans, the format is no larger than a scan and nothing is a part.
  const fits = together.place !== undefined;
  const { ratio } = setup;
  const joined = await frameShots(shots, { light, ratio, base: joinBase, fits, signal: context.signal }, context.pool);
  return { frames: joined.frames, seen, unused, warnings: [...together.warnings, ...warnings, ...joined.warnings] };
}
