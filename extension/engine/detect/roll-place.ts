/**
 * Where a roll's pictures lie: the film's camera made them all of one size, and the holder brings them all to about one
 * place. So a night in which no edge can be seen lies where the other pictures do.
 */
import { median } from "../math/statistics.ts";
import type { Area } from "../types.ts";
import { type FoundFrame, isWhole, SIZE } from "./frame.ts";

/** Pictures with all their sides in view that are needed, and the part of them that must be of one size. */
const MIN_FRAMES = 3;
const AGREED = 2 / 3;
const MIN_CONFIDENCE = 0.9;

/** The middle of the places of those pictures that were found for certain; undefined where they do not agree. */
export function commonPlace(frames: readonly (FoundFrame | undefined)[]): Area | undefined {
  const confident = frames.filter((f) => f !== undefined).filter((f) => isWhole(f) && f.confidence > MIN_CONFIDENCE);
  if (confident.length < MIN_FRAMES) return undefined;
  const [width, height] = [middle(confident, "width"), middle(confident, "height")];
  const agreeing = confident.filter(
    ({ area }) => Math.abs(area.width / width - 1) < SIZE && Math.abs(area.height / height - 1) < SIZE,
  );
  if (agreeing.length < MIN_FRAMES || agreeing.length < AGREED * confident.length) return undefined;
  return {
    left: middle(agreeing, "left"),
    top: middle(agreeing, "top"),
    width: middle(agreeing, "width"),
    height: middle(agreeing, "height"),
    tilt: middle(agreeing, "tilt"),
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
