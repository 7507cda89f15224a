/** Measures dark blobs: how they change red and blue against green, how wide, how deep and how hard-edged they are. */
import { enterArena, Allocator } from "../wasm/memory-pool.ts";
import { AROUND, surroundingsModule } from "./simd/surroundings-kernel.ts";
import { type Centreline, distanceTo } from "./centreline.ts";
import type { FilmPlane } from "../flat-field/film-plane.ts";
import type { DarkBlob } from "./specks.ts";
import { deviation } from "../math/statistics.ts";

/** What a dark blob is like. Absorption is the part of the light that it takes, against the film around it. */
export interface BlobMeasurements {
  /** Slopes of ln T of red and blue against green within it. */
  readonly red: number;
  readonly blue: number;
  /** ln of the light that it lets through in its middle, negative. */
  readonly depth: number;
  /**
   * Sum of its absorption in green over its pixels, and variance of its spread along an axis, pixels²; of a line the sum
   * for each pixel of its length, and the variance across it.
   */
  readonly absorbed: number;
  readonly spread: number;
  /** Square of that sum over the sum of squares: the pixels that it would cover if it were even, blur included. */
  readonly effectiveArea: number;
  /** The steepest change of absorption over one pixel, in parts of the greatest absorption. */
  readonly edge: number;
  /** Spread of ln T around it in green: that of most of the surroundings, and that of their outer tenths. */
  readonly localNoise: number;
  readonly localSpread: number;
  /** How much darker than most of the surroundings their darkest tenth is, in parts of the thing's depth. */
  readonly surroundContrast: number;
  /** Spread of blue against green around it: grain and noise that the two do not share. */
  readonly chromaNoise: number;
  /** Transmittance around it. */
  readonly around: readonly [red: number, green: number, blue: number];
}

/** Less light than this is none: the logarithm of what is left would be noise. */
export const MIN_TRANSMITTANCE = 1e-4;
const logT = (t: number): number => Math.log(Math.max(MIN_TRANSMITTANCE, t));

/** Pixels around a thing that are its surroundings: a ring this far away and this wide. */
const [GAP, RING] = [2, 3];
/** Fewest pixels of a ring that tell what the film is like without the thing. */
const MIN_RING_PIXELS = 12;
/** Pixels of a ring that are looked at, at most: a large thing's ring is thinned out evenly. */
const MAX_RING_PIXELS = 96;
/** Absorption below this part of the greatest is not counted to a thing: it is the surroundings' unrest. */
const MIN_ABSORPTION = 0.15;

/** Which pixels dark blobs lie on: 1 in a thing, 2 beside one. */
export type DarkMask = Uint8Array;

export function maskOf(blobs: readonly DarkBlob[], width: number, height: number): DarkMask {
  const mask = new Uint8Array(width * height);
  for (const { component } of blobs)
    for (const p of component.pixels) {
      const x = p % width;
      for (let q = p - width; q <= p + width; q += width)
        for (let k = x > 0 ? -1 : 0; k <= (x < width - 1 ? 1 : 0); k++)
          if (q + k >= 0 && q + k < mask.length && mask[q + k] === 0) mask[q + k] = 2;
    }
  for (const { component } of blobs) for (const p of component.pixels) mask[p] = 1;
  return mask;
}

