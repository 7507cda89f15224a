/**
 * The roll's neutral axis by maximum a posteriori estimation. The prior says how neutrals of published films lie; the
 * evidence is every picture's blocks, of which those near the axis are believed most: a narrow heap of greys lies on one
 * of ordinary colours, whose middle is warm, and on a wide one of everything else. Fitted by expectation and maximisation (Dempster, Laird, Rubin 1977) with a narrow heap that
 * shrinks from round to round, so that the first guess does not decide.
 */
import { solveLinear } from "../math/least-squares.ts";
import type { NeutralPrior } from "./prior.ts";

/** Densities above the (provisional) base of a frame's blocks: red, green, blue interleaved. */
export type BlockDensities = Float32Array;

export interface AxisOptions {
  readonly prior: NeutralPrior;
  /** Standard deviation of the base's colour, D; 0 where the base is known. */
  readonly baseSpread: number;
  /** Standard deviation of greys about the axis, D. */
  readonly narrow: number;
  /** Part of the blocks that is grey. */
  readonly grey: number;
  /** What else there is; the blocks that neither is may have any colour. */
  readonly colours: readonly ColourCluster[];
  /** Standard deviation that the narrow heap starts with. */
  readonly start: number;
  /** Independent observations that a frame counts as, however many blocks it has. */
  readonly observations: number;
}

/** Ordinary colours: a normal distribution of red and blue over the axis, D as it is at mid-grey's slope. */
export interface ColourCluster {
  /** Part of the blocks. */
  readonly part: number;
  readonly mean: readonly [red: number, blue: number];
  /** How the mean moves with log10 exposure above mid-grey, to TILT_RANGE on either side. */
  readonly tilt: readonly [red: number, blue: number];
  readonly spread: readonly [red: number, blue: number];
  /** Of red and blue: below 0, for light and most surfaces vary between yellow-red and blue. */
  readonly correlation: number;
}

/** log10 exposure about mid-grey beyond which colours' mean moves no more. */
const TILT_RANGE = 0.7;

export interface NeutralAxis {
  /** Densities above base of neutrals, at the prior's green densities. */
  readonly red: readonly number[];
  readonly blue: readonly number[];
  /** Red and blue of the base over the provisional one. */
  readonly offset: readonly [red: number, blue: number];
  /** Part of the blocks that the narrow heap claims, 0 … 1. */
  readonly share: number;
  /** Posterior standard deviation of red and blue where the frames' green lies on average, D. */
  readonly uncertainty: readonly [red: number, blue: number];
}

/** How wide what is neither grey nor of an ordinary colour lies about the axis, D. */
const WIDE = 0.4;
/**
 * Blocks of one colour (within these of green, and of red and blue over the axis; D) count as the root of their number: a
 * wall or a meadow is one thing, however much of a picture it fills.
 */
const ONE_COLOUR = { green: 0.1, over: 0.03 };
const ROUNDS = 30;

export function fitNeutralAxis(frames: readonly BlockDensities[], options: AxisOptions): NeutralAxis {
  const { prior, baseSpread, narrow, start } = options;
  const k = prior.components.length;
  const unknowns = k + 2;
  const rows = frames.map((frame) => designOf(frame, prior, baseSpread));
  let x = Array.from({ length: unknowns }, () => 0);
  let share = 0;
  let normal: number[][] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const s = Math.max(narrow, start * (narrow / start) ** (round / (0.7 * ROUNDS)));
    normal = x.map((_, i) => x.map((__, j) => (i === j ? 1 : 0)));
    const right = x.map(() => 0);
    let claimed = 0;
    for (const row of rows) claimed += accumulate(row, x, { ...options, narrow: s }, normal, right);
    share = claimed / Math.max(1, rows.length);
    x = solveLinear(normal, right);
  }
  const at = (which: "red" | "blue"): number[] =>
    prior[which].map((m, i) => m + prior.components.reduce((sum, c, j) => sum + x[j] * c[which][i], 0));
  const middle = meanGreen(frames);
  return {
    red: at("red"),
    blue: at("blue"),
    offset: [x[k] * baseSpread, x[k + 1] * baseSpread],
    share,
    uncertainty: [0, 1].map((c) => deviation(normal, prior, middle, c, baseSpread)) as [number, number],
  };
}

