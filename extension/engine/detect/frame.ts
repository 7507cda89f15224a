/** Finds the picture's rectangle and tilt from the margin of film around it, or from the holder that masks it. */
import type { Area, Side } from "../types.ts";
import { median } from "../math/statistics.ts";
import { type EdgePoints, edgePoints, type DensityAboveBase, SIDES } from "./edges.ts";
import { bestTilt, type Line, linesAt } from "./lines.ts";
import { fitRectangle, type FrameOptions } from "./rectangle.ts";

/**
 * How a side of the rectangle was found: seen, or placed by the format's proportions or by the roll's other pictures;
 * `outside` where the roll's size places it beyond the scan's border or under the holder.
 */
export type SideEvidence = "edge" | "holder" | "format" | "roll" | "outside" | "none";

export interface FoundFrame {
  /** Fractions of the scan; tilt in degrees, clockwise. */
  readonly area: Area;
  /** 0 … 1. Below 0.5 it should be looked at. */
  readonly confidence: number;
  readonly sides: Readonly<Record<Side, SideEvidence>>;
  /** Part of each side's length along which an edge was seen, 0 … 1. */
  readonly support: Readonly<Record<Side, number>>;
}

/** Whether all four sides were seen. */
export const isWhole = ({ sides }: FoundFrame): boolean =>
  Object.values(sides).every((s) => s === "edge" || s === "holder");

/** A side counts as seen where its edge is visible along this part of it. */
const MIN_SUPPORT = 0.06;
/**
 * Widest margin between a picture and what comes next (perforation, neighbour, holder), in parts of the scan, that needs
 * no proof. A wider one (the end of a strip, a small piece of film photographed whole) counts where all four sides are
 * seen along most of their length and have the format's proportions: lit windows in a night do not.
 */
const MAX_MARGIN = 0.15;
const MIN_FULL_SUPPORT = 0.6;
/** Pictures of one format differ in proportion from camera to camera by this much, relative. */
const PROPORTION = 0.015;
/** Pictures of one roll are of one size, up to this, relative: one camera made them, another photographed them. */
export const SIZE = 0.008;

/**
 * @param densityAboveBase of a scan or of a part of one; the area is in fractions of it
 * @returns undefined where fewer than two neighbouring sides and no format, or fewer than one pair, were seen
 */
export function findFrame(densityAboveBase: DensityAboveBase, frameOptions: FrameOptions = {}): FoundFrame | undefined {
  const { ratio, place } = frameOptions;
  const points = SIDES.map((side) => edgePoints(densityAboveBase, side));
  const tilt = bestTilt(points, densityAboveBase);
  if (tilt === undefined) return undefined;
  const lines = points.map((p) => linesAt(p, tilt, densityAboveBase));
  const limits = points.map((p, k) => limitOf(p, lines[k], densityAboveBase));
  const chosen = choose({ lines, limits, densityAboveBase, frameOptions });
  if (!chosen) return undefined;
  const fit = fitRectangle(points, chosen, tilt, densityAboveBase, frameOptions);
  if (!fit) return undefined;
  const implied = place ? "roll" : "format";
  const side = (k: number): SideEvidence => {
    if (chosen[k]) return points[k].holder ? "holder" : "edge";
    if (isOutOfView(k, chosen, limits, densityAboveBase, place)) return "outside";
    return fit.implied[k] ? implied : "none";
  };
  const support = chosen.map((l) => l?.support ?? 0);
  return {
    area: fit.area,
    confidence: confidenceOf(support, fit.implied, fit.scatter, proportionError(fit.wide, fit.high, ratio)),
    sides: { left: side(0), top: side(1), right: side(2), bottom: side(3) },
    support: { left: support[0], top: support[1], right: support[2], bottom: support[3] },
  };
}

function confidenceOf(support: number[], implied: boolean[], scatter: number, proportion: number | undefined): number {
  const each = support.map((s, k) => (implied[k] ? 0.45 : Math.min(1, 0.35 + 1.6 * s)));
  const weakest = Math.min(...each);
  const mean = each.reduce((a, b) => a + b) / 4;
  const straight = Math.min(1, 1.5 / Math.max(1.5, scatter));
  const shape = proportion === undefined ? 0.9 : proportion < PROPORTION ? 1 : Math.max(0.3, 1 - 8 * proportion);
  return Math.min(1, (0.5 * weakest + 0.5 * mean) * straight * shape);
}

const proportionError = (wide: number, high: number, ratio: number | undefined): number | undefined =>
  ratio === undefined ? undefined : Math.abs(Math.log(Math.max(wide, high) / Math.min(wide, high) / ratio));

type Choice = (Line | undefined)[];

/** How far out of view a side has to lie, overview pixels, and how much of its opposite's length has to be seen. */
const [MIN_CUT, MIN_OPPOSITE] = [2, 0.4];

/**
 * Where the view ends on a side, overview pixels from the scan's left or top: at the holder, or at the scan's border.
 * Undefined where an edge of the picture is seen there.
 */