/** Looks at a dark blob against the ring around it, other dark blobs left out. Undefined where no ring is to be had. */
export function measureBlob(blob: DarkBlob, plane: FilmPlane, mask: DarkMask): BlobMeasurements | undefined {
  const { width } = plane;
  const { inside, ring } = placesOf(blob, plane, mask);
  if (ring.length < MIN_RING_PIXELS) return undefined;
  const light = lightOf(plane, ring);
  const [red, green, blue] = light.map((l) => l.slice().sort());
  const at = (sorted: Float64Array, part: number): number => sorted[Math.round(part * (sorted.length - 1))];
  const middle = at(green, 0.5);
  const [r, g, b] = changes(plane, inside, ring, light);
  let [gg, rg, bg, depth] = [0, 0, 0, 0];
  const absorption = new Float64Array(inside.length);
  for (let k = 0; k < inside.length; k++) {
    gg += g[k] * g[k];
    rg += r[k] * g[k];
    bg += b[k] * g[k];
    depth = Math.min(depth, g[k]);
    absorption[k] = -Math.expm1(g[k]);
  }
  if (!(gg > 0 && depth < 0)) return undefined;
  const maxAbsorption = -Math.expm1(depth);
  return {
    red: rg / gg,
    blue: bg / gg,
    depth,
    ...(blob.component.centreline
      ? crossSection(inside, absorption, MIN_ABSORPTION * maxAbsorption, width, blob.component.centreline)
      : extent(inside, absorption, MIN_ABSORPTION * maxAbsorption, width)),
    edge: steepest(plane, inside, middle) / maxAbsorption,
    localNoise: deviation(green),
    localSpread: (at(green, 0.9) - at(green, 0.1)) / 2.563,
    surroundContrast: (middle - at(green, 0.1)) / -depth,
    chromaNoise: deviation(light[2].map((v, k) => v - light[1][k])),
    around: [Math.exp(at(red, 0.5)), Math.exp(middle), Math.exp(at(blue, 0.5))],
  };
}

/** ln T at some places, by channel. */
function lightOf({ data }: FilmPlane, places: readonly number[]): Float64Array[] {
  return [0, 1, 2].map((c) => {
    const out = new Float64Array(places.length);
    for (let i = 0; i < out.length; i++) out[i] = logT(data[places[i] * 3 + c]);
    return out;
  });
}

/** A thing's pixels with their neighbours, and the pixels of the ring around it. */
function placesOf(
  { component }: DarkBlob,
  { width, height }: FilmPlane,
  mask: DarkMask,
): { inside: number[]; ring: number[] } {
  const reach = GAP + RING;
  const [x0, y0] = [Math.max(0, component.x0 - reach), Math.max(0, component.y0 - reach)];
  const [x1, y1] = [Math.min(width, component.x1 + reach), Math.min(height, component.y1 + reach)];
  const w = x1 - x0;
  const distance = distances(component.pixels, width, x0, y0, w, y1 - y0);
  const inside: number[] = [];
  const ring: number[] = [];
  const all: number[] = [];
  for (let y = y0; y < y1; y++)
    for (let p = y * width + x0, k = (y - y0 + 1) * (w + 2) + 1; p < y * width + x1; p++, k++) {
      const d = distance[k];
      if (d > reach) continue;
      if (d === 0 || (d === 1 && mask[p] !== 1)) inside.push(p);
      else if (d > GAP) {
        all.push(p);
        if (mask[p] === 0) ring.push(p);
      }
    }
  const chosen = ring.length < MIN_RING_PIXELS ? all : ring;
  const step = Math.ceil(chosen.length / MAX_RING_PIXELS);
  return { inside, ring: step > 1 ? chosen.filter((_, k) => k % step === 0) : chosen };
}

/**
 * Chessboard distance of each pixel of a window from the nearest pixel of the thing, in two passes (Rosenfeld and
 * Pfaltz 1966). The window has a border of one pixel, which is far from everything.
 */
function distances(pixels: readonly number[], width: number, x0: number, y0: number, w: number, h: number): Uint8Array {
  const row = w + 2;
  const out = new Uint8Array(row * (h + 2)).fill(255);
  for (let i = 0; i < pixels.length; i++) {
    const x = pixels[i] % width;
    out[((pixels[i] - x) / width - y0 + 1) * row + x - x0 + 1] = 0;
  }
  // Forwards from above and the left, backwards from below and the right.
  for (const step of [1, -1])
    for (let y = 0; y < h; y++)
      for (let x = 0, k = step > 0 ? (y + 1) * row + 1 : (h - y) * row + w; x < w; x++, k += step) {
        const before = k - step * row;
        const near = Math.min(out[k - step], out[before - 1], out[before], out[before + 1]) + 1;
        if (near < out[k]) out[k] = near;
      }
  return out;
}