/** A frame's blocks, each as its red and blue residual against the prior's mean and how these move with the unknowns. */
interface Design {
  readonly count: number;
  /** Per block: residual red and blue, then the components' red and blue. */
  readonly values: Float64Array;
  /** Per block: how much it counts, 1 on average. */
  readonly weights: Float64Array;
  /** Per block: slope of green density over log exposure there, in parts of its slope at mid-grey. */
  readonly slopes: Float64Array;
  /** Per block: log10 exposure above mid-grey, within TILT_RANGE. */
  readonly light: Float64Array;
  readonly stride: number;
  readonly baseSpread: number;
}

function designOf(frame: BlockDensities, prior: NeutralPrior, baseSpread: number): Design {
  const k = prior.components.length;
  const stride = 2 + 2 * k;
  const values = new Float64Array((frame.length / 3) * stride);
  let count = 0;
  const weights = new Float64Array(frame.length / 3);
  const slopes = new Float64Array(frame.length / 3);
  const light = new Float64Array(frame.length / 3);
  const colours: number[] = [];
  const alike = new Map<number, number>();
  const { green } = prior;
  const last = green.length - 2;
  const steepness = steepnessOf(prior);
  for (let i = 0; i < frame.length; i += 3) {
    const [r, g, b] = [frame[i], frame[i + 1], frame[i + 2]];
    if (!Number.isFinite(r + g + b)) continue;
    let n = 0;
    while (n < last && green[n + 1] < g) n++;
    // Below the base, where noise may bring a block, the axis goes on straight.
    const f = (g - green[n]) / (green[n + 1] - green[n]);
    const read = (v: readonly number[]): number => v[n] + f * (v[n + 1] - v[n]);
    slopes[count] = Math.max(MIN_STEEPNESS, read(steepness));
    light[count] = Math.max(-TILT_RANGE, Math.min(TILT_RANGE, read(prior.logH)));
    const o = count++ * stride;
    values[o] = r - read(prior.red);
    values[o + 1] = b - read(prior.blue);
    for (let j = 0; j < k; j++) {
      values[o + 2 + 2 * j] = read(prior.components[j].red);
      values[o + 3 + 2 * j] = read(prior.components[j].blue);
    }
    const colour = colourOf(g, values[o], values[o + 1]);
    colours.push(colour);
    alike.set(colour, (alike.get(colour) ?? 0) + 1);
  }
  let total = 0;
  for (let i = 0; i < count; i++) total += weights[i] = 1 / Math.sqrt(alike.get(colours[i])!);
  for (let i = 0; i < count; i++) weights[i] *= count / Math.max(total, 1e-9);
  return { count, values, weights, slopes, light, stride, baseSpread };
}

/** In the film's toe colours lie closer together, as log exposures do; no closer than this. */
const MIN_STEEPNESS = 0.15;

/** Slope of green density over log exposure at the prior's green densities, 1 at mid-grey and no more anywhere. */
function steepnessOf({ green, logH }: NeutralPrior): number[] {
  const at = green.map((_, i) => {
    const [a, b] = [Math.max(0, i - 1), Math.min(green.length - 1, i + 1)];
    return (green[b] - green[a]) / Math.max(1e-6, logH[b] - logH[a]);
  });
  const middle = at[green.findLastIndex((g) => g <= 0.72)];
  return at.map((v) => Math.min(1, v / middle));
}

/** A number for a colour and its neighbours. */
function colourOf(green: number, red: number, blue: number): number {
  const step = (v: number): number => Math.round(v / ONE_COLOUR.over) + 500;
  return Math.round(green / ONE_COLOUR.green) * 1e6 + step(red) * 1e3 + step(blue);
}

