/**
 * Lays one exposure of a picture on another: displacement and ratio of exposure, by the least squares of the difference
 * of their logarithms over the whole picture (B. D. Lucas, T. Kanade, Proc. IJCAI 1981, 674–679), from coarse to fine.
 */
import { findShift } from "../image/register.ts";
import { solveLinear } from "../math/least-squares.ts";
import { median } from "../math/statistics.ts";
import { type Displacement, displacementAt, displacer, NO_TERMS, type Terms, unitOf } from "./displacement.ts";
import type { LogPlane } from "./log-planes.ts";

export interface Alignment {
  /** Where a pixel of the first scan lies on the second. */
  readonly displacement: Displacement;
  /** Exposure of the second over that of the first: median over what is well exposed in both. */
  readonly ratio: number;
  /** Correlation of the two pictures once they are laid on each other, −1 … 1. */
  readonly agreement: number;
  /** Standard error of the displacement where it is known least, in pixels. */
  readonly uncertainty: number;
}

/** Shift, rotation and size (0 to 3), then shear and keystone (4 to 7), as columns over X and Y. */
const SIMILAR = 4;
const ALL = 8;

/** Samples that are compared at each size, at most, and rounds of the fit. */
const MAX_SAMPLES = 80_000;
const ROUNDS = 8;
/** Share of a plane that has to be well exposed in both. */
const MIN_SHARE = 0.003;
/** A more bent model is taken where it moves a corner by this many pixels, and by this many standard errors. */
const [MIN_BEND, SURE_BEND] = [0.15, 4];

/**
 * @param first planes of the scan that stays, from `logPlanes`; `size` its pixels
 * @param upright whether the camera stood still, so that there is no keystone: shift, rotation and size alone
 * @returns undefined where too little is well exposed in both
 */
export function align(
  first: readonly LogPlane[],
  second: readonly LogPlane[],
  { width, height }: { readonly width: number; readonly height: number },
  { upright = false }: { readonly upright?: boolean } = {},
): Alignment | undefined {
  const size = { width, height };
  let fit: Fit | undefined = coarse(first.at(-1)!, second.at(-1)!);
  for (let level = first.length - 1; level >= 0 && fit; level--)
    fit = refined(first[level]!, second[level]!, size, fit, SIMILAR);
  if (!fit) return undefined;
  const bent = upright ? undefined : refined(first[0]!, second[0]!, size, fit, ALL);
  const final = bent && isBent(bent, fit, size) ? bent : fit;
  const displacement = { ...size, terms: termsOf(final.columns) };
  const { ratio, agreement, share } = compare(first[0]!, second[0]!, displacement);
  if (share < MIN_SHARE) return undefined;
  return { displacement, ratio, agreement, uncertainty: cornerError(final) };
}

/** Weights of the columns of the model, log2 ratio, and the inverse of the normal equations times the residual's variance. */
interface Fit {
  readonly columns: readonly number[];
  readonly offset: number;
  readonly covariance: readonly (readonly number[])[];
}

/** Columns to the terms of a displacement. */
function termsOf([tx = 0, ty = 0, size = 0, turn = 0, a = 0, b = 0, kx = 0, ky = 0]: readonly number[]): Terms {
  return [tx, size + a, b - turn, ty, turn + b, size - a, kx, ky];
}

/** dx and dy of each column at (X, Y). */
function basis(X: number, Y: number, dx: Float64Array, dy: Float64Array): void {
  dx[0] = 1;
  dx[1] = 0;
  dx[2] = X;
  dx[3] = -Y;
  dx[4] = X;
  dx[5] = Y;
  dx[6] = X * X;
  dx[7] = X * Y;
  dy[0] = 0;
  dy[1] = 1;
  dy[2] = Y;
  dy[3] = X;
  dy[4] = -Y;
  dy[5] = X;
  dy[6] = X * Y;
  dy[7] = Y * Y;
}

/** A shift to a pixel of the coarsest planes. */
function coarse(a: LogPlane, b: LogPlane): Fit | undefined {
  const side = 256;
  const plane = ({ width, height, data }: LogPlane) => {
    const known = data.filter((v) => !Number.isNaN(v));
    if (known.length < MIN_SHARE * data.length) return undefined;
    const mean = known.reduce((p, v) => p + v, 0) / known.length;
    const out = new Float64Array(side * side);
    const fade = (i: number, n: number): number => Math.min(1, (Math.min(i, n - 1 - i) + 0.5) / (0.08 * n));
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const value = data[y * width + x]!;
        if (!Number.isNaN(value)) out[y * side + x] = (value - mean) * fade(x, width) * fade(y, height);
      }
    return { width: side, height: side, data: out };
  };
  const [p, q] = [plane(a), plane(b)];
  if (!p || !q) return undefined;
  const { x, y } = findShift(p, q, { parts: 10, whitening: 0.7 });
  const columns = [-x * a.step, -y * a.step];
  // A shift of a quarter is another framing, and no second exposure: then the fit begins where the first lies.
  const far = Math.abs(x) > a.width / 4 || Math.abs(y) > a.height / 4;
  return { columns: far ? [0, 0] : columns, offset: 0, covariance: [] };
}

