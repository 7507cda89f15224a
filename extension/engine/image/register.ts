/** Finds the shift between two planes by correlating their spectra. */
import { type Complex, fft2, isPowerOfTwo } from "../math/fft.ts";

/** A plane of values to be laid on another of the same size; both sides are powers of two. */
export interface RegisterPlane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array | Float64Array;
}

/** How to lay the moved picture back on the reference. */
export interface Shift {
  /** Pixels by which the moved picture has to go right and down. */
  readonly x: number;
  readonly y: number;
  /** Height of the peak, 0 … 1: how much of the two pictures is the same. */
  readonly peak: number;
  /** Highest correlation farther from the peak than `NEAR`, in parts of the peak: near 1 along an edge or in a pattern. */
  readonly secondPeak: number;
}

export interface RegisterOptions {
  /** Parts of a pixel that the shift is found to. */
  readonly parts?: number;
  /** 1 counts every frequency alike (phase correlation), 0 by its strength (cross-correlation). */
  readonly whitening?: number;
  /** Fades the borders, for pictures that do not go on around them. */
  readonly fade?: boolean;
}

/**
 * Finds the shift between two pictures by their cross-spectrum: its peak to a whole pixel by a fast transform, then to
 * a part of a pixel by a matrix transform of the neighbourhood of the peak alone (Guizar-Sicairos, Thurman and Fienup,
 * Optics Letters 33 (2008) 156–158).
 *
 * @throws RangeError when sizes differ or are no powers of two.
 */
export function findShift(reference: RegisterPlane, moved: RegisterPlane, options: RegisterOptions = {}): Shift {
  const { width, height } = reference;
  if (moved.width !== width || moved.height !== height) throw new RangeError("The pictures differ in size.");
  if (!isPowerOfTwo(width) || !isPowerOfTwo(height)) throw new RangeError("Both sides must be powers of two.");
  const { parts = 100, whitening = 1, fade = false } = options;
  const product = crossSpectrum(spectrum(reference, fade), spectrum(moved, fade), whitening);
  const surface = { re: product.re.slice(), im: product.im.slice() };
  fft2(surface, width, height, true);
  let best = 0;
  for (let i = 1; i < surface.re.length; i++) if (surface.re[i] > surface.re[best]) best = i;
  const whole = { x: signed(best % width, width), y: signed(Math.floor(best / width), height) };
  const secondPeak = secondPeakOf(surface.re, width, height, whole) / Math.max(1e-12, surface.re[best]!);
  return { ...refine(product, width, height, whole, parts), secondPeak };
}

/** Pixels around the peak that are the peak's own. */
const NEAR = 4;

function secondPeakOf(surface: Float64Array, width: number, height: number, peak: { x: number; y: number }): number {
  let highest = 0;
  for (let y = 0; y < height; y++) {
    const isNear = Math.abs(signed((y - peak.y + height) % height, height)) <= NEAR;
    for (let x = 0; x < width; x++) {
      if (isNear && Math.abs(signed((x - peak.x + width) % width, width)) <= NEAR) continue;
      if (surface[y * width + x]! > highest) highest = surface[y * width + x]!;
    }
  }
  return highest;
}

const signed = (i: number, n: number): number => (i > n / 2 ? i - n : i);

/** Fourier transform of a plane, its mean taken off. */
export function spectrum({ width, height, data }: RegisterPlane, fade: boolean): Complex {
  let sum = 0;
  for (const value of data) sum += value;
  const mean = sum / data.length;
  const taper = (n: number): Float64Array =>
    Float64Array.from({ length: n }, (_, i) => (fade ? 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n) : 1));
  const [across, down] = [taper(width), taper(height)];
  const re = Float64Array.from(data, (v, i) => (v - mean) * across[i % width] * down[Math.floor(i / width)]);
  const made = { re, im: new Float64Array(re.length) };
  fft2(made, width, height);
  return made;
}

/** Reference times conjugate of moved: its inverse transform peaks where moved has to go. The sum of magnitudes is 1. */
export function crossSpectrum(a: Complex, b: Complex, whitening: number): Complex {
  const re = new Float64Array(a.re.length);
  const im = new Float64Array(a.re.length);
  let total = 0;
  for (let i = 0; i < re.length; i++) {
    const x = a.re[i] * b.re[i] + a.im[i] * b.im[i];
    const y = a.im[i] * b.re[i] - a.re[i] * b.im[i];
    const size = Math.hypot(x, y);
    const weight = size > 0 ? size ** -whitening : 0;
    re[i] = x * weight;
    im[i] = y * weight;
    total += size * weight;
  }
  const scale = total > 0 ? 1 / total : 0;
  for (let i = 0; i < re.length; i++) {
    re[i] *= scale;
    im[i] *= scale;
  }
  return { re, im };
}

/** Pixels around the whole-pixel peak that are looked at more finely. */
const AROUND = 1.5;

/** The peak among `parts` places a pixel, by two matrix products; ten times coarser first, so that it costs little. */
function refine(
  product: Complex,
  width: number,
  height: number,
  start: { x: number; y: number },
  parts: number,
): Omit<Shift, "secondPeak"> {
  let centre = start;
  let peak = 0;
  let reach = AROUND;
  for (let step = 1; step > 1 / parts;) {
    step = Math.max(1 / parts, step / 10);
    const places = (middle: number): number[] => {
      const count = Math.round(reach / step);
      return Array.from({ length: 2 * count + 1 }, (_, k) => middle + (k - count) * step);
    };
    const [xs, ys] = [places(centre.x), places(centre.y)];
    const found = highest(product, width, height, xs, ys);
    centre = { x: round(xs[found.column], parts), y: round(ys[found.row], parts) };
    peak = found.value;
    reach = 1.5 * step;
  }
  return { ...centre, peak };
}

const round = (value: number, parts: number): number => Math.round(value * parts) / parts;

/** Evaluates the correlation at the crossings of `ys` and `xs`, by rows first. */
function highest(
  { re, im }: Complex,
  width: number,
  height: number,
  xs: readonly number[],
  ys: readonly number[],
): { row: number; column: number; value: number } {
  const across = turns(xs, width);
  const down = turns(ys, height);
  const best = { row: 0, column: 0, value: -Infinity };
  const rows = ys.map((_, r) => {
    const sum = { re: new Float64Array(width), im: new Float64Array(width) };
    for (let v = 0; v < height; v++) {
      const c = down.cos[r * height + v];
      const s = down.sin[r * height + v];
      for (let u = 0, i = v * width; u < width; u++, i++) {
        sum.re[u] += re[i] * c - im[i] * s;
        sum.im[u] += re[i] * s + im[i] * c;
      }
    }
    return sum;
  });
  rows.forEach((sum, row) =>
    xs.forEach((_, column) => {
      let value = 0;
      for (let u = 0; u < width; u++)
        value += sum.re[u] * across.cos[column * width + u] - sum.im[u] * across.sin[column * width + u];
      if (value > best.value) Object.assign(best, { row, column, value });
    }),
  );
  return best;
}

/** e^(2πi·frequency·place), a row per place; frequencies in the order of the transform. */
function turns(places: readonly number[], n: number): { cos: Float64Array; sin: Float64Array } {
  const cos = new Float64Array(places.length * n);
  const sin = new Float64Array(places.length * n);
  places.forEach((place, p) => {
    for (let k = 0; k < n; k++) {
      const angle = (2 * Math.PI * signed(k, n) * place) / n;
      cos[p * n + k] = Math.cos(angle);
      sin[p * n + k] = Math.sin(angle);
    }
  });
  return { cos, sin };
}
