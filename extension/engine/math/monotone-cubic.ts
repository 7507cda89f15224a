/**
 * Monotone piecewise cubic through given points, with its exact inverse.
 * Method: F. N. Fritsch, R. E. Carlson, "Monotone piecewise cubic interpolation", SIAM J. Numer. Anal. 17 (1980) 238–246.
 */

/** A smooth curve through points. Outside the points it goes on as a straight line with the end's slope. */
export interface Cubic {
  /** Value at x. */
  readonly at: (x: number) => number;
  /** First derivative at x. */
  readonly slopeAt: (x: number) => number;
  /**
   * The x whose value is y, to 1e-12 of a segment. For rising data only; where the curve is flat, the flat part's start;
   * beyond a flat end, that end.
   */
  readonly inverse: (y: number) => number;
}

/**
 * The monotone cubic through (x[i], y[i]): it rises where the data rise, never overshoots, and is C1.
 * @param x strictly ascending abscissae, at least two
 * @param y as many values; for `inverse` they must not fall
 * @throws RangeError where lengths differ, fewer than two points are given, or x does not ascend
 */
export function monotoneCubic(x: readonly number[], y: readonly number[]): Cubic {
  const last = x.length - 1;
  if (last < 1 || y.length !== x.length)
    throw new RangeError(`A curve needs two points or more and as many values: got ${x.length} and ${y.length}.`);
  for (let i = 0; i < last; i++)
    if (!(x[i + 1] > x[i]))
      throw new RangeError(`A curve's points must ascend: point ${i + 2} (${x[i + 1]}) is not beyond ${x[i]}.`);
  const m = tangents(x, y);

  /** The last segment whose start is not beyond v. */
  const segment = (v: number, of: readonly number[]): number => {
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (of[middle] <= v) low = middle;
      else high = middle;
    }
    return low;
  };

  return {
    at(v) {
      if (v <= x[0]) return y[0] + m[0] * (v - x[0]);
      if (v >= x[last]) return y[last] + m[last] * (v - x[last]);
      const i = segment(v, x);
      const width = x[i + 1] - x[i];
      return hermite(y[i], y[i + 1], m[i] * width, m[i + 1] * width, (v - x[i]) / width);
    },
    slopeAt(v) {
      if (v <= x[0]) return m[0];
      if (v >= x[last]) return m[last];
      const i = segment(v, x);
      const width = x[i + 1] - x[i];
      return hermiteSlope(y[i], y[i + 1], m[i] * width, m[i + 1] * width, (v - x[i]) / width) / width;
    },
    inverse(v) {
      if (v <= y[0]) return m[0] > 0 ? x[0] + (v - y[0]) / m[0] : x[0];
      if (v >= y[last]) return m[last] > 0 ? x[last] + (v - y[last]) / m[last] : x[last];
      const i = segment(v, y);
      const width = x[i + 1] - x[i];
      return x[i] + width * solve(y[i], y[i + 1], m[i] * width, m[i + 1] * width, v);
    },
  };
}

/** Tangents at the points: three-point estimates, zero at a turn, drawn in to Fritsch and Carlson's circle of radius 3. */
function tangents(x: readonly number[], y: readonly number[]): Float64Array {
  const last = x.length - 1;
  const secant = Float64Array.from({ length: last }, (_, i) => (y[i + 1] - y[i]) / (x[i + 1] - x[i]));
  const m = new Float64Array(last + 1);
  m[0] = secant[0];
  m[last] = secant[last - 1];
  for (let i = 1; i < last; i++) {
    const before = x[i] - x[i - 1];
    const after = x[i + 1] - x[i];
    if (secant[i - 1] * secant[i] > 0) m[i] = (after * secant[i - 1] + before * secant[i]) / (before + after);
  }
  for (let i = 0; i < last; i++) {
    if (secant[i] === 0) {
      m[i] = 0;
      m[i + 1] = 0;
      continue;
    }
    const reach = Math.hypot(m[i] / secant[i], m[i + 1] / secant[i]);
    if (reach > 3) {
      m[i] *= 3 / reach;
      m[i + 1] *= 3 / reach;
    }
  }
  return m;
}

/** Hermite cubic on 0 … 1 from end values and end slopes. */
function hermite(y0: number, y1: number, m0: number, m1: number, t: number): number {
  const increase = y1 - y0;
  return y0 + t * (m0 + t * (3 * increase - 2 * m0 - m1 + t * (m0 + m1 - 2 * increase)));
}

function hermiteSlope(y0: number, y1: number, m0: number, m1: number, t: number): number {
  const increase = y1 - y0;
  return m0 + t * (2 * (3 * increase - 2 * m0 - m1) + t * 3 * (m0 + m1 - 2 * increase));
}

/** The t in 0 … 1 where a rising Hermite cubic is v: Newton's steps, halving the bracket where one would leave it. */
function solve(y0: number, y1: number, m0: number, m1: number, v: number): number {
  let low = 0;
  let high = 1;
  let t = (v - y0) / (y1 - y0);
  for (let i = 0; i < 80 && high - low > 1e-15; i++) {
    const error = hermite(y0, y1, m0, m1, t) - v;
    if (error === 0) return t;
    if (error > 0) high = t;
    else low = t;
    const slope = hermiteSlope(y0, y1, m0, m1, t);
    const next = t - error / slope;
    const step = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(step - t) < 1e-14) return step;
    t = step;
  }
  return t;
}
