/**
 * How neutrals lie in the densities that cameras see of published colour negatives: the prior of the automatic start.
 * Called by auto/make.mjs and by the tests and benches that leave films out; nothing of it runs in the product.
 *
 * A film's characteristic curves are Status M densities (ISO 5-3). The amounts of a dye set that give them are solved
 * for, and looked at through a camera's sensitivities and a copy light. The densities above base of all neutrals draw a
 * curve; written against green it is two functions, red and blue, whose mean and principal components over all films,
 * dyes, cameras and lights are the prior.
 */
import { filmCurve } from "../film/characteristic-curve.ts";
import type { NeutralPrior } from "../auto/prior.ts";
import type { Matrix3, Rgb } from "../types.ts";
import { principalComponents } from "../math/principal-components.ts";
import { statusM, type Spectrum } from "./spectra.ts";
import { solveLinear } from "../math/least-squares.ts";

/** A colour negative's data sheet. */
export interface NegativeSheet {
  readonly name: string;
  readonly family: string;
  /** Spectral density of unexposed film on the grid. */
  readonly base: Spectrum;
  /** Status M density, base included, per channel. */
  readonly curves: readonly { readonly logH: readonly number[]; readonly density: readonly number[] }[];
}

export interface DyeSet {
  readonly name: string;
  readonly dyes: readonly [Spectrum, Spectrum, Spectrum];
}

/** A camera looking through a light: sensitivity × light per channel, each summing to 1. */
export type Viewer = readonly [Spectrum, Spectrum, Spectrum];

export function viewerOf(sensitivity: readonly Spectrum[], light: Spectrum): Viewer {
  return sensitivity.map((s) => {
    const product = s.map((v, i) => v * light[i]);
    const total = product.reduce((a, b) => a + b, 0);
    return product.map((v) => v / total);
  }) as unknown as Viewer;
}

/** log10 exposures above mid-grey at which a film's neutrals are followed. */
export const LOG_H: readonly number[] = Array.from({ length: 31 }, (_, i) => -1.9 + 0.15 * i);

/** A film with a dye set: spectral densities of its base and of its neutrals at LOG_H. */
export interface Neutrals {
  readonly film: string;
  readonly family: string;
  readonly base: Spectrum;
  readonly at: readonly Spectrum[];
  /** Spectral density that each layer gains over 0.3 log H about mid-grey. */
  readonly steps: readonly Spectrum[];
}

/** The log10 exposure of mid-grey on a sheet: green 0.70 D above base plus what the film's own gamma makes of it. */
function midOf(sheet: NegativeSheet): number {
  const { logH, density } = sheet.curves[1];
  const curve = filmCurve(logH, density);
  return curve.logHAt(curve.dmin + MID_GREY_STATUS_M);
}

/**
 * Status M green of an 18 % grey above base as films are rated. SMPTE ST 2065-3 has 0.70; the makers' aims for grey cards
 * (Kodak E-40: red 0.75–0.95 with base) reach from 0.55 to 0.75.
 */
const MID_GREY_STATUS_M = 0.72;

/**
 * Dye amounts that follow the film's curves.
 * @throws RangeError where a sheet's curves do not rise
 */
export function neutralsOf(grid: readonly number[], sheet: NegativeSheet, { dyes }: DyeSet): Neutrals {
  const curves = sheet.curves.map(({ logH, density }) => filmCurve(logH, density));
  const mid = midOf(sheet);
  // Above the sheet's last point the curve goes on straight: what is exposed further is rare, but must not be level.
  const above = (c: number, h: number): number => {
    const curve = curves[c];
    const over = Math.max(0, h - curve.last);
    return curve.at(Math.min(curve.last, Math.max(curve.first, h))) - curve.dmin + over * END_SLOPE * curve.gamma;
  };
  const base = statusM(grid, sheet.base);
  const dyeDensity = (amounts: readonly number[]): number[] =>
    sheet.base.map((b, i) => b + amounts[0] * dyes[0][i] + amounts[1] * dyes[1][i] + amounts[2] * dyes[2][i]);
  let amounts = [0, 0, 0];
  const solve = (aim: Rgb): number[] => {
    for (let round = 0; round < 20; round++) {
      const d = statusM(grid, dyeDensity(amounts));
      const error = aim.map((a, k) => a + base[k] - d[k]);
      if (Math.max(...error.map(Math.abs)) < 1e-6) break;
      const columns = [0, 1, 2].map((k) => {
        const moved = statusM(grid, dyeDensity(amounts.map((a, j) => (j === k ? a + 1e-3 : a))));
        return moved.map((v, j) => (v - d[j]) / 1e-3);
      });
      const step = solveLinear(
        [0, 1, 2].map((i) => columns.map((column) => column[i])),
        error,
      );
      amounts = amounts.map((a, k) => a + step[k]);
    }
    return amounts;
  };
  const at = (h: number): number[] => solve([above(0, mid + h), above(1, mid + h), above(2, mid + h)]);
  const all = LOG_H.map((h) => dyeDensity(at(h)));
  const low = at(-0.15);
  const high = at(0.15);
  const steps = dyes.map((dye, k) => dye.map((v) => v * (high[k] - low[k])));
  return { film: sheet.name, family: sheet.family, base: sheet.base, at: all, steps };
}

/** Slope beyond a sheet's last point, in parts of gamma. */
const END_SLOPE = 0.6;

