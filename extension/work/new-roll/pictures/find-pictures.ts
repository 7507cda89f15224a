/** Finds the picture on each scan of a roll: alone, then with what the roll's other scans tell. */
import { type FoundFrame, isWhole } from "../../../engine/detect/frame.ts";
import { findFrameJob } from "../jobs.ts";
import { commonPlace, hasRollSize, reachesHolder, type RollPlace } from "../../../engine/detect/roll-place.ts";
import type { Area, Film, Rgb } from "../../../engine/types.ts";
import type { FrameLight } from "../../frame/develop.ts";
import { eachLimited } from "../../pool/each-limited.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { FindFrame } from "./find-frame.ts";
import type { FoundPicture } from "./found-picture.ts";

/** What holds for all scans of the roll. */
export interface FindSetup {
  readonly light: FrameLight;
  /** Longer over shorter side of the format. */
  readonly ratio?: number;
  readonly film: Film;
}

const CLEAR: Rgb = [0, 0, 0];
/** Confidence in a rectangle below which it is not used. */
const MIN_CONFIDENCE = 0.5;

const findOn = (
  name: string,
  setup: FindSetup,
  { pool, signal, pathOf }: StartContext,
  own: Pick<FindFrame, "known" | "whole" | "area"> = {},
): Promise<FoundPicture> => {
  const path = pathOf(name);
  return pool.run(findFrameJob, { path, ...setup, ...own }, { signal, near: path });
};

/**
 * What each scan shows by itself.
 * @param areas rectangles that are known, by the name of the scan: none is looked for there
 */
export function findAlone(
  shots: readonly FirstPassScan[],
  setup: FindSetup,
  context: StartContext,
  areas: ReadonlyMap<string, Area>,
): Promise<FoundPicture[]> {
  // Enough wait for each worker to find one that it has seen already.
  return eachLimited(shots, 4 * context.pool.workers, async ({ name }) => {
    // A slide's margin is black: to its edges it is what a holder is to a negative's.
    const found = await findOn(name, setup, context, {
      area: areas.get(name),
      ...(setup.film === "slide" ? { known: { base: CLEAR } } : {}),
    });
    context.step(name);
    return found;
  });
}

export interface KnownOfRoll {
  readonly base?: Rgb;
  readonly flare?: Rgb;
  /** Rectangles that are known, by the name of the scan. */
  readonly areas: ReadonlyMap<string, Area>;
}

export interface FoundPictures {
  readonly seen: readonly FoundPicture[];
  /** Where the roll's pictures lie on their scans, where they agree. */
  readonly place?: Area;
  readonly warnings: readonly string[];
}

/** Whether what was seen with the roll in mind counts more than what was seen without it. */
function isBetter(again: FoundFrame, alone: FoundFrame, place: RollPlace | undefined): boolean {
  if (place && hasRollSize(again, place) && (isWhole(again) || reachesHolder(alone, place))) return true;
  // A picture of another size than the roll's others is what the first look saw.
  return !isWhole(alone) && again.confidence >= alone.confidence;
}

/** Looks again at scans whose picture is not seen whole or is not as large as the roll's, with what is known of the roll. */
export async function findTogether(
  pictures: readonly FirstPassScan[],
  alone: readonly FoundPicture[],
  { base, flare, areas }: KnownOfRoll,
  setup: FindSetup,
  context: StartContext,
): Promise<FoundPictures> {
  const seen = [...alone];
  const place = commonPlace(seen.map((one) => one.frame));
  const filmBase = setup.film === "slide" ? CLEAR : base;
  const warnings: string[] = [];
  await eachLimited(pictures, context.pool.workers + 1, async ({ name }, i) => {
    const { frame, flare: own, parts } = seen[i];
    if (areas.has(name) || parts) return;
    if (frame ? !place || (isWhole(frame) && hasRollSize(frame, place)) : !(base ?? place)) return;
    const again = await findOn(name, setup, context, { known: { base: filmBase, flare: own ?? flare, place } });
    if (!frame || (again.frame && isBetter(again.frame, frame, place))) seen[i] = again;
  });
  // A rectangle that is more likely wrong than right would cut the picture: the whole scan is taken.
  await eachLimited(pictures, context.pool.workers + 1, async ({ name }, i) => {
    const { frame, flare: own, base: ownBase } = seen[i];
    if (!frame || frame.confidence >= MIN_CONFIDENCE || Object.values(frame.sides).includes("roll")) return;
    const whole = await findOn(name, setup, context, { known: { flare: own ?? flare }, whole: true });
    seen[i] = { ...whole, ...(ownBase ? { base: ownBase } : {}) };
    warnings.push(`${name}: the picture's edges were not seen clearly enough to crop it.`);
  });
  return { seen, ...(place ? { place } : {}), warnings };
}
