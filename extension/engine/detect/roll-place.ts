/**
 * Where a roll's pictures lie: the film's camera made them all of one size, and the holder brings them all to about one
 * place. So a night in which no edge can be seen lies where the other pictures do.
 */
import { median } from "../math/statistics.ts";
import type { Area } from "../types.ts";
import { type FoundFrame, isWhole, SIZE } from "./frame.ts";

/** Pictures with all their sides in view that are needed, and the part of them that must be of one size. */
const FEWEST = 3;
const AGREED = 2 / 3;
const SURE = 0.9;

/** The middle of the places of those pictures that were found for certain; undefined where they do not agree. */
export function commonPlace(frames: readonly (FoundFrame | undefined)[]): Area | undefined {
  const sure = frames.filter((f) => f !== undefined).filter((f) => isWhole(f) && f.confidence > SURE);
  if (sure.length < FEWEST) return undefined;
  const [width, height] = [middle(sure, "width"), middle(sure, "height")];
  const alike = sure.filter(
    ({ area }) => Math.abs(area.width / width - 1) < SIZE && Math.abs(area.height / height - 1) < SIZE,
  );
  if (alike.length < FEWEST || alike.length < AGREED * sure.length) return undefined;
  return {
    left: middle(alike, "left"),
    top: middle(alike, "top"),
    width: middle(alike, "width"),
    height: middle(alike, "height"),
    tilt: middle(alike, "tilt"),
  };
}

function middle(frames: readonly FoundFrame[], key: keyof Area): number {
  return median(frames.map(({ area }) => area[key]));
}

/** Nothing of it was seen; film drifts in its holder, so it should be looked at. */
const UNSEEN = 0.3;

/** A picture that is only known to lie where the others do. */
export function placedFrame(place: Area): FoundFrame {
  return {
    area: place,
    confidence: UNSEEN,
    sides: { left: "roll", top: "roll", right: "roll", bottom: "roll" },
    support: { left: 0, top: 0, right: 0, bottom: 0 },
  };
}
