/** The rectangle with one tilt that fits the places of its four sides best. */
import type { Area } from "../types.ts";
import type { EdgePoints, DensityAboveBase } from "./edges.ts";
import { slopeOf, type Line, middleAlong } from "./lines.ts";

export interface FrameOptions {
  /** Longer over shorter side of the picture, where the format is known. */
  readonly ratio?: number;
  /** Where the roll's other pictures lie: this one is as large. */
  readonly place?: Area;
}

export interface RectangleFit {
  readonly area: Area;
  /** Sides that had no edge of their own and were placed by the roll's size or the format's proportions. */
  readonly implied: boolean[];
  /** Root mean square distance of the places from their sides, pixels. */
  readonly scatter: number;
  /** Overview pixels. */
  readonly wide: number;
  readonly high: number;
}

const RADIAN = Math.PI / 180;
/** Places farther from their line than this belong to something else, pixels: first, and once the line is known. */
const REACH = [4, 2.5, 1.6, 1.6];

/** @returns undefined where a side is missing and no proportion can stand in for it */
export function fitRectangle(
  points: readonly EdgePoints[],
  lines: readonly (Line | undefined)[],
  tilt: number,
  densityAboveBase: DensityAboveBase,
  options: FrameOptions,
): RectangleFit | undefined {
  const offsets = lines.map((l) => l?.offset ?? NaN);
  let angle = tilt;
  let scatter = 0;
  for (const reach of REACH) {
    const inliers = points.map((p, k) => (lines[k] ? near(p, offsets[k], angle, densityAboveBase, reach) : []));
    const turned = angleOf(points, inliers);
    if (turned !== undefined) angle = turned;
    let squares = 0;
    let count = 0;
    points.forEach((p, k) => {
      if (inliers[k].length === 0) return;
      const slope = slopeOf(p.side, angle);
      const middle = middleAlong(p.side, densityAboveBase);
      const shifted = inliers[k].map((i) => p.across[i] - slope * (p.along[i] - middle)).sort((a, b) => a - b);
      offsets[k] = shifted[shifted.length >> 1];
      for (const s of shifted) squares += (s - offsets[k]) ** 2;
      count += shifted.length;
    });
    scatter = Math.sqrt(squares / Math.max(1, count));
  }
  return completed(offsets, angle, scatter, densityAboveBase, options);
}

function near(p: EdgePoints, offset: number, tilt: number, e: DensityAboveBase, reach: number): number[] {
  const slope = slopeOf(p.side, tilt);
  const middle = middleAlong(p.side, e);
  const found: number[] = [];
  for (let i = 0; i < p.across.length; i++)
    if (Math.abs(p.across[i] - slope * (p.along[i] - middle) - offset) < reach) found.push(i);
  return found;
}

/** The common angle by least squares: each side has its own offset, all share one slope. */
function angleOf(points: readonly EdgePoints[], inliers: readonly number[][]): number | undefined {
  let top = 0;
  let bottom = 0;
  points.forEach((p, k) => {
    const own = inliers[k];
    if (own.length < 12) return;
    const sign = p.side === "left" || p.side === "right" ? -1 : 1;
    const meanAlong = own.reduce((s, i) => s + p.along[i], 0) / own.length;
    const meanAcross = own.reduce((s, i) => s + p.across[i], 0) / own.length;
    for (const i of own) {
      top += sign * (p.along[i] - meanAlong) * (p.across[i] - meanAcross);
      bottom += (p.along[i] - meanAlong) ** 2;
    }
  });
  return bottom > 0 ? Math.atan(top / bottom) / RADIAN : undefined;
}

/** From four offsets (or three and a size or a proportion) to an area. */
function completed(
  offsets: readonly number[],
  angle: number,
  scatter: number,
  e: DensityAboveBase,
  { ratio, place }: FrameOptions,
): RectangleFit | undefined {
  const implied = offsets.map(Number.isNaN);
  const missing = implied.filter(Boolean).length;
  if (missing === 0) return placed(offsets, implied, angle, scatter, e);
  if ((implied[0] && implied[2]) || (implied[1] && implied[3])) return undefined;
  if (place) {
    const cos = Math.cos(angle * RADIAN);
    const [wide, high] = [(place.width * e.width) / cos, (place.height * e.height) / cos];
    return placed(closed(closed(offsets, wide, high), wide, high), implied, angle, scatter, e, MAX_CUT);
  }
  if (ratio === undefined || missing > 1) return undefined;
  // The picture lies as the scan does, for a camera is turned to fit the film; several scans laid together may not.
  const own = e.width >= e.height ? ratio : 1 / ratio;
  for (const shape of [own, 1 / own]) {
    const [left, top, right, bottom] = offsets;
    const fit = placed(closed(offsets, (bottom - top) * shape, (right - left) / shape), implied, angle, scatter, e);
    if (fit) return fit;
  }
  return undefined;
}

/** The first offset that is not known, from its opposite and the size. */
function closed([left, top, right, bottom]: readonly number[], wide: number, high: number): number[] {
  if (Number.isNaN(left)) return [right - wide, top, right, bottom];
  if (Number.isNaN(right)) return [left, top, left + wide, bottom];
  if (Number.isNaN(top)) return [left, bottom - high, right, bottom];
  return [left, top, right, Number.isNaN(bottom) ? top + high : bottom];
}

/** Part of the scan by which tilt and soft edges may place a side beyond it, and by which the roll's size may. */
const [MAX_BEYOND, MAX_CUT] = [0.05, 0.45];

/**
 * @param cut how far implied sides may reach out of the scan, in parts of it
 * @returns undefined where a side would reach out of the scan by more
 */
function placed(
  [left, top, right, bottom]: readonly number[],
  implied: boolean[],
  angle: number,
  scatter: number,
  e: DensityAboveBase,
  cut = MAX_BEYOND,
): RectangleFit | undefined {
  const slope = Math.tan(angle * RADIAN);
  const cos = Math.cos(angle * RADIAN);
  // Middle lines x = across − lean·(y − H/2) and y = down + lean·(x − W/2).
  const [across, down] = [(left + right) / 2, (top + bottom) / 2];
  const [mx, my] = [e.width / 2, e.height / 2];
  const x = (across - slope * (down - slope * mx - my)) / (1 + slope * slope);
  const y = down + slope * (x - mx);
  const [wide, high] = [(right - left) * cos, (bottom - top) * cos];
  const area: Area = {
    left: (x - wide / 2) / e.width,
    top: (y - high / 2) / e.height,
    width: wide / e.width,
    height: high / e.height,
    tilt: angle,
  };
  const beyond = implied.map((isImplied) => (isImplied ? cut : MAX_BEYOND));
  const within = (from: number, size: number, k: number): boolean =>
    size > 0.1 && from > -beyond[k] && from + size < 1 + beyond[k + 2];
  return within(area.left, area.width, 0) && within(area.top, area.height, 1)
    ? { area, implied, scatter, wide, high }
    : undefined;
}