/** Density that a viewer sees. */
export function seenDensity(viewer: Viewer, density: Spectrum): Rgb {
  const through = [0, 0, 0];
  for (let i = 0; i < density.length; i++) {
    const t = 10 ** -density[i];
    for (let c = 0; c < 3; c++) through[c] += viewer[c][i] * t;
  }
  return [-Math.log10(through[0]), -Math.log10(through[1]), -Math.log10(through[2])];
}

/** One film through one camera and light. */
export interface SeenNeutrals {
  readonly film: string;
  readonly family: string;
  readonly base: Rgb;
  /** Densities above base at LOG_H. */
  readonly curve: readonly Rgb[];
  /** Rows: density per log H that the camera's channel gains of each layer at mid-grey. */
  readonly crosstalk: Matrix3;
}

export function seeNeutrals(viewer: Viewer, neutrals: Neutrals): SeenNeutrals {
  const base = seenDensity(viewer, neutrals.base);
  const curve = neutrals.at.map((d) => {
    const seen = seenDensity(viewer, d);
    return [seen[0] - base[0], seen[1] - base[1], seen[2] - base[2]] as Rgb;
  });
  const mid = neutrals.at[MID_INDEX];
  const from = seenDensity(viewer, mid);
  const layers = neutrals.steps.map((step) => {
    const to = seenDensity(
      viewer,
      mid.map((v, i) => v + step[i]),
    );
    return to.map((v, c) => (v - from[c]) / 0.3);
  });
  const crosstalk = [0, 1, 2].map((c) => layers.map((layer) => layer[c])) as unknown as Matrix3;
  return { film: neutrals.film, family: neutrals.family, base, curve, crosstalk };
}

const MID_INDEX = LOG_H.reduce((best, h, i) => (Math.abs(h) < Math.abs(LOG_H[best]) ? i : best), 0);

/** Densities of green above base at which the prior's functions are tabled. */
export const KNOTS: readonly number[] = [0, 0.05, 0.1, 0.2, 0.3, 0.45, 0.6, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.4];

/** Red, blue and log exposure against green at KNOTS; straight on beyond the curve's ends. */
export function againstGreen(curve: readonly Rgb[]): { red: number[]; blue: number[]; logH: number[] } {
  const points = curve.map(([r, g, b], i) => [g, r, b, LOG_H[i]] as const).filter(([g]) => g > 0.004);
  const rising = points.filter(([g], i) => points.slice(0, i).every((p) => g > p[0] + 1e-6));
  const read = (k: 1 | 2 | 3, x: number): number => {
    const all = k === 3 ? rising : ([[0, 0, 0, 0] as const, ...rising] as const);
    let i = all.findIndex((p) => p[0] >= x);
    if (i < 0) i = all.length - 1;
    i = Math.max(1, i);
    const [a, b] = [all[i - 1], all[i]];
    return a[k] + ((x - a[0]) / (b[0] - a[0])) * (b[k] - a[k]);
  };
  return {
    red: KNOTS.map((x) => read(1, x)),
    blue: KNOTS.map((x) => read(2, x)),
    logH: KNOTS.map((x) => read(3, Math.max(x, 0.02))),
  };
}

/** Components that are kept: the first four leave less than 0.006 D of the curves. */
const COMPONENTS = 5;

/** A set of neutral curves with a weight. */
export interface WeighedCurve {
  readonly red: readonly number[];
  readonly blue: readonly number[];
  readonly logH: readonly number[];
  readonly weight: number;
}

/** Mean and principal components of curves. Dense tones weigh less than their variance asks: few pictures reach them. */
export function priorOf(curves: readonly WeighedCurve[]): NeutralPrior {
  const total = curves.reduce((s, { weight }) => s + weight, 0);
  const n = KNOTS.length;
  const vector = ({ red, blue }: WeighedCurve): number[] => [...red, ...blue];
  const mean = Array.from({ length: 2 * n }, () => 0);
  for (const curve of curves) vector(curve).forEach((v, i) => (mean[i] += (v * curve.weight) / total));
  const emphasis = Array.from({ length: 2 * n }, (_, i) => 1 / (0.25 + KNOTS[i % n]));
  const covariance = mean.map(() => mean.map(() => 0));
  for (const curve of curves) {
    const d = vector(curve).map((v, i) => (v - mean[i]) * emphasis[i]);
    const w = curve.weight / total;
    for (let i = 0; i < 2 * n; i++) for (let j = 0; j <= i; j++) covariance[i][j] += w * d[i] * d[j];
  }
  for (let i = 0; i < 2 * n; i++) for (let j = 0; j < i; j++) covariance[j][i] = covariance[i][j];
  const components = principalComponents(covariance, COMPONENTS).map(({ variance, vector: v }) =>
    v.map((x, i) => (x * Math.sqrt(variance)) / emphasis[i]),
  );
  const sorted = (k: number): number => {
    const values = curves.map((c) => [c.logH[k], c.weight] as const).sort((a, b) => a[0] - b[0]);
    let sum = 0;
    return values.find(([, w]) => (sum += w) >= total / 2)![0];
  };
  return {
    green: KNOTS,
    red: mean.slice(0, n),
    blue: mean.slice(n),
    components: components.map((c) => ({ red: c.slice(0, n), blue: c.slice(n) })),
    logH: KNOTS.map((_, k) => sorted(k)),
  };
}
