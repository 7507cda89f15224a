/** CIELAB 1976 (CIE 15, ISO/CIE 11664-4), relative to a white with Y = 1; D50 unless told otherwise. */
import type { Rgb } from "../types.ts";
import { WHITE_D50 } from "./spaces.ts";

/** L*, a*, b*. */
export type Lab = readonly [L: number, a: number, b: number];

const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

const compress = (t: number): number => (t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116);
const expand = (f: number): number => (f ** 3 > EPSILON ? f ** 3 : (116 * f - 16) / KAPPA);

/** L* (0 … 100) of a luminance relative to white (0 … 1). */
export function lightnessOf(luminance: number): number {
  return 116 * compress(luminance) - 16;
}

/** Luminance relative to white of an L*. */
export function luminanceOf(lightness: number): number {
  return expand((lightness + 16) / 116);
}

/** L*a*b* of XYZ relative to `white`. */
export function labOf(xyz: Rgb, white: Rgb = WHITE_D50): Lab {
  const [x, y, z] = [compress(xyz[0] / white[0]), compress(xyz[1] / white[1]), compress(xyz[2] / white[2])];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** XYZ of L*a*b* relative to `white`. */
export function xyzOfLab([L, a, b]: Lab, white: Rgb = WHITE_D50): Rgb {
  const y = (L + 16) / 116;
  return [expand(y + a / 500) * white[0], expand(y) * white[1], expand(y - b / 200) * white[2]];
}
