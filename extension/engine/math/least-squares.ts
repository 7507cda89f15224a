/** Small systems of linear equations. */

/**
 * Solves a·x = b by Gaussian elimination with pivoting; a is n×n, row by row. Arguments are left as they are.
 * @throws RangeError where the equations have no single solution
 */
export function solveLinear(a: readonly (readonly number[])[], b: readonly number[]): number[] {
  const n = b.length;
  const m = a.map((row, i) => [...row, b[i]]);
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(m[i][k]) > Math.abs(m[pivot][k])) pivot = i;
    [m[k], m[pivot]] = [m[pivot], m[k]];
    if (!(Math.abs(m[k][k]) > 1e-14)) throw new RangeError("The equations have no single solution.");
    for (let i = k + 1; i < n; i++) {
      const factor = m[i][k] / m[k][k];
      for (let j = k; j <= n; j++) m[i][j] -= factor * m[k][j];
    }
  }
  const x = Array.from({ length: n }, () => 0);
  for (let i = n - 1; i >= 0; i--) {
    let rest = m[i][n];
    for (let j = i + 1; j < n; j++) rest -= m[i][j] * x[j];
    x[i] = rest / m[i][i];
  }
  return x;
}

/**
 * Nonlinear least squares after Levenberg and Marquardt, slopes by differences.
 * @param errorsOf residuals of unknowns, always as many
 * @returns the unknowns at the least sum of squares that was reached from `start`
 */
export function leastSquares(
  errorsOf: (x: readonly number[]) => readonly number[],
  start: readonly number[],
  rounds = 80,
): number[] {
  const size = (e: readonly number[]): number => e.reduce((s, v) => s + v * v, 0);
  let x = [...start];
  let errors = errorsOf(x);
  let damping = 1e-2;
  for (let round = 0; round < rounds; round++) {
    const slopes = x.map((_, k) => {
      const moved = [...x];
      moved[k] += 1e-5;
      return errorsOf(moved).map((v, i) => (v - errors[i]) / 1e-5);
    });
    const right = slopes.map((s) => -s.reduce((a, v, i) => a + v * errors[i], 0));
    const normal = slopes.map((s) => slopes.map((t) => s.reduce((a, v, i) => a + v * t[i], 0)));
    let gain = 0;
    for (let tries = 0; tries < 12 && gain === 0; tries++) {
      const step = solveLinear(
        normal.map((row, i) => row.map((v, j) => (i === j ? v * (1 + damping) + 1e-12 : v))),
        right,
      );
      const next = x.map((v, i) => v + step[i]);
      const nextErrors = errorsOf(next);
      if (size(nextErrors) < size(errors)) {
        gain = 1 - size(nextErrors) / size(errors);
        damping = Math.max(1e-9, damping / 5);
        x = next;
        errors = nextErrors;
      } else damping *= 5;
    }
    if (gain < 1e-8) return x;
  }
  return x;
}
