/** What the blur of the 25 cells says of the whole scan: its level, its course over the field, its direction. */
import { principal, sigmaOf } from "./grain-blur.ts";
import { median, quantile } from "./statistics.ts";
import type { BlurCell, BlurReading, Box, ScanReading } from "./types.ts";

type Cell = BlurCell & { readonly blur: BlurReading };

const seen = ({ cells }: ScanReading): Cell[] => cells.filter((c): c is Cell => c.blur !== undefined);

/** MTF50 of a Gaussian blur, in percent of half the sampling frequency: 0.187390 / σ cycles per pixel. */
export const halfResponse = (sigma: number): number => (100 * 0.18739) / Math.max(0.2, sigma) / 0.5;

/** Least cells that say something of the whole. */
const FEWEST = 8;

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
 * The course of blur over the field: a quadratic surface through the cells' variances. A tilt makes variance grow with
 * the square of the distance from a line, so one of the surface's curvatures is near zero; a curved field or film
 * makes it grow in all directions.
 */
export function blurMap(scan: ScanReading): BlurMap | undefined {
  const cells = seen(scan);
  if (cells.length < FEWEST || !spread(cells)) return undefined;
  const { area, info } = scan;
  const middle = [area.left + area.width / 2, area.top + area.height / 2];
  const points = cells.map((c) => ({
    cell: c,
    x: (2 * (c.x - middle[0])) / area.width,
    y: ((2 * (c.y - middle[1])) / area.width) * (info.height / info.width),
    v: (c.blur.xx + c.blur.yy) / 2,
  }));
  const fit = robustSurface(points);
  if (!fit) return undefined;
  const at = (x: number, y: number): number =>
    fit[0] + fit[1] * x + fit[2] * y + fit[3] * x * x + fit[4] * x * y + fit[5] * y * y;
  const heights = points.map((p) => at(p.x, p.y));
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const added = Math.sqrt(Math.max(0, high - Math.max(0, low)));
  const half = (fit[3] - fit[5]) / 2;
  const size = Math.hypot(half, fit[4] / 2);
  const curved = (fit[3] + fit[5]) / 2;
  const [most, least] = [curved + size, curved - size];
  const slope = Math.hypot(fit[1], fit[2]);
  // Soft on one side alone: the line of focus lies at the border or outside.
  const oneSided = slope > Math.abs(most);
  const direction = oneSided
    ? (Math.atan2(fit[2], fit[1]) * 180) / Math.PI
    : ((Math.atan2(fit[4] / 2, half) / 2) * 180) / Math.PI;
  const form = oneSided || least < 0.45 * most ? "tilt" : "corners";
  const worst = points[heights.indexOf(high)].cell;
  return { form, added, direction: (direction + 360) % 180, worst: boxOf(scan, worst) };
}

/** Whether the cells that could be read lie on all sides: a course cannot be told from one half of the field. */
function spread(cells: readonly Cell[]): boolean {
  const range = (values: number[]): boolean => Math.max(...values) - Math.min(...values) > 0.5;
  return range(cells.map((c) => c.x)) && range(cells.map((c) => c.y)) && cells.length >= FEWEST;
}

interface Point {
  readonly x: number;
  readonly y: number;
  readonly v: number;
}

/** Least squares with 1, x, y, x², xy, y²; cells far off the surface count less and less (Tukey's bisquare). */
function robustSurface(points: readonly Point[]): number[] | undefined {
  let weights = points.map(() => 1);
  let fit: number[] | undefined;
  for (let round = 0; round < 8; round++) {
    fit = leastSquares(points, weights);
    if (!fit) return undefined;
    const f = fit;
    const off = points.map((p) => Math.abs(p.v - terms(p).reduce((a, t, i) => a + t * f[i], 0)));
    const reach = Math.max(4.685 * 1.4826 * median(off), 0.05 * quantile(points.map((p) => p.v), 0.5), 0.02);
    weights = off.map((d) => (d < reach ? (1 - (d / reach) ** 2) ** 2 : 0));
  }
  return fit;
}

const terms = ({ x, y }: Point): number[] => [1, x, y, x * x, x * y, y * y];

function leastSquares(points: readonly Point[], weights: readonly number[]): number[] | undefined {
  const n = 6;
  const a = Array.from({ length: n }, () => new Float64Array(n + 1));
  points.forEach((p, k) => {
    const t = terms(p);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) a[i][j] += weights[k] * t[i] * t[j];
      a[i][n] += weights[k] * t[i] * p.v;
    }
  });
  for (let i = 0; i < n; i++) a[i][i] += 1e-6;
  for (let p = 0; p < n; p++) {
    if (Math.abs(a[p][p]) < 1e-9) return undefined;
    for (let r = 0; r < n; r++) {
      if (r === p) continue;
      const f = a[r][p] / a[p][p];
      for (let c = p; c <= n; c++) a[r][c] -= f * a[p][c];
    }
  }
  return a.map((row, i) => row[n] / row[i]);
}

/** Movement: the blur that all cells have in one direction more than in the other, as the length of a straight stroke. */
export function shakeOf(scan: ScanReading): { length: number; angle: number } | undefined {
  const cells = seen(scan);
  if (cells.length < FEWEST) return undefined;
  // Medians of the tensor's parts: the direction has to be the same in most cells.
  const of = (part: (b: BlurReading) => number): number => median(cells.map((c) => part(c.blur)));
  const { most, least, angle } = principal({ xx: of((b) => b.xx), xy: of((b) => b.xy), yy: of((b) => b.yy) });
  // The variance of a stroke of length L is L²/12.
  return { length: Math.sqrt(12 * Math.max(0, most - least)), angle };
}