function limitOf(p: EdgePoints, lines: readonly Line[], e: DensityAboveBase): number | undefined {
  if (p.holder) return median(p.across);
  if (lines.some(({ support }) => support > MIN_FULL_SUPPORT)) return undefined;
  return p.side === "left" || p.side === "top" ? 0 : p.side === "right" ? e.width : e.height;
}

/** Whether a side that was not seen lies out of view, as its opposite and the size of the roll's pictures say. */
function isOutOfView(
  k: number,
  choice: Choice,
  limits: readonly (number | undefined)[],
  e: DensityAboveBase,
  place: Area | undefined,
): boolean {
  const [opposite, limit] = [choice[(k + 2) % 4], limits[k]];
  if (!place || choice[k] || !opposite || limit === undefined || opposite.support < MIN_OPPOSITE) return false;
  const size = k % 2 === 0 ? place.width * e.width : place.height * e.height;
  return k < 2 ? opposite.offset - size < limit - MIN_CUT : opposite.offset + size > limit + MIN_CUT;
}

interface Options {
  readonly lines: readonly Line[][];
  readonly limits: readonly (number | undefined)[];
  readonly densityAboveBase: DensityAboveBase;
  readonly frameOptions: FrameOptions;
}

/**
 * One line a side, or none: those that many places lie on, that have nothing but margin outside, and that together have
 * the format's proportions.
 */
function choose(options: Options): Choice | undefined {
  const [lefts, tops, rights, bottoms] = options.lines.map((l) => [
    ...l.filter((x) => x.support >= MIN_SUPPORT).slice(0, 6),
    undefined,
  ]);
  let best: Choice | undefined;
  let max = -Infinity;
  for (const left of lefts)
    for (const top of tops)
      for (const right of rights)
        for (const bottom of bottoms) {
          const choice: Choice = [left, top, right, bottom];
          const score = scoreOf(choice, options);
          if (score > max) {
            max = score;
            best = choice;
          }
        }
  return max > 0 ? best : undefined;
}

/** What a side counts that is not seen because it lies out of view: as much as a line with full support. */
const OUT_OF_VIEW = 1.65;

function scoreOf(choice: Choice, { limits, densityAboveBase, frameOptions }: Options): number {
  const { ratio, place } = frameOptions;
  const [left, top, right, bottom] = choice;
  const seen = choice.filter((l) => l !== undefined);
  const outOfView = [0, 1, 2, 3].filter((k) => isOutOfView(k, choice, limits, densityAboveBase, place));
  if (seen.length + outOfView.length < (ratio === undefined ? 4 : 3)) return -Infinity;
  let score = OUT_OF_VIEW * outOfView.length;
  for (const l of seen) {
    score += 0.25 + Math.sqrt(l.support) + 0.4 * l.coverage - 2.2 * l.clutter;
  }
  const wide = left && right ? right.offset - left.offset : undefined;
  const high = top && bottom ? bottom.offset - top.offset : undefined;
  if (
    (wide !== undefined && wide < 0.3 * densityAboveBase.width) ||
    (high !== undefined && high < 0.3 * densityAboveBase.height)
  )
    return -Infinity;
  const off =
    ratio !== undefined && wide !== undefined && high !== undefined
      ? Math.abs(Math.log(Math.max(wide, high) / Math.min(wide, high) / ratio))
      : undefined;
  // Otherwise what lies outside is a black part of the picture, and this is the edge of a thing in it.
  const parts = [high, wide, high, wide].map(
    (long, k) => (long ?? NaN) / (k % 2 ? densityAboveBase.width : densityAboveBase.height),
  );
  const framed =
    off !== undefined && off < PROPORTION && choice.every((l, k) => l && l.support > MIN_FULL_SUPPORT * parts[k]);
  const size = place && sizeError(wide, high, place, densityAboveBase);
  // What a picture that lies out of view leaves free on its other side is wide, and no shadow of it.
  const wideMargins = choice.filter((l, k) => l && l.margin > MAX_MARGIN && !outOfView.includes((k + 2) % 4)).length;
  if (!framed && !(size !== undefined && size < SIZE)) score -= 4 * wideMargins;
  if (off !== undefined) {
    score += off < PROPORTION ? 0.8 * (1 - off / PROPORTION) + 0.4 : -Math.min(2, 12 * off);
  }
  if (size !== undefined) score += size < SIZE ? 1.2 * (1 - size / SIZE) + 0.6 : -Math.min(3, 20 * size);
  return score;
}

/** How far a width and a height, or the one that is known, are from the roll's, relative. */
function sizeError(wide: number | undefined, high: number | undefined, place: Area, e: DensityAboveBase): number {
  const off = (size: number | undefined, known: number): number =>
    size === undefined ? 0 : Math.abs(Math.log(size / known));
  return Math.max(off(wide, place.width * e.width), off(high, place.height * e.height));
}
