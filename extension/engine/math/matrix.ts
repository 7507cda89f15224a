/** 3×3 matrices on colour triples: exact arithmetic, no allocation beyond the result. */
import type { Matrix3, Rgb } from "../types.ts";

export const IDENTITY: Matrix3 = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The product a·b: first b acts on a column, then a. */
export function multiply(a: Matrix3, b: Matrix3): Matrix3 {
  const row = (r: Rgb): Rgb => [
    r[0] * b[0][0] + r[1] * b[1][0] + r[2] * b[2][0],
    r[0] * b[0][1] + r[1] * b[1][1] + r[2] * b[2][1],
    r[0] * b[0][2] + r[1] * b[1][2] + r[2] * b[2][2],
  ];
  return [row(a[0]), row(a[1]), row(a[2])];
}

/** m·v for a column v. */
export function apply(m: Matrix3, v: Rgb): Rgb {
  return [
    m[0][0] * v[0] + m[0][1] * v[1] + m[0][2] * v[2],
    m[1][0] * v[0] + m[1][1] * v[1] + m[1][2] * v[2],
    m[2][0] * v[0] + m[2][1] * v[1] + m[2][2] * v[2],
  ];
}

/** The matrix that multiplies channel c by v[c]. */
export function diagonal(v: Rgb): Matrix3 {
  return [
    [v[0], 0, 0],
    [0, v[1], 0],
    [0, 0, v[2]],
  ];
}

/** The volume that the three rows span; negative where they are turned round. */
export function determinant([[a, b, c], [d, e, f], [g, h, i]]: Matrix3): number {
  return a * (e * i - f * h) + b * (f * g - d * i) + c * (d * h - e * g);
}

/**
 * The inverse, by cofactors.
 * @throws RangeError where the matrix has none (its rows do not span three dimensions).
 */
export function invert(m: Matrix3): Matrix3 {
  const [[a, b, c], [d, e, f], [g, h, i]] = m;
  const [A, B, C] = [e * i - f * h, f * g - d * i, d * h - e * g];
  const det = a * A + b * B + c * C;
  const size = Math.max(...m.flat().map(Math.abs));
  if (!(Math.abs(det) > 1e-12 * size ** 3))
    throw new RangeError("This 3×3 matrix cannot be inverted: its rows are not independent. Check its nine numbers.");
  return [
    [A / det, (c * h - b * i) / det, (b * f - c * e) / det],
    [B / det, (a * i - c * g) / det, (c * d - a * f) / det],
    [C / det, (b * g - a * h) / det, (a * e - b * d) / det],
  ];
}