/** A sample of a plane with its slopes, by straight lines between; NaN where it does not count. */
const seen = { value: 0, dx: 0, dy: 0 };
function look({ width, height, data }: LogPlane, u: number, v: number): void {
  const [i, j] = [Math.floor(u), Math.floor(v)];
  if (i < 1 || j < 1 || i > width - 3 || j > height - 3) {
    seen.value = Number.NaN;
    return;
  }
  const [fx, fy] = [u - i, v - j];
  const k = j * width + i;
  const at = (o: number): number =>
    (data[o]! * (1 - fx) + data[o + 1]! * fx) * (1 - fy) +
    (data[o + width]! * (1 - fx) + data[o + width + 1]! * fx) * fy;
  seen.value = at(k);
  seen.dx = (at(k + 1) - at(k - 1)) / 2;
  seen.dy = (at(k + width) - at(k - width)) / 2;
}

function refined(
  a: LogPlane,
  b: LogPlane,
  size: { readonly width: number; readonly height: number },
  start: Fit,
  count: number,
): Fit | undefined {
  let columns = Array.from({ length: count }, (_, i) => start.columns[i] ?? 0);
  let offset = start.offset;
  let limit = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const sums = normalEquations(a, b, { ...size, terms: termsOf(columns) }, { offset, limit, count });
    if (!sums) return undefined;
    const step = solved(sums.normal, sums.right);
    if (!step) return { columns: start.columns, offset: start.offset, covariance: [] };
    columns = columns.map((v, i) => v + step[i]!);
    offset += step[count]!;
    limit = 4 * sums.deviation;
    const moved = Math.hypot(...step.slice(0, count));
    if (round === ROUNDS - 1 || (round > 1 && moved < 0.002)) {
      return { columns, offset, covariance: inverse(sums.normal, sums.deviation ** 2) };
    }
  }
  return undefined;
}

interface NormalEquations {
  readonly normal: readonly (readonly number[])[];
  readonly right: readonly number[];
  /** Robust standard deviation of what is left over. */
  readonly deviation: number;
}

/** Sums of squares of the slopes over the picture; what is left over counts by Tukey's weights within `limit`. */
function normalEquations(
  a: LogPlane,
  b: LogPlane,
  displacement: Displacement,
  { offset, limit, count }: { readonly offset: number; readonly limit: number; readonly count: number },
): NormalEquations | undefined {
  const n = count + 1;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  const row = new Float64Array(n);
  const [dx, dy] = [new Float64Array(ALL), new Float64Array(ALL)];
  const unit = unitOf(displacement);
  const left: number[] = [];
  let used = 0;
  forEachSample(a, b, displacement, (value, x, y) => {
    const rest = value - (seen.value - offset);
    if (used++ % 7 === 0) left.push(Math.abs(rest));
    const t = limit === Infinity ? 0 : rest / limit;
    if (t >= 1 || t <= -1) return;
    const weight = (1 - t * t) ** 2;
    basis((x - (displacement.width - 1) / 2) / unit, (y - (displacement.height - 1) / 2) / unit, dx, dy);
    for (let i = 0; i < count; i++) row[i] = (seen.dx * dx[i]! + seen.dy * dy[i]!) / b.step;
    row[count] = -1;
    for (let i = 0; i < n; i++) {
      const w = weight * row[i]!;
      right[i]! += w * rest;
      for (let j = i; j < n; j++) normal[i * n + j]! += w * row[j]!;
    }
  });
  if (used < MIN_SHARE * Math.min(MAX_SAMPLES, a.data.length)) return undefined;
  const rows = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (_, j) => normal[Math.min(i, j) * n + Math.max(i, j)]!),
  );
  return { normal: rows, right: [...right], deviation: 1.4826 * median(left) + 1e-4 };
}

