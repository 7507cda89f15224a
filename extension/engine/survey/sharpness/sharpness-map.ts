/** What the blur of the 25 cells says of the whole scan: its level, its course over the field, its direction. */
import { principal, sigmaOf } from "./grain-blur.ts";
import { median, quantile } from "../../math/statistics.ts";
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

/** Blur where the scan is sharpest (the sharpest quarter of the cells), in pixels of one sigma. */
export function sharpestOf(scan: ScanReading): { sigma: number; area: Box } | undefined {
  const cells = seen(scan).toSorted((a, b) => sigmaOf(a.blur) - sigmaOf(b.blur));
  if (cells.length < 3) return undefined;
  const at = Math.floor(cells.length / 4);
  return { sigma: sigmaOf(cells[at].blur), area: boxOf(scan, cells[at]) };
}

export interface BlurMap {
  readonly form: "tilt" | "corners";
  /** Blur added between the sharpest and the softest place, pixels of one sigma. */
  readonly added: number;
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
    return [{ ...first, blur: { xx: variance, xy: 0, yy: variance } }];
  });
}

/**
 * The course of blur over the field. Two kinds of course are laid through the cells' variances, and the one that fits
 * better is taken: a curved field makes blur grow with the distance from the middle, a tilt with the distance from a
 * line of any direction and place.
 */
export function blurMap(scans: readonly ScanReading[]): BlurMap | undefined {
  if (scans.length === 0) return undefined;
  const scan = scans[0];
  const cells = together(scans);
  if (cells.length < MIN_CELLS || !spread(cells)) return undefined;
  const { area, info } = scan;
  const middle = [area.left + area.width / 2, area.top + area.height / 2];
  const points = cells.map((c) => ({
    x: (2 * (c.x - middle[0])) / area.width,
    y: ((2 * (c.y - middle[1])) / area.width) * (info.height / info.width),
    v: (c.blur.xx + c.blur.yy) / 2,
  }));
  const fits = trends((area.width * info.width) / (area.height * info.height)).map((trend) => ({
    trend,
    ...fitTrend(points, trend.at),
  }));
  const best = (form: BlurMap["form"]) =>
    fits.filter((f) => f.trend.form === form).reduce((p, f) => (f.cost < p.cost ? f : p));
  const [corners, tilt] = [best("corners"), best("tilt")];
  // There are many tilts to choose from, so the best of them fits a little better by chance.
  const { trend, slope, cost } = tilt.cost < MIN_TILT_GAIN * corners.cost ? tilt : corners;
  // A course has to explain most of what an even blur leaves unexplained.
  if (cost > MIN_TREND_GAIN * fitTrend(points, () => 0).cost) return undefined;
  const heights = points.map((p) => trend.at(p.x, p.y));
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const worst = cells[heights.indexOf(high)];
  return {
    form: trend.form,
    added: Math.sqrt(Math.max(0, slope * (high - low))),
    direction: trend.direction,
    worst: boxOf(scan, worst),
  };
}

const MIN_TILT_GAIN = 0.97;
const MIN_TREND_GAIN = 0.6;

interface BlurTrend {
  readonly form: BlurMap["form"];
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

/** Whether the cells that could be read lie on all sides: a course cannot be told from one half of the field. */
function spread(cells: readonly Cell[]): boolean {
  const range = (values: number[]): boolean => Math.max(...values) - Math.min(...values) > 0.5;
  return range(cells.map((c) => c.x)) && range(cells.map((c) => c.y)) && cells.length >= MIN_CELLS;
}

interface Point {
  readonly x: number;
  readonly y: number;
  readonly v: number;
}

/** A cell's reading is taken to be this uncertain, as a part of it. */
const READING_ERROR = 0.2;

/** v = level + rise · course, both not negative; cells far off it count less and less (Tukey's bisquare). */
function fitTrend(points: readonly Point[], at: BlurTrend["at"]): { slope: number; cost: number } {
  let weights = points.map(() => 1);
  let [level, slope] = [median(points.map((p) => p.v)), 0];
  const off = (p: Point): number => {
    const expected = level + slope * at(p.x, p.y);
    return (p.v - expected) / (READING_ERROR * Math.max(expected, 0.2));
  };
  for (let round = 0; round < 12; round++) {
    weights = round === 0 ? weights : points.map((p) => Math.max(0, 1 - (off(p) / 4.685) ** 2) ** 2);
    let [n, sg, sv, sgg, sgv] = [1e-9, 0, 0, 0, 0];
    points.forEach((p, k) => {
      const g = at(p.x, p.y);
      // Readings are uncertain in proportion to their size.
      const w = weights[k] / (p.v + 0.2) ** 2;
      n += w;
      sg += w * g;
      sv += w * p.v;
      sgg += w * g * g;
      sgv += w * g * p.v;
    });
    const spreadOf = sgg - (sg * sg) / n;
    slope = spreadOf > 1e-12 ? Math.max(0, (sgv - (sg * sv) / n) / spreadOf) : 0;
    level = Math.max(0, (sv - slope * sg) / n);
  }
  return { slope, cost: points.reduce((a, p) => a + Math.min(9, off(p) ** 2), 0) };
}

/** Movement: the blur that all cells have in one direction more than in the other, as the length of a straight stroke. */
export function shakeOf(scan: ScanReading): { length: number; angle: number } | undefined {
  const cells = seen(scan);
  if (cells.length < MIN_CELLS) return undefined;
  const of = (part: (b: BlurReading) => number): number => median(cells.map((c) => part(c.blur)));
  const { angle } = principal({ xx: of((b) => b.xx), xy: of((b) => b.xy), yy: of((b) => b.yy) });
  // Movement shows in all cells, a picture's own stripes in some: what three quarters have in that direction counts.
  const [c, s] = [Math.cos((2 * angle * Math.PI) / 180), Math.sin((2 * angle * Math.PI) / 180)];
  const along = cells.map(({ blur }) => (blur.xx - blur.yy) * c + 2 * blur.xy * s);
  // The variance of a stroke of length L is L²/12.
  return { length: Math.sqrt(12 * Math.max(0, quantile(along, 0.25))), angle };
}
