/** The frames of a roll: pictures found on its scans, repeated scans set aside, parts of one picture joined. */
import type { Area, Rgb } from "../../../engine/types.ts";
import type { RollGround } from "../light/roll-ground.ts";
import { eachLimited } from "../../pool/each-limited.ts";
import type { KnownFrame, KnownRoll } from "../known-roll.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { findBrackets } from "./brackets.ts";
import type { FoundPicture } from "./found-picture.ts";
import { findTogether } from "./find-pictures.ts";
import { samplesWithoutFlare } from "../../../engine/auto/roll/common-flare.ts";
import { frameShots, type Shot, type ShotFrame } from "./join-shots.ts";
import { findFrameJob } from "../jobs.ts";
import { withoutRetakes } from "./without-retakes.ts";

export interface RollFrames {
  readonly frames: readonly ShotFrame[];
  /** What was found on each picture's scan. */
  readonly seen: readonly FoundPicture[];
  /** What was found on each picture, in order along the film; several may lie on one scan. */
  readonly shown: readonly Shot[];
  /** Scans that are not used, by the key of the picture that is (`shotKey`). */
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
  const shown = shotsOf(pictures, together.seen, flare, context);
  if (known)
    return {
      seen: together.seen,
      shown,
      unused: new Map(),
      ...(await knownFrames(known, shown, ground, together.warnings, context)),
    };
  const { brackets, ...single } = findBrackets(shown);
  const { shots, unused, warnings } = withoutRetakes(single.shots);
  // Where the roll's pictures lie whole in their scans, the format is no larger than a scan and nothing is a part.
  const fits = together.place !== undefined;
  const { ratio } = setup;
  const joined = await frameShots(shots, { light, ratio, base: joinBase, fits, signal: context.signal }, context.pool);
  const frames = await eachLimited(joined.frames, context.pool.workers + 1, async (frame) => {
    const bracket = frame.scans.length === 1 ? brackets.get(frame.scans[0]!) : undefined;
    const names = bracket?.map(({ name }) => name);
    return names ? await mergedFrame({ scans: names }, ground, context) : frame;
  });
  const all = [...together.warnings, ...single.warnings, ...warnings, ...joined.warnings];
  return { frames, seen: together.seen, shown, unused, warnings: all };
}

function exposureOf({ shutter, iso = 1, aperture = 1 }: FirstPassScan["info"]): number | undefined {
  return shutter === undefined ? undefined : (shutter * iso) / aperture ** 2;
}

/** A frame of several exposures, with what is found on the merged scan. */
async function mergedFrame(
  { id, scans, area }: Pick<KnownFrame, "scans" | "area"> & { readonly id?: string },
  { light, setup, filmBase, flare }: RollGround,
  { pathOf, pool, signal }: StartContext,
): Promise<ShotFrame> {
  const merge = { scans: scans.map((name) => ({ name, path: pathOf(name) })) };
  const known = { base: filmBase, flare };
  const request = { path: merge.scans[0]!.path, merge, ...setup, light, known, ...(area ? { area } : {}) };
  const seen = await pool.run(findFrameJob, request, { signal });
  return { ...(id === undefined ? {} : { id }), scans, merged: true, seen };
}

/** Every picture of every scan. */
function shotsOf(
  pictures: readonly FirstPassScan[],
  seen: readonly FoundPicture[],
  flare: Rgb | undefined,
  { pathOf }: StartContext,
): Shot[] {
  return pictures.flatMap(({ name, info }, i): Shot[] => {
    const path = pathOf(name);
    const { parts } = seen[i];
    const exposure = exposureOf(info);
    const shot = { name, path, ...(exposure === undefined ? {} : { exposure }) };
    if (!parts) return samplesWithoutFlare([seen[i]], flare).map((one) => ({ ...shot, seen: one }));
    return samplesWithoutFlare(parts, flare).map((one, k) => ({ name, path, seen: one, part: [k + 1, parts.length] }));
  });
}

/** The picture of a scan, or the one of several that lies where a recipe has it. */
function shotAt(name: string, { left, top, width, height }: Area, shown: readonly Shot[]): Shot | undefined {
  const own = shown.filter((shot) => shot.name === name);
  if (own.every(({ part }) => part === undefined)) return own[0];
  const [x, y] = [left + width / 2, top + height / 2];
  return own.find(({ seen: { frame } }) => {
    if (!frame) return false;
    const { area } = frame;
    return (
      Math.abs(area.left + area.width / 2 - x) < area.width / 2 &&
      Math.abs(area.top + area.height / 2 - y) < area.height / 2
    );
  });
}

/** The recipe's own frames. What is laid together stays so; a frame whose scans cannot be read is left out. */
async function knownFrames(
  { frames }: KnownRoll,
  shown: readonly Shot[],
  ground: RollGround,
  found: readonly string[],
  context: StartContext,
): Promise<Pick<RollFrames, "frames" | "warnings">> {
  const { light, setup, filmBase } = ground;
  const { pathOf, pool, signal } = context;
  const warnings = [...found];
  const made: ShotFrame[] = [];
  for (const { id, scans, merged, places, area, place } of frames) {
    const shots = scans.flatMap((name) => shotAt(name, place, shown) ?? []);
    const isShared = scans.length === 1 && frames.filter((other) => other.scans[0] === scans[0]).length > 1;
    if (isShared && shots.every(({ part }) => part === undefined)) {
      warnings.push(`Frame ${id}: its picture was not found among those of ${scans[0]}: its values stay.`);
    } else if (shots.length < scans.length || scans.length === 0) {
      warnings.push(`Frame ${id} has a scan that cannot be read: its values stay.`);
    } else if (merged) {
      made.push(await mergedFrame({ id, scans, area }, ground, context));
    } else if (shots.length === 1) {
      const { seen, part } = shots[0];
      // A rectangle that is kept is not found again.
      const own = part && area ? { ...seen, frame: undefined } : seen;
      made.push({ id, scans, seen: own, ...(part ? { part } : {}) });
    } else if (places) {
      const join = { scans: scans.map((name, i) => ({ path: pathOf(name), place: places[i] })), sensorDust: [] };
      const known = { base: filmBase, flare: [0, 0, 0] as const };
      const request = { path: join.scans[0].path, join, light, ratio: setup.ratio, known, ...(area ? { area } : {}) };
      made.push({ id, scans, seen: await pool.run(findFrameJob, request, { signal }) });
    } else warnings.push(`Frame ${id} has several scans that were not joined yet: its values stay.`);
  }
  return { frames: made, warnings };
}
