/** Chromatic adaptation by the Bradford transform (as in ICC.1 Annex E): what is white under one light becomes white under another. */
import { apply, diagonal, invert, multiply } from "../math/matrix.ts";
import type { Matrix3, Rgb } from "../types.ts";

/** XYZ to sharpened cone responses. */
const BRADFORD: Matrix3 = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
];

/** The matrix that takes XYZ seen under white `from` to XYZ seen under white `to` (both XYZ with Y = 1). */
export function adaptation(from: Rgb, to: Rgb): Matrix3 {
  const [a, b] = [apply(BRADFORD, from), apply(BRADFORD, to)];
  const gains = diagonal([b[0] / a[0], b[1] / a[1], b[2] / a[2]]);
  return multiply(invert(BRADFORD), multiply(gains, BRADFORD));
}

/** XYZ of chromaticity x, y at Y = 1. */
export function xyzOf(x: number, y: number): Rgb {
  return [x / y, 1, (1 - x - y) / y];
}
