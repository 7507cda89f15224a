/** Eigenvectors of a small symmetric matrix, greatest first. */

/** A direction of unit length and the variance along it. */
export interface Component {
  readonly variance: number;
  readonly vector: readonly number[];
}

/**
 * Principal components by Jacobi rotations (Golub, Van Loan, Matrix Computations, section 8.5).
 * @param covariance symmetric, n×n
 * @param count components to return; each points so that its sum is not negative, and the result repeats exactly
 */
export function principalComponents(covariance: readonly (readonly number[])[], count: number): Component[] {
  const n = covariance.length;
  const a = covariance.map((row) => [...row]);
  const v = a.map((_, i): number[] => a.map((__, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0;
    for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) off += a[i][j] ** 2;
    if (off < 1e-22) break;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        if (Math.abs(a[p][q]) < 1e-300) continue;
        const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        const c = 1 / Math.sqrt(t * t + 1);
        const s = t * c;
        for (let k = 0; k < n; k++) [a[k][p], a[k][q]] = [c * a[k][p] - s * a[k][q], s * a[k][p] + c * a[k][q]];
        for (let k = 0; k < n; k++) [a[p][k], a[q][k]] = [c * a[p][k] - s * a[q][k], s * a[p][k] + c * a[q][k]];
        for (let k = 0; k < n; k++) [v[k][p], v[k][q]] = [c * v[k][p] - s * v[k][q], s * v[k][p] + c * v[k][q]];
      }
  }
  return a
    .map((row, i) => {
      const vector = v.map((r) => r[i]);
      const sign = vector.reduce((x, y) => x + y, 0) < 0 ? -1 : 1;
      return { variance: Math.max(0, row[i]), vector: vector.map((x) => sign * x) };
    })
    .sort((x, y) => y.variance - x.variance)
    .slice(0, count);
}
