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
  /** Parts of the blocks that are grey and of ordinary colours; the rest may have any. */
  readonly parts: { readonly grey: number; readonly ordinary: number };
  /** Ordinary colours, red and blue over the axis: mean and standard deviation, D. */
  readonly colours: { readonly mean: readonly [number, number]; readonly spread: readonly [number, number] };
  /** Standard deviation that the narrow heap starts with. */
  readonly start: number;
  /** Independent observations that a frame counts as, however many blocks it has. */
  readonly observations: number;
  /** Factor on the prior's standard deviations: above 1 for film that is old. */
  readonly priorScale?: number;
}

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
  const { prior, baseSpread, narrow, start, priorScale = 1 } = options;
  const k = prior.components.length;
  const unknowns = k + 2;
  const rows = frames.map((frame) => designOf(frame, prior, priorScale, baseSpread));
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
    prior[which].map((m, i) => m + prior.components.reduce((sum, c, j) => sum + x[j] * priorScale * c[which][i], 0));
  const middle = meanGreen(frames);
  return {
    red: at("red"),
    blue: at("blue"),
    offset: [x[k] * baseSpread, x[k + 1] * baseSpread],
    share,
    uncertainty: [0, 1].map((c) => deviation(normal, prior, middle, c, priorScale, baseSpread)) as [number, number],
  };
}

/** A frame's blocks, each as its red and blue residual against the prior's mean and how these move with the unknowns. */
interface Design {
  readonly count: number;
  /** Per block: residual red and blue, then the components' red and blue. */
  readonly values: Float64Array;
  /** Per block: how much it counts, 1 on average. */
  readonly weights: Float64Array;
  readonly stride: number;
  readonly baseSpread: number;
}

function designOf(frame: BlockDensities, prior: NeutralPrior, priorScale: number, baseSpread: number): Design {
  const k = prior.components.length;
  const stride = 2 + 2 * k;
  const values = new Float64Array((frame.length / 3) * stride);
  let count = 0;
  const weights = new Float64Array(frame.length / 3);
  const colours: number[] = [];
  const alike = new Map<number, number>();
  const { green } = prior;
  const last = green.length - 2;
  for (let i = 0; i < frame.length; i += 3) {
    const [r, g, b] = [frame[i], frame[i + 1], frame[i + 2]];
    if (!Number.isFinite(r + g + b)) continue;
    let n = 0;
    while (n < last && green[n + 1] < g) n++;
    // Below the base, where noise may bring a block, the axis goes on straight.
    const f = (g - green[n]) / (green[n + 1] - green[n]);
    const read = (v: readonly number[]): number => v[n] + f * (v[n + 1] - v[n]);
    const o = count++ * stride;
    values[o] = r - read(prior.red);
    values[o + 1] = b - read(prior.blue);
    for (let j = 0; j < k; j++) {
      values[o + 2 + 2 * j] = priorScale * read(prior.components[j].red);
      values[o + 3 + 2 * j] = priorScale * read(prior.components[j].blue);
    }
    const colour = colourOf(g, values[o], values[o + 1]);
    colours.push(colour);
    alike.set(colour, (alike.get(colour) ?? 0) + 1);
  }
  let total = 0;
  for (let i = 0; i < count; i++) total += weights[i] = 1 / Math.sqrt(alike.get(colours[i])!);
  for (let i = 0; i < count; i++) weights[i] *= count / Math.max(total, 1e-9);
  return { count, values, weights, stride, baseSpread };
}

/** A number for a colour and its neighbours. */
function colourOf(green: number, red: number, blue: number): number {
  const step = (v: number): number => Math.round(v / ONE_COLOUR.over) + 500;
  return Math.round(green / ONE_COLOUR.green) * 1e6 + step(red) * 1e3 + step(blue);
}

/** Adds a frame's blocks to the normal equations; returns the part of them that the narrow heap claims. */
function accumulate(
  { count, values, weights, stride, baseSpread }: Design,
  x: readonly number[],
  { narrow, parts, colours, observations }: AxisOptions,
  normal: number[][],
  right: number[],
): number {
  if (count === 0) return 0;
  const k = (stride - 2) / 2;
  const n = k + 2;
  const sums = new Float64Array(n * n);
  const sides = new Float64Array(n);
  const [ig, iw] = [1 / (narrow * narrow), 1 / (WIDE * WIDE)];
  const [mr, mb] = colours.mean;
  const [ir, ib] = [1 / colours.spread[0] ** 2, 1 / colours.spread[1] ** 2];
  const chances = [parts.grey * ig, parts.ordinary * Math.sqrt(ir * ib), (1 - parts.grey - parts.ordinary) * iw];
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
    const r2 = er * er + eb * eb;
    const grey = chances[0] * Math.exp(-0.5 * r2 * ig);
    const ordinary = chances[1] * Math.exp(-0.5 * ((er - mr) ** 2 * ir + (eb - mb) ** 2 * ib));
    const other = chances[2] * Math.exp(-0.5 * r2 * iw);
    const all = grey + ordinary + other;
    if (!(all > 0)) continue;
    const share = weights[i] / all;
    claimed += grey * share;
    // Weights of red and blue, and what they are drawn towards.
    const wr = (grey * ig + ordinary * ir + other * iw) * share;
    const wb = (grey * ig + ordinary * ib + other * iw) * share;
    const yr = wr * values[o] - ordinary * ir * mr * share;
    const yb = wb * values[o + 1] - ordinary * ib * mb * share;
    for (let a = 0; a < n; a++) {
      sides[a] += vr[a] * yr + vb[a] * yb;
      for (let c = 0; c <= a; c++) sums[a * n + c] += wr * vr[a] * vr[c] + wb * vb[a] * vb[c];
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
  priorScale: number,
  baseSpread: number,
): number {
  let n = 0;
  while (n < prior.green.length - 2 && prior.green[n + 1] < green) n++;
  const f = (green - prior.green[n]) / (prior.green[n + 1] - prior.green[n]);
  const which = channel === 0 ? "red" : "blue";
  const row = prior.components.map((c) => priorScale * (c[which][n] + f * (c[which][n + 1] - c[which][n])));
  const v = [...row, channel === 0 ? baseSpread : 0, channel === 1 ? baseSpread : 0];
  const solved = solveLinear(normal, v);
  return Math.sqrt(
    Math.max(
      0,
      v.reduce((s, a, i) => s + a * solved[i], 0),
    ),
  );
}
