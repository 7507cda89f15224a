/** What the blur of the 25 cells says of the whole scan: its level, its trend over the field, its direction. */
import { principal, sigmaOf } from "./grain-blur.ts";
import { deviation, median, quantile } from "../../math/statistics.ts";
import type { BlurCell, BlurReading, Box, ScanReading } from "../types.ts";

type Cell = BlurCell & { readonly blur: BlurReading };

const seen = ({ cells }: ScanReading): Cell[] => cells.filter((c): c is Cell => c.blur !== undefined);

/** MTF50 of a Gaussian blur, in percent of half the sampling frequency: 0.187390 / σ cycles per pixel. */
export const halfResponse = (sigma: number): number => (100 * 0.18739) / Math.max(0.2, sigma) / 0.5;

/** Least cells that say something of the whole. */
const MIN_CELLS = 8;

/** A cell's place in the scan. */
function boxOf({ area }: ScanReading, cell: BlurCell): Box {
  const [w, h] = [area.width / 5, area.height / 5];
  return [cell.x - w / 2, cell.y - h / 2, w, h];
}

export interface Sharpest {
  /** Blur where the scan is sharpest, pixels of one sigma: the sharpest quarter of the cells stays below. */
  readonly sigma: number;
  /** Standard error of `sigma`. */
  readonly error: number;
  readonly area: Box;
}

/** Standard error of a quartile over that of one value, times the root of their number (for a normal law). */
const QUARTILE_ERROR = 1.36;

export function sharpestOf(scan: ScanReading): Sharpest | undefined {
  const cells = seen(scan).toSorted((a, b) => sigmaOf(a.blur) - sigmaOf(b.blur));
  if (cells.length < 3) return undefined;
  const at = Math.floor(cells.length / 4);
  const sigma = sigmaOf(cells[at].blur);
  const variance = median(cells.map(({ blur }) => blur.deviation ?? 0));
  const error = (QUARTILE_ERROR * variance) / Math.sqrt(cells.length);
  return { sigma, error: error / (2 * Math.max(sigma, 0.3)), area: boxOf(scan, cells[at]) };
}

/** MTF50 where the scan is sharpest, in percent of half the sampling frequency, and its standard error. */
export function responseOf(scan: ScanReading): { half: number; error: number } | undefined {
  const sharpest = sharpestOf(scan);
  if (!sharpest) return undefined;
  const { sigma, error } = sharpest;
  const half = halfResponse(sigma);
  return { half, error: (half - halfResponse(sigma + error) + halfResponse(Math.max(0, sigma - error)) - half) / 2 };
}

export interface BlurMap {
  readonly form: "tilt" | "corners";
  readonly trend: BlurTrend;
  /** Blur added between the sharpest and the softest place, pixels of one sigma. */
  readonly added: number;
  /** The trend's slope over its standard error. */
  readonly certainty: number;
  /** Standard deviation of a typical cell's variance, pixels². */
  readonly deviation: number;
  /** Direction in which blur grows most, degrees clockwise from level, 0 … 180. */
  readonly direction: number;
  readonly worst: Box;
}

/**
 * One reading a cell for a whole roll: stand and lens are the same for all its scans, and what a picture's own detail
 * adds is only ever more blur, so the lower of the scans' readings are the truer ones.
 */
function together(scans: readonly ScanReading[]): Cell[] {
  return scans[0].cells.flatMap((first, i): Cell[] => {
    const blurs = scans.flatMap((s) => s.cells[i].blur ?? []);
    if (blurs.length === 0) return [];
    const variance = quantile(
      blurs.map((b) => (b.xx + b.yy) / 2),
      0.25,
    );
    const error = median(blurs.map((b) => b.deviation ?? 0)) / Math.sqrt(blurs.length);
    return [{ ...first, blur: { xx: variance, xy: 0, yy: variance, deviation: error } }];
  });
}

/**
 * The trend of blur over the field. Two kinds of trend are laid through the cells' variances, and the one that fits
 * better is taken: a curved field makes blur grow with the distance from the middle, a tilt with the distance from a
 * line of any direction and place.
 */
