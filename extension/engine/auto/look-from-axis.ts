/** A neutral axis in the terms of a recipe: unmix in density, characteristic curve, colour. */
import { apply, invert, multiply, diagonal, IDENTITY } from "../math/matrix.ts";
import type { CurveTable, Matrix3, Rgb } from "../types.ts";
import type { NeutralAxis } from "./neutral-axis.ts";
import type { NeutralPrior } from "./prior.ts";

export interface AxisLook {
  readonly unmix: Matrix3;
  readonly curve: CurveTable;
}

/** Log exposures of the table that is written. */
const LOG_H: readonly number[] = [-1.8, -1.5, -1.3, -1.1, -0.9, -0.7, -0.5, -0.3, 0, 0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.2];

/** Green densities above base between which slopes are taken. */
const [LOW, HIGH] = [0.3, 1];

/** Where the films' median shoulder is passed the curve goes on straight: sun and lamps must not run away. */
const LAST_GREEN = 1.4;
const END_SLOPE = 0.5;

/**
 * @param crosstalk log exposure that camera channels see of layers, rows summing to 1; undefined where it was undone
 * @returns unmix and curve of densities above base: greys of the axis get three equal exposures, at every density
 */
export function lookFromAxis(axis: NeutralAxis, prior: NeutralPrior, crosstalk: Matrix3 | undefined): AxisLook {
  const at = (table: readonly number[], g: number): number => interpolate(prior.green, table, g);
  const slope = (table: readonly number[]): number => (at(table, HIGH) - at(table, LOW)) / (HIGH - LOW);
  const slopes: Rgb = [slope(axis.red), 1, slope(axis.blue)];
  // Densities are scaled to green's slope, unmixed as log exposures are, and left so.
  const unmix = crosstalk
    ? multiply(invert(crosstalk), diagonal([1 / slopes[0], 1 / slopes[1], 1 / slopes[2]]))
    : IDENTITY;
  const curve = LOG_H.map((h) => {
    const g = greenAt(prior, h);
    return apply(unmix, [at(axis.red, g), g, at(axis.blue, g)]);
  });
  const channel = (c: number): number[] => rising(curve.map((d) => d[c]));
  return { unmix, curve: { logH: LOG_H, red: channel(0), green: channel(1), blue: channel(2), mid: 0 } };
}

/** Green density above base of a neutral at log10 exposure over mid-grey. */
export function greenAt(prior: NeutralPrior, h: number): number {
  const end = logHAt(prior, LAST_GREEN);
  if (h > end) return LAST_GREEN + END_SLOPE * (h - end);
  let i = 1;
  while (i < prior.logH.length - 1 && prior.logH[i] < h) i++;
  const [a, b] = [prior.logH[i - 1], prior.logH[i]];
  const g = prior.green[i - 1] + ((h - a) / (b - a)) * (prior.green[i] - prior.green[i - 1]);
  // Below the toe density falls off to the base and never reaches it.
  return g > 0.02 ? g : 0.02 * Math.exp((g - 0.02) / 0.03);
}

/** log10 exposure over mid-grey of a neutral's green density above base. */
export function logHAt(prior: NeutralPrior, green: number): number {
  if (green <= LAST_GREEN) return interpolate(prior.green, prior.logH, green);
  return interpolate(prior.green, prior.logH, LAST_GREEN) + (green - LAST_GREEN) / END_SLOPE;
}

/** Straight lines through points, the first and last going on. */
export function interpolate(x: readonly number[], y: readonly number[], at: number): number {
  let i = 1;
  while (i < x.length - 1 && x[i] < at) i++;
  return y[i - 1] + ((at - x[i - 1]) / (x[i] - x[i - 1])) * (y[i] - y[i - 1]);
}

/** Four decimals, each a little above the one before. */
function rising(values: readonly number[]): number[] {
  let last = -Infinity;
  return values.map((v) => (last = Number(Math.max(v, last + 1e-3).toFixed(4))));
}
