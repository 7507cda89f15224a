type Row = readonly [number, number, number];

/** Determinant of a 3×3 matrix: near 0 it cannot be inverted. */
export function determinant([[a, b, c], [d, e, f], [g, h, i]]: readonly [Row, Row, Row]): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
