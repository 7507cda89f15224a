/**
 * What a look means, step by step: the parts that the readable definition (reference-pixel.ts) and the compiled plan (plan/compile.ts)
 * share. docs/mathematics.md has the formulas.
 */
import { conversion, SPACES } from "../colour/spaces.ts";
import { straightLine, tableInverse } from "./characteristic-curve.ts";
import { MID_GREY, STOP, transmittanceOf } from "../colour/density.ts";
import { IDENTITY, multiply } from "../math/matrix.ts";
import type { FrameLook, Matrix3, OutputSpace, Rgb } from "../types.ts";

/** Transmittance is taken as at least this (D 4.8, beyond any film) and at most that. */
export const MIN_T = 2 ** -16;
export const MAX_T = 2 ** 8;

/** Density above base that the film's curve is asked for. */
export const MIN_D = -1;
export const MAX_D = 5;

/** Exposure (0.18 is mid-grey) that the print curve is asked for. */
export const MIN_H = 2 ** -24;
export const MAX_H = 2 ** 8;

/**
 * Exposures further above mid-grey than this (log10; 13 stops) are one white. Beyond the film's shoulder the channels'
 * own answers part by powers of ten, and the colour matrix would make a coloured light of a sun's glint.
 */
const MAX_LOG_H = 4;

/** The sum of channels that a one-channel film is read from where the light does not say which has least noise. */
export const EQUAL_WEIGHTS: Rgb = [1 / 3, 1 / 3, 1 / 3];

/** A look for an output space, taken apart. */
export interface Chain {
  /** Channels of the positive. */
  readonly channels: 1 | 3;
  /** One channel: T = Σ weights·T. */
  readonly weights: Rgb;
  /** D above base, unmixed and filtered = unmix · (−log10 T) + offset. One channel: the first row alone. */
  readonly unmix: Matrix3;
  readonly offset: Rgb;
  /** H of D, per channel; 0.18 is mid-grey. */
  readonly exposureOf: readonly ((density: number) => number)[];
  /** H to linear output RGB. */
  readonly colour: Matrix3;
}

/**
 * @param weights of the channels of a one-channel film, summing to 1; a third each where left out
 * @throws RangeError where the look's curve or gamma cannot be inverted
 */
export function chainOf(look: FrameLook, space: OutputSpace, weights: Rgb = EQUAL_WEIGHTS): Chain {
  if (look.film === "black-and-white-negative") {
    const clear = look.base.reduce((sum, d, c) => sum + weights[c] * transmittanceOf(d), 0);
    return {
      channels: 1,
      weights,
      unmix: IDENTITY,
      offset: [Math.log10(clear), 0, 0],
      exposureOf: [exposures(look)[1]],
      colour: IDENTITY,
    };
  }
  const { cyan, magenta, yellow } = look.filtration;
  const filters: Rgb = [cyan / 100, magenta / 100, yellow / 100];
  const slide = look.film === "slide";
  const unmix = slide ? IDENTITY : look.unmix;
  const base = slide ? ([0, 0, 0] as const) : look.base;
  const offset = unmix.map((row, c) => filters[c] - row[0] * base[0] - row[1] * base[1] - row[2] * base[2]);
  return {
    channels: 3,
    weights,
    unmix,
    offset: [offset[0], offset[1], offset[2]],
    exposureOf: exposures(look),
    colour: multiply(conversion(SPACES.srgb, SPACES[space]), multiply(saturation(look.saturation), look.colour)),
  };
}

/** H of a density above base, per channel: film⁻¹ for a negative, light itself for a slide, both times 2^exposure. */
function exposures(look: FrameLook): readonly ((density: number) => number)[] {
  const brighter = STOP * look.exposure;
  if (look.film === "slide") return [0, 1, 2].map(() => (d) => 10 ** (brighter - d));
  const back = look.curve ? tableInverse(look.curve) : look.gamma.map(straightLine);
  return back.map((h) => (d) => MID_GREY * 10 ** Math.min(h(d) + brighter, MAX_LOG_H));
}

/** Towards (0) or away from (above 1) the grey of equal luminance, in linear sRGB primaries. */
function saturation(amount: number): Matrix3 {
  const grey = SPACES.srgb.toXyz[1];
  const row = (own: Rgb): Rgb => [
    amount * own[0] + (1 - amount) * grey[0],
    amount * own[1] + (1 - amount) * grey[1],
    amount * own[2] + (1 - amount) * grey[2],
  ];
  return [row(IDENTITY[0]), row(IDENTITY[1]), row(IDENTITY[2])];
}
