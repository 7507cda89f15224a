/** What a survey proposes to heal, as edits of a recipe. */
import { distanceFrom, middleOf, radiusOf, roundedSpot, type Spot } from "../../engine/image/spot.ts";
import type { Speck } from "../../engine/survey/types.ts";
import type { ValueEdit } from "../edit/edit.ts";
import type { ResolvedFrame, ResolvedRoll } from "../resolve/resolve.ts";

/** Specks that a survey proposes to heal: dust by frame, sensor dust for the whole roll. */
export interface Proposals {
  readonly dust: Readonly<Record<string, readonly Speck[]>>;
  readonly sensorDust: readonly Speck[];
}

export interface SpotEdits {
  readonly edits: readonly ValueEdit[];
  /** How many spots they add. */
  readonly dust: number;
  readonly sensorDust: number;
}

/** Writes dust into the frames' `spots` and sensor dust into the roll's `light.spots`. Spots that are there already are kept. */
export function spotEdits(roll: ResolvedRoll, { dust, sensorDust }: Proposals): SpotEdits {
  const edits: ValueEdit[] = [];
  let count = 0;
  for (const frame of roll.frames) {
    const fresh = freshDust(frame, dust);
    if (fresh.length === 0) continue;
    count += fresh.length;
    edits.push({ path: ["frames", frame.id, "spots"], value: [...frame.spots, ...fresh] });
  }
  const own = roll.shared.light.spots;
  const fresh = freshSpots(sensorDust, own);
  if (fresh.length > 0) edits.push({ path: ["light", "spots"], value: [...own, ...fresh] });
  return { edits, dust: count, sensorDust: fresh.length };
}

/** Proposals for a frame that its recipe does not heal yet. None where several scans are joined: spots are one scan's. */
export function freshDust({ id, scans, spots, light }: ResolvedFrame, dust: Proposals["dust"]): Spot[] {
  const specks = Object.hasOwn(dust, id) && scans.length === 1 ? dust[id]! : [];
  return freshSpots(specks, [...spots, ...light.spots]);
}

/** The spots that cover some specks, without those whose middle lies on a known spot. */
export function freshSpots(specks: readonly Speck[], known: readonly Spot[]): Spot[] {
  return specks
    .flatMap(({ spots }) => spots)
    .filter((spot) => !isOn(spot, known))
    .map((spot) => roundedSpot(spot, 5, 5));
}

/** Whether a spot's middle lies on one of some others. */
export const isOn = (spot: Spot, others: readonly Spot[]): boolean =>
  others.some((other) => distanceFrom(other, middleOf(spot)) < radiusOf(other));