export function blurMap(scans: readonly ScanReading[]): BlurMap | undefined {
  if (scans.length === 0) return undefined;
  const scan = scans[0];
  const cells = together(scans);
  if (cells.length < MIN_CELLS || !spread(cells)) return undefined;
  const { area, info } = scan;
  const points = pointsOf(scan, cells);
  const fits = trends((area.width * info.width) / (area.height * info.height)).map((trend) => ({
    trend,
    ...fitTrend(points, trend.at),
  }));
  const best = (form: BlurMap["form"]) =>
    fits.filter((f) => f.trend.form === form).reduce((p, f) => (f.cost < p.cost ? f : p));
  const [corners, tilt] = [best("corners"), best("tilt")];
  // There are many tilts to choose from, so the best of them fits a little better by chance.
  const { trend, slope, error, cost } = tilt.cost < MIN_TILT_GAIN * corners.cost ? tilt : corners;
  // A trend has to explain most of what an even blur leaves unexplained.
  if (cost > MIN_TREND_GAIN * fitTrend(points, () => 0).cost) return undefined;
  const heights = points.map((p) => trend.at(p.x, p.y));
  const worst = cells[heights.indexOf(Math.max(...heights))];
  return {
    form: trend.form,
    trend,
    added: addedOver(heights, slope),
    certainty: slope / error,
    deviation: median(cells.map(({ blur }) => blur.deviation ?? 0)),
    direction: trend.direction,
    worst: boxOf(scan, worst),
  };
}

/** Blur that a trend adds from its lowest to its highest place, pixels of one sigma. */
const addedOver = (heights: readonly number[], slope: number): number =>
  Math.sqrt(Math.max(0, slope * (Math.max(...heights) - Math.min(...heights))));

/**
 * Blur that one scan's own cells show along a trend that was found on several scans; undefined where they are too few, or
 * lie on one side.
 */
export function addedAlong(scan: ScanReading, { at }: BlurTrend): number | undefined {
  const cells = seen(scan);
  if (cells.length < MIN_CELLS || !spread(cells)) return undefined;
  const points = pointsOf(scan, cells);
  return addedOver(
    points.map((p) => at(p.x, p.y)),
    fitTrend(points, at).slope,
  );
}

/** Cells as points of a trend: x and y from the picture's middle, its width is 2. */
function pointsOf({ area, info }: ScanReading, cells: readonly Cell[]): Point[] {
  const middle = [area.left + area.width / 2, area.top + area.height / 2];
  return cells.map(({ x, y, blur }) => ({
    x: (2 * (x - middle[0])) / area.width,
    y: ((2 * (y - middle[1])) / area.width) * (info.height / info.width),
    v: (blur.xx + blur.yy) / 2,
    error: blur.deviation ?? 0,
  }));
}

const MIN_TILT_GAIN = 0.97;
const MIN_TREND_GAIN = 0.6;

export interface BlurTrend {
  readonly form: "tilt" | "corners";
  readonly direction: number;
  /** How much variance is added at a place, up to a factor; x and y from the middle, the picture's width is 2. */
  readonly at: (x: number, y: number) => number;
}

/** `shape` is the picture's width over its height. */
function trends(shape: number): BlurTrend[] {
  // A lens's field is round; film that bulges in its holder follows the frame's sides.
  const found: BlurTrend[] = [2, 4].flatMap((power) =>
    [1, shape].map((anisotropy) => ({
      form: "corners" as const,
      direction: 0,
      at: (x: number, y: number) => Math.hypot(x, y * anisotropy) ** power,
    })),
  );
  for (let direction = 0; direction < 180; direction += 15)
    for (const line of [-1, -0.5, 0, 0.5, 1]) {
      const [c, s] = [Math.cos((direction * Math.PI) / 180), Math.sin((direction * Math.PI) / 180)];
      found.push({ form: "tilt", direction, at: (x, y) => (x * c + y * s - line) ** 2 });
    }
  return found;
}