/** Calls for samples of the first plane, evenly spread, that count in both: `seen` then has the second's. */
function forEachSample(
  a: LogPlane,
  b: LogPlane,
  displacement: Displacement,
  call: (value: number, x: number, y: number) => void,
): void {
  const stride = Math.max(1, Math.round(Math.sqrt(a.data.length / MAX_SAMPLES)));
  const middle = (a.step - 1) / 2;
  const move = displacer(displacement);
  for (let y = stride >> 1; y < a.height; y += stride)
    for (let x = stride >> 1; x < a.width; x += stride) {
      const value = a.data[y * a.width + x]!;
      if (Number.isNaN(value)) continue;
      const px = x * a.step + middle;
      const py = y * a.step + middle;
      move(px, py);
      look(b, (px + move.to.dx - middle) / b.step, (py + move.to.dy - middle) / b.step);
      if (!Number.isNaN(seen.value + seen.dx + seen.dy)) call(value, px, py);
    }
}

function solved(a: readonly (readonly number[])[], b: readonly number[]): number[] | undefined {
  try {
    return solveLinear(a, b);
  } catch (error) {
    if (error instanceof RangeError) return undefined; // a picture of one tone shows no displacement
    throw error;
  }
}

function inverse(normal: readonly (readonly number[])[], variance: number): number[][] {
  const columns = normal.map((_, i) =>
    solved(
      normal,
      normal.map((_, j) => (i === j ? variance : 0)),
    ),
  );
  return columns.every((column) => column !== undefined) ? (columns as number[][]) : [];
}

/** Neighbouring samples share their noise: errors are twice those that independent samples would have. */
const CORRELATED = 2;

/** Standard error of the displacement in a corner, in pixels; Infinity where it is not known. */
function cornerError({ covariance }: Fit): number {
  if (covariance.length === 0) return Infinity;
  const [dx, dy] = [new Float64Array(ALL), new Float64Array(ALL)];
  const count = covariance.length - 1;
  const variances = [1, -1].flatMap((sign) => {
    basis(0.8, 0.6 * sign, dx, dy);
    return [dx, dy].map((by) => {
      let sum = 0;
      for (let i = 0; i < count; i++) for (let j = 0; j < count; j++) sum += by[i]! * by[j]! * covariance[i]![j]!;
      return sum;
    });
  });
  return CORRELATED * Math.sqrt(Math.max(0, ...variances));
}

function isBent(bent: Fit, straight: Fit, size: { readonly width: number; readonly height: number }): boolean {
  const [a, b] = [bent, straight].map(({ columns }) => ({ ...size, terms: termsOf(columns) })) as [
    Displacement,
    Displacement,
  ];
  const corners = [0, size.width - 1].flatMap((x) => [0, size.height - 1].map((y) => [x, y] as const));
  const moved = Math.max(
    ...corners.map(([x, y]) => {
      const [p, q] = [displacementAt(a, x, y), displacementAt(b, x, y)];
      return Math.hypot(p[0] - q[0], p[1] - q[1]);
    }),
  );
  return moved > MIN_BEND && moved > SURE_BEND * cornerError(bent);
}

/**
 * Signals of the shorter exposure, by what the longer one tells, from which the ratio is read: the highest that enough
 * samples have. Chosen by the shorter one's own noisy samples they would be too high.
 */
const BRIGHT = [0.06, 0.03, 0.015, 0.008] as const;
const MIN_SAMPLES = 1500;

/** The median is the same of ratios as of their logarithms, and as right where noise is large. */
function compare(
  a: LogPlane,
  b: LogPlane,
  displacement: Displacement,
): { readonly ratio: number; readonly agreement: number; readonly share: number } {
  const [first, second]: [number[], number[]] = [[], []];
  forEachSample(a, b, displacement, (value) => {
    first.push(value);
    second.push(seen.value);
  });
  const n = first.length;
  if (n === 0) return { ratio: 1, agreement: 0, share: 0 };
  const steps = first.map((value, i) => second[i]! - value);
  const rough = median(steps);
  const darkest = first.map((value, i) => (rough > 0 ? second[i]! - rough : value + Math.min(0, rough)));
  const above = BRIGHT.map((signal) => steps.filter((_, i) => darkest[i]! > Math.log2(signal)));
  const used = above.find(({ length }) => length >= MIN_SAMPLES) ?? steps;
  return {
    ratio: 2 ** median(used),
    agreement: correlation(first, second),
    share: n / Math.min(MAX_SAMPLES, a.data.length),
  };
}

function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [aa, bb, ab] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    const [p, q] = [a[i]! - ma, b[i]! - mb];
    aa += p * p;
    bb += q * q;
    ab += p * q;
  }
  return ab / Math.sqrt(Math.max(1e-12, aa * bb));
}

/** Two scans that lie on each other already. */
export const noDisplacement = (size: { readonly width: number; readonly height: number }): Displacement => ({
  ...size,
  terms: NO_TERMS,
});