/** What the thing changes of ln T, by channel: without it would be the ring's, weighted by 1 over the square of the distance. */
function changes(
  plane: FilmPlane,
  inside: readonly number[],
  ring: readonly number[],
  light: readonly Float64Array[],
): Float64Array[] {
  const { width } = plane;
  const out = lightOf(plane, inside);
  // Distances are small against the plane's own size: counted from the thing, they are exact.
  const [ox, oy] = [inside[0] % width, Math.floor(inside[0] / width)];
  const across = (p: number): number => (p % width) - ox;
  const along = (p: number): number => Math.floor(p / width) - oy;
  const places = new Allocator();
  const [xAt, yAt, ...meansAt] = [0, 1, 2, 3, 4].map(() => places.take(4 * (inside.length + 3)));
  const ringAt = places.take(4 * AROUND * ring.length);
  const arena = enterArena(places.end);
  const floats = (at: number, count: number): Float32Array => new Float32Array(arena.memory.buffer, at, count);
  const [xs, ys, around] = [
    floats(xAt, inside.length),
    floats(yAt, inside.length),
    floats(ringAt, AROUND * ring.length),
  ];
  for (let k = 0; k < inside.length; k++) {
    xs[k] = across(inside[k]);
    ys[k] = along(inside[k]);
  }
  for (let i = 0, k = 0; i < ring.length; i++) {
    around[k++] = across(ring[i]);
    around[k++] = along(ring[i]);
    for (let c = 0; c < 3; c++) around[k++] = light[c][i];
  }
  const pass = arena.kernel("surroundings", surroundingsModule);
  pass(xAt, yAt, ringAt, ringAt + 4 * around.length, ...meansAt, xAt + 4 * inside.length);
  for (let c = 0; c < 3; c++) {
    const mean = floats(meansAt[c], inside.length);
    for (let k = 0; k < inside.length; k++) out[c][k] -= mean[k];
  }
  arena.release();
  return out;
}

/** Sum and spread of the absorption that is above a floor. */
function extent(
  places: readonly number[],
  absorption: Float64Array,
  floor: number,
  width: number,
): Pick<BlobMeasurements, "absorbed" | "spread" | "effectiveArea"> {
  let [sum, sx, sy, square, squares] = [0, 0, 0, 0, 0];
  const [ox, oy] = [places[0] % width, Math.floor(places[0] / width)];
  for (const [k, p] of places.entries()) {
    const a = absorption[k];
    if (a <= floor) continue;
    const [x, y] = [(p % width) - ox, Math.floor(p / width) - oy];
    sum += a;
    sx += a * x;
    sy += a * y;
    square += a * (x * x + y * y);
    squares += a * a;
  }
  const spread = (square / sum - (sx / sum) ** 2 - (sy / sum) ** 2) / 2;
  return { absorbed: sum, spread, effectiveArea: (sum * sum) / squares };
}

/** The same of a line: for each pixel of its length, and across it. */
function crossSection(
  places: readonly number[],
  absorption: Float64Array,
  floor: number,
  width: number,
  { points, length }: Centreline,
): Pick<BlobMeasurements, "absorbed" | "spread" | "effectiveArea"> {
  let [sum, square, squares] = [0, 0, 0];
  for (const [k, p] of places.entries()) {
    const a = absorption[k];
    if (a <= floor) continue;
    sum += a;
    square += a * distanceTo(points, [(p % width) + 0.5, Math.floor(p / width) + 0.5]) ** 2;
    squares += a * a;
  }
  return { absorbed: sum / length, spread: square / sum, effectiveArea: (sum * sum) / squares / length };
}

/** The steepest change of absorption over one pixel, in green, among some places. */
function steepest({ width, height, data }: FilmPlane, places: readonly number[], level: number): number {
  let maxAbsorption = 0;
  const clear = Math.exp(level);
  const at = (p: number): number => 1 - Math.min(1, Math.max(MIN_TRANSMITTANCE, data[p * 3 + 1]) / clear);
  for (const p of places) {
    const x = p % width;
    if (x < 1 || x > width - 2 || p < width || p >= width * (height - 1)) continue;
    const [across, down] = [at(p + 1) - at(p - 1), at(p + width) - at(p - width)];
    maxAbsorption = Math.max(maxAbsorption, across * across + down * down);
  }
  return Math.sqrt(maxAbsorption) / 2;
}
