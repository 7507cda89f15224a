/** How far one colour of a small patch lies off another, by their cross-spectrum. */
import { fft2 } from "../math/fft.ts";
import type { FilmPlane } from "../flat-field/film-plane.ts";

/** Side of a patch in pixels; a power of two. */
export const PATCH = 64;
const SIZE = PATCH * PATCH;

/** A shift with what it is worth. */
export interface ChannelShift {
  /** Pixels by which the colour lies right of and below green. */
  readonly dx: number;
  readonly dy: number;
  /** Information (inverse covariance) of the shift, 1 / pixels²: edges tell nothing of a shift along themselves. */
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/** Frequencies that count, cycles per pixel: the picture's own gradients lie below, the sensor's noise above. */
const [LOWEST, COARSE, FINE] = [1.5 / PATCH, 0.12, 0.36];
/** How far strong frequencies are brought down to weak ones: 1 would count all alike. */
const WHITENING = 0.6;
/** Agreement of the two colours below which a patch tells nothing, −1 … 1. */
const MIN_AGREEMENT = 0.25;
/** A shift beyond so many pixels is none of a lens. */
const MAX_SHIFT = 4;

const signed = (k: number): number => (k > PATCH / 2 ? k - PATCH : k) / PATCH;
/** Bins of one half plane: the spectrum of real values is symmetric. */
const BINS = Array.from({ length: SIZE }, (_, i) => ({ i, u: signed(i % PATCH), v: signed(Math.floor(i / PATCH)) }))
  .filter(({ u, v }) => (v > 0 || (v === 0 && u > 0)) && Math.hypot(u, v) >= LOWEST && Math.hypot(u, v) < FINE)
  .toSorted((a, b) => Math.hypot(a.u, a.v) - Math.hypot(b.u, b.v));
const COARSE_BINS = BINS.filter(({ u, v }) => Math.hypot(u, v) < COARSE).length;
const INDEX = Int32Array.from(BINS, ({ i }) => i);
const [U, V] = [
  Float64Array.from(BINS, ({ u }) => 2 * Math.PI * u),
  Float64Array.from(BINS, ({ v }) => 2 * Math.PI * v),
];
const HANN = Float64Array.from({ length: PATCH }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / PATCH));

/**
 * Shifts of red and blue against green in the patch whose first pixel is (`x0`, `y0`). Transmittance itself is compared,
 * not density: a blurred edge keeps its place in light, whatever its contrast in each colour.
 * @returns undefined for a colour that has too little in common with green
 */
export function channelShifts(
  plane: FilmPlane,
  x0: number,
  y0: number,
): { readonly red: ChannelShift | undefined; readonly blue: ChannelShift | undefined } {
  const green = spectrumOf(plane, x0, y0, 1);
  const to = (channel: 0 | 2): ChannelShift | undefined => shiftBetween(green, spectrumOf(plane, x0, y0, channel));
  return { red: to(0), blue: to(2) };
}

interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Spectrum of a patch over its mean, faded towards its borders; the bins that count. */
function spectrumOf({ width, data }: FilmPlane, x0: number, y0: number, channel: number): Spectrum {
  const re = new Float64Array(SIZE);
  const im = new Float64Array(SIZE);
  let sum = 0;
  for (let y = 0, i = 0; y < PATCH; y++)
    for (let x = 0, k = ((y0 + y) * width + x0) * 3 + channel; x < PATCH; x++, i++, k += 3) sum += re[i] = data[k];
  const mean = sum / SIZE;
  for (let y = 0, i = 0; y < PATCH; y++)
    for (let x = 0; x < PATCH; x++, i++) re[i] = (re[i] / mean - 1) * HANN[x] * HANN[y];
  fft2({ re, im }, PATCH, PATCH);
  return { re: Float64Array.from(INDEX, (i) => re[i]), im: Float64Array.from(INDEX, (i) => im[i]) };
}

/** Correlation at a shift with its gradient and curvature, over the first `count` bins. */
interface Correlation {
  readonly value: number;
  readonly gx: number;
  readonly gy: number;
  readonly hxx: number;
  readonly hxy: number;
  readonly hyy: number;
}

function correlationAt(re: Float64Array, im: Float64Array, count: number, dx: number, dy: number): Correlation {
  let [value, gx, gy, hxx, hxy, hyy] = [0, 0, 0, 0, 0, 0];
  for (let k = 0; k < count; k++) {
    const [u, v] = [U[k], V[k]];
    const angle = u * dx + v * dy;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const even = re[k] * c - im[k] * s;
    const odd = re[k] * s + im[k] * c;
    value += even;
    gx -= u * odd;
    gy -= v * odd;
    hxx -= u * u * even;
    hxy -= u * v * even;
    hyy -= v * v * even;
  }
  return { value, gx, gy, hxx, hxy, hyy };
}

function shiftBetween(green: Spectrum, other: Spectrum): ChannelShift | undefined {
  const n = BINS.length;
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  let total = 0;
  for (let k = 0; k < n; k++) {
    const x = green.re[k] * other.re[k] + green.im[k] * other.im[k];
    const y = green.re[k] * other.im[k] - green.im[k] * other.re[k];
    const size = Math.hypot(x, y);
    const weight = size > 0 ? size ** -WHITENING : 0;
    re[k] = x * weight;
    im[k] = y * weight;
    total += size * weight;
  }
  if (!(total > 0)) return undefined;
  let [dx, dy] = [0, 0];
  let at = correlationAt(re, im, COARSE_BINS, 0, 0);
  for (const [count, rounds] of [
    [COARSE_BINS, 6],
    [n, 6],
  ]) {
    for (let round = 0; round < rounds; round++) {
      at = correlationAt(re, im, count, dx, dy);
      const { gx, gy, hxx, hxy, hyy } = at;
      const determinant = hxx * hyy - hxy * hxy;
      if (!(determinant > 0) || hxx >= 0) return undefined;
      dx -= (hyy * gx - hxy * gy) / determinant;
      dy -= (hxx * gy - hxy * gx) / determinant;
      if (!(Math.hypot(dx, dy) < MAX_SHIFT)) return undefined;
    }
  }
  at = correlationAt(re, im, n, dx, dy);
  const agreement = at.value / total;
  if (!(agreement > MIN_AGREEMENT)) return undefined;
  // The variance of a phase falls with the agreement of the two spectra (Carter, Proc. IEEE 75 (1987) 236; from memory).
  const worth = (2 * n * agreement ** 2) / (1.02 - agreement ** 2) / at.value;
  return { dx, dy, xx: -at.hxx * worth, xy: -at.hxy * worth, yy: -at.hyy * worth };
}
