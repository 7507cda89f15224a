/** Robust smoothing of a coarse grid: each node becomes the value of a quadratic surface fitted around it. */

const WINDOW = 5;
/** Distance, in cells, at which a cell no longer counts: near ones count most (tricube weights, Cleveland 1979). */
const REACH = 5;
const TERMS = 6;

/**
 * Smooths interleaved cells. A local quadratic keeps falloff and hot spots, even in the corners where a running mean
 * would pull the level inwards; Tukey's bisquare weights let single wrong cells drop out.
 *
 * @returns a new grid of the same shape.
 */
export function smoothCells(cells: Float32Array, columns: number, rows: number, channels: number): Float32Array {
  const out = new Float32Array(cells.length);
  const wide = Math.min(WINDOW, columns);
  const high = Math.min(WINDOW, rows);
  // Too few cells for a quadratic: they are large already, and are taken as they are.
  if (wide < 3 || high < 3) return out.fill(0).map((_, i) => cells[i]);
  const n = wide * high;
  const terms = new Float64Array(n * TERMS);
  const values = new Float64Array(n);
  const nearness = new Float64Array(n);
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < columns; q++) {
      // At the border the window stays whole and the node moves out of its middle.
      const q0 = Math.min(Math.max(q - (wide >> 1), 0), columns - wide);
      const r0 = Math.min(Math.max(r - (high >> 1), 0), rows - high);
      for (let i = 0; i < n; i++) {
        const dx = q0 + (i % wide) - q;
        const dy = r0 + Math.floor(i / wide) - r;
        terms.set([1, dx, dy, dx * dx, dx * dy, dy * dy], i * TERMS);
        // At the border the window's far side is further away than the reach; it still holds the corners steady.
        nearness[i] = Math.max(0.02, 1 - Math.min(1, Math.hypot(dx, dy) / REACH) ** 3) ** 3;
      }
      for (let c = 0; c < channels; c++) {
        for (let i = 0; i < n; i++)
          values[i] = cells[((r0 + Math.floor(i / wide)) * columns + q0 + (i % wide)) * channels + c];
        out[(r * columns + q) * channels + c] = robustConstant(terms, values, nearness);
      }
    }
  return out;
}

/** The constant term of a robust quadratic fit. */
function robustConstant(terms: Float64Array, values: Float64Array, nearness: Float64Array): number {
  const n = values.length;
  const weights = nearness.slice();
  const residual = new Float64Array(n);
  let fit = new Float64Array(TERMS);
  for (let round = 0; round < 5; round++) {
    fit = leastSquares(terms, values, weights);
    for (let i = 0; i < n; i++) {
      let v = values[i];
      for (let k = 0; k < TERMS; k++) v -= fit[k] * terms[i * TERMS + k];
      residual[i] = Math.abs(v);
    }
    // 1.4826 × the median absolute residual is the standard deviation; 4.685 is the bisquare's usual reach (Tukey).
    const sorted = residual.slice().sort();
    const reach = Math.max(4.685 * 1.4826 * sorted[n >> 1], Math.abs(fit[0]) * 1e-4, 1e-9);
    for (let i = 0; i < n; i++) {
      const u = residual[i] / reach;
      weights[i] = u < 1 ? nearness[i] * (1 - u * u) ** 2 : 0;
    }
  }
  return fit[0];
}

/** Weighted least squares by the normal equations, with a trace of damping so that it never becomes singular. */
function leastSquares(terms: Float64Array, values: Float64Array, weights: Float64Array): Float64Array<ArrayBuffer> {
  const m = TERMS + 1;
  const a = new Float64Array(TERMS * m);
  for (let i = 0; i < values.length; i++)
    for (let j = 0; j < TERMS; j++) {
      const t = weights[i] * terms[i * TERMS + j];
      for (let k = 0; k < TERMS; k++) a[j * m + k] += t * terms[i * TERMS + k];
      a[j * m + TERMS] += t * values[i];
    }
  for (let j = 0; j < TERMS; j++) a[j * m + j] += 1e-9;
  for (let p = 0; p < TERMS; p++) {
    for (let j = 0; j < TERMS; j++) {
      if (j === p) continue;
      const f = a[j * m + p] / a[p * m + p];
      for (let k = p; k < m; k++) a[j * m + k] -= f * a[p * m + k];
    }
  }
  return Float64Array.from({ length: TERMS }, (_, j) => a[j * m + TERMS] / a[j * m + j]);
}
