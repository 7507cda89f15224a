/** Robust smoothing of a coarse grid: each node becomes the value of a quadratic surface fitted around it. */

const WINDOW = 5;
/** Distance, in cells, at which a cell no longer counts: near ones count most (tricube weights, Cleveland 1979). */
const REACH = 5;
const TERMS = 6;

/**
 * Smooths interleaved cells. A local quadratic keeps falloff and hot spots, even in the corners where a running mean
 * would pull the level inwards; Tukey's bisquare weights let single wrong cells drop out.
 *
 * @param known cells that show light, where some do not: the others are left out of every fit. Beside known ones they get
 *   the value of the nearest fit, carried on; farther away that of their neighbour.
 * @returns a new grid of the same shape.
 */
export function smoothCells(
  cells: Float32Array,
  columns: number,
  rows: number,
  channels: number,
  known?: Uint8Array,
): Float32Array {
  const out = new Float32Array(cells.length);
  const wide = Math.min(WINDOW, columns);
  const high = Math.min(WINDOW, rows);
  // Too few cells for a quadratic: they are large already, and are taken as they are.
  if (wide < 3 || high < 3) return out.fill(0).map((_, i) => cells[i]);
  const n = wide * high;
  const terms = new Float64Array(n * TERMS);
  const values = new Float64Array(n);
  const nearness = new Float64Array(n);
  const whole = known && wholeWindows(known, columns, rows, wide, high);
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < columns; q++) {
      // At the border the window stays whole and the node moves out of its middle.
      let q0 = Math.min(Math.max(q - (wide >> 1), 0), columns - wide);
      let r0 = Math.min(Math.max(r - (high >> 1), 0), rows - high);
      if (whole) {
        if (!known[r * columns + q]) continue;
        ({ q: q0, r: r0 } = nearestWindow(whole, q0, r0) ?? { q: q0, r: r0 });
      }
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
  if (known) extrapolate(out, known, columns, rows, channels);
  return out;
}

/** Side of the windows that cells under a holder are carried on from: wide, so that noise is not carried on with them. */
const WIDE = 6;
/** Cells that a quadratic is carried on by; farther it goes astray. */
const MAX_EXTRAPOLATION = 3;

/** Gives cells that are not known the value of the nearest wide fit through known ones, or of their neighbour. */
function extrapolate(out: Float32Array, known: Uint8Array, columns: number, rows: number, channels: number): void {
  let [wide, high] = [Math.min(WIDE, columns), Math.min(WIDE, rows)];
  let whole = wholeWindows(known, columns, rows, wide, high);
  while (whole.length === 0 && wide > 3 && high > 3)
    whole = wholeWindows(
      known,
      columns,
      rows,
      (wide = Math.min(wide, Math.max(wide, high) - 1)),
      (high = Math.min(high, wide)),
    );
  const n = wide * high;
  const terms = new Float64Array(n * TERMS);
  const even = new Float64Array(n).fill(1);
  const far: number[] = [];
  const smooth = out.slice();
  for (const [cell, is] of known.entries()) {
    if (is) continue;
    const [q, r] = [cell % columns, Math.floor(cell / columns)];
    const at = nearestWindow(whole, q - (wide >> 1), r - (high >> 1));
    if (!at || Math.max(at.q - q, q - at.q - wide + 1, at.r - r, r - at.r - high + 1) > MAX_EXTRAPOLATION) {
      far.push(cell);
      continue;
    }
    for (let i = 0; i < n; i++) {
      const [dx, dy] = [at.q + (i % wide) - q, at.r + Math.floor(i / wide) - r];
      terms.set([1, dx, dy, dx * dx, dx * dy, dy * dy], i * TERMS);
    }
    for (let c = 0; c < channels; c++) {
      const values = even.map(
        (_, i) => smooth[((at.r + Math.floor(i / wide)) * columns + at.q + (i % wide)) * channels + c],
      );
      out[cell * channels + c] = leastSquares(terms, values, even)[0];
    }
  }
  fillFrom(out, far, columns, rows, channels);
}

interface Window {
  readonly q: number;
  readonly r: number;
}

/** Places of windows that hold nothing but known cells. */
function wholeWindows(known: Uint8Array, columns: number, rows: number, wide: number, high: number): Window[] {
  const places: Window[] = [];
  for (let r = 0; r + high <= rows; r++)
    for (let q = 0; q + wide <= columns; q++) {
      let all = true;
      for (let i = 0; all && i < wide * high; i++)
        all = known[(r + Math.floor(i / wide)) * columns + q + (i % wide)] === 1;
      if (all) places.push({ q, r });
    }
  return places;
}

function nearestWindow(windows: readonly Window[], q: number, r: number): Window | undefined {
  let best: Window | undefined;
  let min = Infinity;
  for (const w of windows) {
    const distance = (w.q - q) ** 2 + (w.r - r) ** 2;
    if (distance < min) [best, min] = [w, distance];
  }
  return best;
}

/** Gives cells that no window reaches the value of their nearest neighbour that has one. */
function fillFrom(out: Float32Array, far: readonly number[], columns: number, rows: number, channels: number): void {
  const empty = new Set(far);
  while (empty.size > 0) {
    const found: [cell: number, from: number][] = [];
    for (const cell of empty) {
      const [q, r] = [cell % columns, Math.floor(cell / columns)];
      const beside = [
        q > 0 && cell - 1,
        q < columns - 1 && cell + 1,
        r > 0 && cell - columns,
        r < rows - 1 && cell + columns,
      ];
      const from = beside.find((b) => b !== false && !empty.has(b));
      if (typeof from === "number") found.push([cell, from]);
    }
    if (found.length === 0) return;
    for (const [cell, from] of found) {
      for (let c = 0; c < channels; c++) out[cell * channels + c] = out[from * channels + c];
      empty.delete(cell);
    }
  }
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
  const fit = new Float64Array(TERMS);
  for (let j = 0; j < TERMS; j++) fit[j] = a[j * m + TERMS] / a[j * m + j];
  return fit;
}
