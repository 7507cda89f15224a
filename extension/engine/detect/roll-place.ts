/**
 * Where a roll's pictures lie: the film's camera made them all of one size, and the holder brings them all to about one
 * place. So a night in which no edge can be seen lies where the other pictures do.
 */
import { deviation, median } from "../math/statistics.ts";
import type { Area, Side } from "../types.ts";
import { SIDES } from "./edges.ts";
import { type FoundFrame, isWhole, SIZE } from "./frame.ts";

/** Where a roll's pictures lie, and by how much each lies elsewhere. */
export interface RollPlace extends Area {
  /** Standard deviation of their middles by the median of the deviations, fractions of the scan's sides. */
  readonly spread?: readonly [across: number, down: number];
}

/** Pictures with all their sides in view that are needed, and the part of them that must be of one size. */
const MIN_FRAMES = 3;
const AGREED = 2 / 3;
const MIN_CONFIDENCE = 0.9;

/** The middle of the places of those pictures that were found for certain; undefined where they do not agree. */
export function commonPlace(frames: readonly (FoundFrame | undefined)[]): RollPlace | undefined {
  const confident = frames.filter((f) => f !== undefined).filter((f) => isWhole(f) && f.confidence > MIN_CONFIDENCE);
  if (confident.length < MIN_FRAMES) return undefined;
  const [width, height] = [middle(confident, "width"), middle(confident, "height")];
  const agreeing = confident.filter(({ area }) => isOfSize(area, { width, height }));
  if (agreeing.length < MIN_FRAMES || agreeing.length < AGREED * confident.length) return undefined;
  return {
    left: middle(agreeing, "left"),
    top: middle(agreeing, "top"),
    width: middle(agreeing, "width"),
    height: middle(agreeing, "height"),
    tilt: middle(agreeing, "tilt"),
    spread: [
      deviation(Float64Array.from(agreeing, ({ area }) => area.left + area.width / 2)),
      deviation(Float64Array.from(agreeing, ({ area }) => area.top + area.height / 2)),
    ],
  };
}

/** Whether a picture is as large as the roll's others. */
export const hasRollSize = ({ area }: FoundFrame, place: Area): boolean => isOfSize(area, place);

type Size = Pick<Area, "width" | "height">;

const isOfSize = (area: Size, { width, height }: Size): boolean =>
  Math.abs(area.width / width - 1) < SIZE && Math.abs(area.height / height - 1) < SIZE;

/** A side is found beyond the roll's place where it lies farther out than this, in fractions of the scan's side. */
const BEYOND = 0.01;

/**
 * Whether a rectangle reaches to the holder on at least two sides where the roll's others show film beyond the picture:
 * light that leaks in clears the margin, so that all margins count as picture.
 */
export function reachesHolder({ area, sides }: FoundFrame, place: Area): boolean {
  const out = {
    left: place.left - area.left,
    top: place.top - area.top,
    right: area.left + area.width - place.left - place.width,
    bottom: area.top + area.height - place.top - place.height,
  };
  return SIDES.filter((side) => sides[side] === "holder" && out[side] > BEYOND).length >= 2;
}

/** How far beside the roll's place a side may be implied: so many of its standard deviations, and at least so much. */
const [MAX_DEVIATIONS, MIN_OFFSET] = [5, 0.02];

/**
 * The rectangle with its place along an axis taken from the roll, where one side on that axis was implied from another
 * that lies too far from where the roll's others are.
 */
export function withinSpread(frame: FoundFrame, place: RollPlace): FoundFrame {
  const [across, down] = (place.spread ?? [0, 0]).map((spread) => Math.max(MIN_OFFSET, MAX_DEVIATIONS * spread));
  const { area, sides } = frame;
  const isImplied = (a: Side, b: Side): boolean => sides[a] === "roll" || sides[b] === "roll";
  const offset = (from: "left" | "top", size: "width" | "height"): number =>
    Math.abs(area[from] + area[size] / 2 - place[from] - place[size] / 2);
  const isOffAcross = isImplied("left", "right") && offset("left", "width") > across;
  const isOffDown = isImplied("top", "bottom") && offset("top", "height") > down;
  if (!isOffAcross && !isOffDown) return frame;
  return {
    ...frame,
    area: {
      ...area,
      ...(isOffAcross ? { left: place.left, width: place.width } : {}),
      ...(isOffDown ? { top: place.top, height: place.height } : {}),
    },
    confidence: UNSEEN,
    sides: {
      ...sides,
      ...(isOffAcross ? { left: "roll", right: "roll" } : {}),
      ...(isOffDown ? { top: "roll", bottom: "roll" } : {}),
    },
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