/** Whether the cells that could be read lie on all sides: a trend cannot be told from one half of the field. */
function spread(cells: readonly Cell[]): boolean {
  const range = (values: number[]): boolean => Math.max(...values) - Math.min(...values) > 0.5;
  return range(cells.map((c) => c.x)) && range(cells.map((c) => c.y)) && cells.length >= MIN_CELLS;
}

interface Point {
  readonly x: number;
  readonly y: number;
  /** Variance of the blur there and its standard deviation, pixels². */
  readonly v: number;
  readonly error: number;
}

/** A cell's reading is taken to be this uncertain, as a part of it. */
const READING_ERROR = 0.2;

/** v = level + slope · trend, both not negative; cells far off it count less and less (Tukey's bisquare). */
function fitTrend(points: readonly Point[], at: BlurTrend["at"]): { slope: number; error: number; cost: number } {
  let weights = points.map(() => 1);
  let [level, slope, error] = [median(points.map((p) => p.v)), 0, Infinity];
  const off = (p: Point): number => {
    const expected = level + slope * at(p.x, p.y);
    return (p.v - expected) / Math.hypot(READING_ERROR * Math.max(expected, 0.2), p.error);
  };
  for (let round = 0; round < 12; round++) {
    weights = round === 0 ? weights : points.map((p) => Math.max(0, 1 - (off(p) / 4.685) ** 2) ** 2);
    let [n, sg, sv, sgg, sgv] = [1e-9, 0, 0, 0, 0];
    points.forEach((p, k) => {
      const g = at(p.x, p.y);
      // Readings are uncertain in proportion to their size, and by what their fit leaves over.
      const w = weights[k] / ((p.v + 0.2) ** 2 + (p.error / READING_ERROR) ** 2);
      n += w;
      sg += w * g;
      sv += w * p.v;
      sgg += w * g * g;
      sgv += w * g * p.v;
    });
    const spreadOf = sgg - (sg * sg) / n;
    slope = spreadOf > 1e-12 ? Math.max(0, (sgv - (sg * sv) / n) / spreadOf) : 0;
    level = Math.max(0, (sv - slope * sg) / n);
    error = READING_ERROR / Math.sqrt(Math.max(1e-12, spreadOf));
  }
  return { slope, error, cost: points.reduce((a, p) => a + Math.min(9, off(p) ** 2), 0) };
}

/** Cells that show a movement, and how clearly: the middle over its standard error, and over blur across the movement. */
const [MIN_SHAKEN, MIN_CLEAR, MIN_ANISOTROPY] = [5, 3, 0.3];
/** Blur that pixels add at least, pixels²: a share of less says nothing. */
const PIXEL = 0.15;

/**
 * Movement: the blur that all cells have in one direction more than in the other, as the length of a straight stroke.
 * Length 0 where the blur is as isotropic as focus and diffraction make it: the estimate's own errors grow with the blur,
 * so what counts is how much the two directions differ in proportion.
 */
export function shakeOf(scan: ScanReading): { length: number; angle: number } | undefined {
  const cells = seen(scan);
  if (cells.length < MIN_SHAKEN) return undefined;
  const of = (part: (b: BlurReading) => number): number => median(cells.map((c) => part(c.blur)));
  const { angle, minor } = principal({ xx: of((b) => b.xx), xy: of((b) => b.xy), yy: of((b) => b.yy) });
  // Movement shows in all cells, a picture's own stripes in some: what three quarters have in that direction counts.
  const [c, s] = [Math.cos((2 * angle * Math.PI) / 180), Math.sin((2 * angle * Math.PI) / 180)];
  const along = cells.map(({ blur }) => (blur.xx - blur.yy) * c + 2 * blur.xy * s);
  const error = (1.25 * deviation(along)) / Math.sqrt(along.length);
  const added = quantile(along, 0.25);
  const isMovement = median(along) > MIN_CLEAR * error && added > MIN_ANISOTROPY * (minor + PIXEL);
  // The variance of a stroke of length L is L²/12.
  return { length: isMovement ? Math.sqrt(12 * added) : 0, angle };
}
