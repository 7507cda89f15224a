/** Nonlinear least squares for a handful of unknowns. */
import { solve } from "./spectra/colour.ts";

/** Levenberg's and Marquardt's method with numerical slopes; returns the unknowns at the least sum of squares. */
export function leastSquares(errorsOf: (x: readonly number[]) => number[], start: readonly number[]): number[] {
  const size = (e: readonly number[]): number => e.reduce((s, v) => s + v * v, 0);
  let x = [...start];
  let errors = errorsOf(x);
  let damping = 1e-2;
  for (let round = 0; round < 60; round++) {
    const slopes = x.map((_, k) => {
      const moved = [...x];
      moved[k] += 1e-5;
      return errorsOf(moved).map((v, i) => (v - errors[i]) / 1e-5);
    });
    const right = slopes.map((s) => -s.reduce((a, v, i) => a + v * errors[i], 0));
    const normal = slopes.map((s) => slopes.map((t) => s.reduce((a, v, i) => a + v * t[i], 0)));
    let better = false;
    for (let tries = 0; tries < 10 && !better; tries++) {
      const step = solve(
        normal.map((r, i) => r.map((v, j) => (i === j ? v * (1 + damping) + 1e-12 : v))),
        right,
      );
      const next = x.map((v, i) => v + step[i]);
      const nextErrors = errorsOf(next);
      if (size(nextErrors) < size(errors)) {
        better = true;
        damping /= 5;
        const gain = 1 - size(nextErrors) / size(errors);
        [x, errors] = [next, nextErrors];
        if (gain < 1e-7) return x;
      } else damping *= 5;
    }
    if (!better) return x;
  }
  return x;
}