/** Adds a frame's blocks to the normal equations; returns the part of them that the narrow heap claims. */
function accumulate(
  { count, values, weights, slopes, light, stride, baseSpread }: Design,
  x: readonly number[],
  { narrow, grey: greyPart, colours, observations }: AxisOptions,
  normal: number[][],
  right: number[],
): number {
  if (count === 0) return 0;
  const k = (stride - 2) / 2;
  const n = k + 2;
  const sums = new Float64Array(n * n);
  const sides = new Float64Array(n);
  const [ig, iw] = [1 / (narrow * narrow), 1 / (WIDE * WIDE)];
  const clusters = colours.map(clusterOf);
  const rest = colours.reduce((s, { part }) => s - part, 1 - greyPart);
  const [ro, bo] = [x[k] * baseSpread, x[k + 1] * baseSpread];
  const vr = new Float64Array(n);
  const vb = new Float64Array(n);
  vr[k] = baseSpread;
  vb[k + 1] = baseSpread;
  let claimed = 0;
  for (let i = 0, o = 0; i < count; i++, o += stride) {
    let er = values[o] - ro;
    let eb = values[o + 1] - bo;
    for (let j = 0; j < k; j++) {
      vr[j] = values[o + 2 + 2 * j];
      vb[j] = values[o + 3 + 2 * j];
      er -= x[j] * vr[j];
      eb -= x[j] * vb[j];
    }
    const f = slopes[i];
    const r2 = er * er + eb * eb;
    const grey = greyPart * ig * Math.exp(-0.5 * r2 * ig);
    const other = rest * iw * Math.exp(-0.5 * r2 * iw);
    let all = grey + other;
    const round = grey * ig + other * iw;
    // Weights of red, of blue and of both, and what red and blue are drawn towards.
    let [wr, wb, wc] = [round, round, 0];
    let [yr, yb] = [round * values[o], round * values[o + 1]];
    for (const { height, mean, tilt, rr, rb, bb } of clusters) {
      const [mr, mb] = [f * (mean[0] + tilt[0] * light[i]), f * (mean[1] + tilt[1] * light[i])];
      const [cr, cb] = [(er - mr) / f, (eb - mb) / f];
      const p = (height / (f * f)) * Math.exp(-0.5 * (cr * cr * rr + 2 * cr * cb * rb + cb * cb * bb));
      all += p;
      const own = p / (f * f);
      wr += own * rr;
      wb += own * bb;
      wc += own * rb;
      yr += own * (rr * (values[o] - mr) + rb * (values[o + 1] - mb));
      yb += own * (rb * (values[o] - mr) + bb * (values[o + 1] - mb));
    }
    if (!(all > 0)) continue;
    const share = weights[i] / all;
    claimed += grey * share;
    [wr, wb, wc, yr, yb] = [wr * share, wb * share, wc * share, yr * share, yb * share];
    for (let a = 0; a < n; a++) {
      sides[a] += vr[a] * yr + vb[a] * yb;
      for (let c = 0; c <= a; c++)
        sums[a * n + c] += wr * vr[a] * vr[c] + wb * vb[a] * vb[c] + wc * (vr[a] * vb[c] + vb[a] * vr[c]);
    }
  }
  const scale = observations / count;
  for (let a = 0; a < n; a++) {
    right[a] += scale * sides[a];
    for (let c = 0; c <= a; c++) {
      normal[a][c] += scale * sums[a * n + c];
      if (c !== a) normal[c][a] += scale * sums[a * n + c];
    }
  }
  return claimed / count;
}

/** A cluster with the inverse of its covariance and the height of its middle, over that of a unit distribution. */
function clusterOf({ part, mean, tilt, spread: [sr, sb], correlation }: ColourCluster) {
  const free = 1 - correlation ** 2;
  return {
    height: part / (sr * sb * Math.sqrt(free)),
    mean,
    tilt,
    rr: 1 / (sr * sr * free),
    rb: -correlation / (sr * sb * free),
    bb: 1 / (sb * sb * free),
  };
}

function meanGreen(frames: readonly BlockDensities[]): number {
  let [sum, n] = [0, 0];
  for (const frame of frames)
    for (let i = 1; i < frame.length; i += 3)
      if (Number.isFinite(frame[i])) {
        sum += frame[i];
        n++;
      }
  return n ? Math.max(0.1, sum / n) : 0.6;
}

/** Standard deviation of the axis at a green density, from the inverse of the normal equations. */
function deviation(
  normal: readonly (readonly number[])[],
  prior: NeutralPrior,
  green: number,
  channel: number,
  baseSpread: number,
): number {
  let n = 0;
  while (n < prior.green.length - 2 && prior.green[n + 1] < green) n++;
  const f = (green - prior.green[n]) / (prior.green[n + 1] - prior.green[n]);
  const which = channel === 0 ? "red" : "blue";
  const row = prior.components.map((c) => c[which][n] + f * (c[which][n + 1] - c[which][n]));
  const v = [...row, channel === 0 ? baseSpread : 0, channel === 1 ? baseSpread : 0];
  const solved = solveLinear(normal, v);
  return Math.sqrt(
    Math.max(
      0,
      v.reduce((s, a, i) => s + a * solved[i], 0),
    ),
  );
}
