/** Discrete Fourier transforms: fast for powers of two, direct for any other length. */

/** Real and imaginary parts, in place of one another. */
export interface Complex {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const isPowerOfTwo = (n: number): boolean => n > 0 && (n & (n - 1)) === 0;

interface Twiddles {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly reversed: Uint32Array;
}

const kept = new Map<number, Twiddles>();

function twiddles(n: number): Twiddles {
  const known = kept.get(n);
  if (known) return known;
  const bits = Math.log2(n);
  const made: Twiddles = {
    cos: Float64Array.from({ length: n / 2 }, (_, k) => Math.cos((2 * Math.PI * k) / n)),
    sin: Float64Array.from({ length: n / 2 }, (_, k) => Math.sin((2 * Math.PI * k) / n)),
    reversed: Uint32Array.from({ length: n }, (_, i) => {
      let r = 0;
      for (let b = 0; b < bits; b++) r |= ((i >> b) & 1) << (bits - 1 - b);
      return r;
    }),
  };
  kept.set(n, made);
  return made;
}

/**
 * Forward transform in place (radix 2, Cooley and Tukey), unscaled: X_k = Σ x_j e^(−2πi jk/n). With `inverse` the
 * sign of the exponent changes and the result is divided by n.
 *
 * @throws RangeError when the length is not a power of two.
 */
export function fft({ re, im }: Complex, inverse = false): void {
  const n = re.length;
  if (!isPowerOfTwo(n)) throw new RangeError(`A fast transform needs a power of two, not ${n} values.`);
  if (n === 1) return;
  const { cos, sin, reversed } = twiddles(n);
  for (let i = 0; i < n; i++) {
    const j = reversed[i];
    if (j <= i) continue;
    [re[i], re[j]] = [re[j], re[i]];
    [im[i], im[j]] = [im[j], im[i]];
  }
  const sign = inverse ? 1 : -1;
  for (let half = 1; half < n; half *= 2) {
    const stride = n / (2 * half);
    for (let start = 0; start < n; start += 2 * half)
      for (let k = 0; k < half; k++) {
        const c = cos[k * stride];
        const s = sign * sin[k * stride];
        const a = start + k;
        const b = a + half;
        const xr = re[b] * c - im[b] * s;
        const xi = re[b] * s + im[b] * c;
        re[b] = re[a] - xr;
        im[b] = im[a] - xi;
        re[a] += xr;
        im[a] += xi;
      }
  }
  if (inverse)
    for (let i = 0; i < n; i++) {
      re[i] /= n;
      im[i] /= n;
    }
}

/** Forward (or inverse) transform of a picture of `width` × `height`, both powers of two, row by row, in place. */
export function fft2({ re, im }: Complex, width: number, height: number, inverse = false): void {
  for (let y = 0; y < height; y++)
    fft({ re: re.subarray(y * width, (y + 1) * width), im: im.subarray(y * width, (y + 1) * width) }, inverse);
  const column = { re: new Float64Array(height), im: new Float64Array(height) };
  for (let x = 0; x < width; x++) {
    for (let y = 0, i = x; y < height; y++, i += width) {
      column.re[y] = re[i];
      column.im[y] = im[i];
    }
    fft(column, inverse);
    for (let y = 0, i = x; y < height; y++, i += width) {
      re[i] = column.re[y];
      im[i] = column.im[y];
    }
  }
}

/** Magnitudes of the first `count` terms of the transform of any number of real values, by the definition. */
export function spectrumOf(values: ArrayLike<number>, count: number): Float64Array {
  const n = values.length;
  const cos = Float64Array.from({ length: n }, (_, k) => Math.cos((2 * Math.PI * k) / n));
  const sin = Float64Array.from({ length: n }, (_, k) => Math.sin((2 * Math.PI * k) / n));
  return Float64Array.from({ length: count }, (_, k) => {
    let re = 0;
    let im = 0;
    for (let j = 0, p = 0; j < n; j++) {
      re += values[j] * cos[p];
      im += values[j] * sin[p];
      p = (p + k) % n;
    }
    return Math.hypot(re, im);
  });
}
