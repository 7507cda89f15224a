/** The frames of a roll: pictures found on its scans, repeated scans set aside, parts of one picture joined. */
import type { Rgb } from "../../../engine/types.ts";
import type { RollGround } from "../light/roll-ground.ts";
import type { KnownRoll } from "../known-roll.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { FoundPicture } from "./find-frame.ts";
import { findTogether } from "./find-pictures.ts";
import { samplesWithoutFlare } from "../../../engine/auto/roll/common-flare.ts";
import { frameShots, type Shot, type ShotFrame } from "./join-shots.ts";
import { findFrameJob } from "../jobs.ts";
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
  ground: RollGround,
  joinBase: Rgb | undefined,
  context: StartContext,
  known?: KnownRoll,
): Promise<RollFrames> {
  const { alone, density, flare, light, setup, areas } = ground;
  const together = await findTogether(pictures, alone, { base: density, flare, areas }, setup, context);
  const seen = samplesWithoutFlare(together.seen, flare);
  const shown = pictures.map(({ name }, i) => ({ name, path: context.pathOf(name), seen: seen[i] }));
  if (known)
    return { seen, unused: new Map(), ...(await knownFrames(known, shown, ground, together.warnings, context)) };
  const { shots, unused, warnings } = withoutRetakes(shown);
  // Where the roll's pictures lie whole in their scans, the format is no larger than a scan and nothing is a part.
  const fits = together.place !== undefined;
  const { ratio } = setup;
  const joined = await frameShots(shots, { light, ratio, base: joinBase, fits, signal: context.signal }, context.pool);
  return { frames: joined.frames, seen, unused, warnings: [...together.warnings, ...warnings, ...joined.warnings] };
}

/** The recipe's own frames. What is laid together stays so; a frame whose scans cannot be read is left out. */
async function knownFrames(
  { frames }: KnownRoll,
  shown: readonly Shot[],
  { light, setup, filmBase }: RollGround,
  found: readonly string[],
  { pathOf, pool, signal }: StartContext,
): Promise<Pick<RollFrames, "frames" | "warnings">> {
  const warnings = [...found];
  const made: ShotFrame[] = [];
  for (const { id, scans, places, area } of frames) {
    const shots = scans.flatMap((name) => shown.find((shot) => shot.name === name) ?? []);
    if (shots.length < scans.length || scans.length === 0) {
      warnings.push(`Frame ${id} has a scan that cannot be read: its values stay.`);
    } else if (shots.length === 1) {
      made.push({ id, scans, seen: shots[0].seen });
    } else if (places) {
      const join = { scans: scans.map((name, i) => ({ path: pathOf(name), place: places[i] })), sensorDust: [] };
      const known = { base: filmBase, flare: [0, 0, 0] as const };
      const request = { path: join.scans[0].path, join, light, ratio: setup.ratio, known, ...(area ? { area } : {}) };
      made.push({ id, scans, seen: await pool.run(findFrameJob, request, { signal }) });
    } else warnings.push(`Frame ${id} has several scans that were not joined yet: its values stay.`);
  }
  return { frames: made, warnings };
}
