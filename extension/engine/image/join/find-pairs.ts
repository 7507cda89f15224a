/** Finds roughly how scans lie to one another, whatever their order: each pair's correlation, made small. */
import { fft2 } from "../../math/fft.ts";
import { crossSpectrum, spectrum } from "../register.ts";
import type { JoinPlane } from "./plane.ts";

/** A scan made small for the search: what stands out of its surroundings, in the corner of an empty square. */
export interface SearchPlane {
  readonly width: number;
  readonly height: number;
  /** Pixels of the plane along a side of its own. */
  readonly step: number;
  /** Side of the square, a power of two and at least twice the scan's, so that a shift does not wrap around. */
  readonly side: number;
  readonly data: Float32Array;
  readonly spectrum: ReturnType<typeof spectrum>;
}

/** A place of the second scan on the first that a pair may have. */
export interface Candidate {
  /** In pixels of the planes. */
  readonly x: number;
  readonly y: number;
  /** Correlation of what both show there, −1 … 1. */
  readonly agreement: number;
}

/** Pixels of the small scan about which the surroundings are averaged, to each side. */
const AROUND = 6;
/** Share of a side by which the second scan has to lie off the first: what never moves is the sensor's or the stand's. */
const MIN_SHIFT = 0.08;
/** Share of a side that both have to show, and the least correlation. */
const [MIN_SHARED, MIN_AGREEMENT] = [0.06, 0.12];
/** Peaks that are looked at. */
const PEAKS = 12;

/** @param side a power of two */
export function searchPlane(plane: JoinPlane, side: number): SearchPlane {
  const step = Math.max(1, Math.ceil((2 * Math.max(plane.width, plane.height)) / side));
  const [width, height] = [Math.floor(plane.width / step), Math.floor(plane.height / step)];
  const small = new Float32Array(width * height);
  for (let y = 0; y < height * step; y++) {
    const to = Math.floor(y / step) * width;
    for (let x = 0; x < width * step; x++) small[to + Math.floor(x / step)] += plane.density[y * plane.width + x];
  }
  for (let k = 0; k < small.length; k++) small[k] /= step * step;
  const data = standingOut(small, width, height);
  const square = new Float64Array(side * side);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) square[y * side + x] = data[y * width + x];
  return { width, height, step, side, data, spectrum: spectrum({ width: side, height: side, data: square }, false) };
}

/** What each pixel has over the mean around it, edges tamed so that one strong line does not decide. */
function standingOut(small: Float32Array, width: number, height: number): Float32Array {
  const sums = new Float64Array((width + 1) * (height + 1));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      sums[(y + 1) * (width + 1) + x + 1] =
        small[y * width + x] +
        sums[y * (width + 1) + x + 1] +
        sums[(y + 1) * (width + 1) + x] -
        sums[y * (width + 1) + x];
  const out = new Float32Array(width * height);
  let power = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [x0, x1] = [Math.max(0, x - AROUND), Math.min(width, x + AROUND + 1)];
      const [y0, y1] = [Math.max(0, y - AROUND), Math.min(height, y + AROUND + 1)];
      const at = (i: number, j: number): number => sums[j * (width + 1) + i];
      const around = (at(x1, y1) - at(x0, y1) - at(x1, y0) + at(x0, y0)) / ((x1 - x0) * (y1 - y0));
      const value = small[y * width + x] - around;
      out[y * width + x] = value;
      power += Math.abs(value);
    }
  const limit = Math.max(1e-6, (2 * power) / out.length);
  for (let k = 0; k < out.length; k++) out[k] = limit * Math.tanh(out[k] / limit);
  return out;
}

/** Places that the second scan may have on the first, the likeliest first. */
export function candidates(a: SearchPlane, b: SearchPlane): Candidate[] {
  const { side, step } = a;
  const surface = crossSpectrum(a.spectrum, b.spectrum, 0.8);
  fft2(surface, side, side, true);
  const found: Candidate[] = [];
  const { re } = surface;
  for (let k = 0; k < PEAKS; k++) {
    let best = 0;
    for (let i = 1; i < re.length; i++) if (re[i] > re[best]) best = i;
    const [x, y] = [best % side, Math.floor(best / side)].map((v) => (v > side / 2 ? v - side : v));
    for (let j = -2; j <= 2; j++)
      for (let i = -2; i <= 2; i++) re[((y + j + side) % side) * side + ((x + i + side) % side)] = -Infinity;
    const off = Math.max(Math.abs(x) / a.width, Math.abs(y) / a.height);
    const agreement = off < MIN_SHIFT ? -1 : agreementAt(a, b, x, y);
    if (agreement >= MIN_AGREEMENT) found.push({ x: x * step, y: y * step, agreement });
  }
  return found.toSorted((p, q) => q.agreement - p.agreement);
}

/** Correlation of a(x, y) with b(x − dx, y − dy) over what both show; −1 where that is too little. */
function agreementAt(a: SearchPlane, b: SearchPlane, dx: number, dy: number): number {
  const [x0, x1] = [Math.max(0, dx), Math.min(a.width, b.width + dx)];
  const [y0, y1] = [Math.max(0, dy), Math.min(a.height, b.height + dy)];
  if (x1 - x0 < MIN_SHARED * a.width || y1 - y0 < MIN_SHARED * a.height) return -1;
  let [aa, bb, ab] = [0, 0, 0];
  for (let y = y0; y < y1; y++)
    for (let x = x0; x < x1; x++) {
      const p = a.data[y * a.width + x];
      const q = b.data[(y - dy) * b.width + x - dx];
      aa += p * p;
      bb += q * q;
      ab += p * q;
    }
  return ab / Math.sqrt(Math.max(1e-12, aa * bb));
}
