/** What a survey proposes to heal, as edits of a recipe. */
import type { Speck } from "../../engine/survey/types.ts";
import type { ValueEdit } from "../edit/edit.ts";
import type { ResolvedFrame, ResolvedRoll, Spot } from "../resolve/resolve.ts";

/** Specks that a survey proposes to heal: dust by frame, dirt for the whole roll. */
export interface Proposals {
  readonly dust: Readonly<Record<string, readonly Speck[]>>;
  readonly dirt: readonly Speck[];
}

export interface SpotEdits {
  readonly edits: readonly ValueEdit[];
  /** How many spots they add. */
  readonly dust: number;
  readonly dirt: number;
}

/** Writes dust into the frames' `spots` and dirt into the roll's `light.spots`. Spots that are there already are kept. */
export function spotEdits(roll: ResolvedRoll, { dust, dirt }: Proposals): SpotEdits {
  const edits: ValueEdit[] = [];
  let count = 0;
  for (const frame of roll.frames) {
    const fresh = freshDust(frame, dust);
    if (fresh.length === 0) continue;
    count += fresh.length;
    edits.push({ path: ["frames", frame.id, "spots"], value: [...frame.spots, ...fresh] });
  }
  const own = roll.shared.light.spots;
  const fresh = freshSpots(dirt, own);
  if (fresh.length > 0) edits.push({ path: ["light", "spots"], value: [...own, ...fresh] });
  return { edits, dust: count, dirt: fresh.length };
}

/** Proposals for a frame that its recipe does not heal yet. None where several scans are joined: spots are one scan's. */
export function freshDust({ id, scans, spots, light }: ResolvedFrame, dust: Proposals["dust"]): Spot[] {
  const specks = Object.hasOwn(dust, id) && scans.length === 1 ? dust[id]! : [];
  return freshSpots(specks, [...spots, ...light.spots]);
}

/** The discs that cover some specks, without those whose middle lies on a known spot. */
export function freshSpots(specks: readonly Speck[], known: readonly Spot[]): Spot[] {
  const round = (v: number): number => Number(v.toFixed(5));
  return specks
    .flatMap((s) => s.discs)
    .filter((disc) => !isOn(disc, known))
    .map(([x, y, r]) => [round(x), round(y), round(r)] as const);
}

/** Whether a spot's middle lies on one of some others. */
export const isOn = ([x, y]: Spot, others: readonly Spot[]): boolean =>
  others.some((other) => Math.hypot(other[0] - x, other[1] - y) < other[2]);
