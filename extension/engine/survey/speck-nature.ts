/** Measures dark things: how they change red and blue against green, how wide, how deep and how hard-edged they are. */
import type { FilmPlane } from "./film-plane.ts";
import type { DarkThing } from "./specks.ts";
import { deviation } from "./statistics.ts";

/** What a dark thing is like. Absorption is the part of the light that it takes, against the film around it. */
export interface Nature {
  /** Slopes of ln T of red and blue against green within it. */
  readonly red: number;
  readonly blue: number;
  /** ln of the light that it lets through in its middle, negative. */
  readonly depth: number;
  /** Sum of its absorption in green over its pixels, and variance of its spread along an axis, pixels². */
  readonly absorbed: number;
  readonly spread: number;
  /** The steepest change of absorption over one pixel, in parts of the greatest absorption. */
  readonly edge: number;
  /** Spread of ln T around it in green: that of most of the surroundings, and that of their outer tenths. */
  readonly calm: number;
  readonly unrest: number;
  /** Spread of blue against green around it: grain and noise that the two do not share. */
  readonly apart: number;
  /** Transmittance of red and blue around it. */
  readonly around: readonly [red: number, blue: number];
}

const TRACE = 1e-4;
const logT = (t: number): number => Math.log(Math.max(TRACE, t));

/** Pixels around a thing that are its surroundings: a ring this far away and this wide. */
const [GAP, RING] = [2, 3];
/** Fewest pixels of a ring that tell what the film is like without the thing. */
const FEWEST = 12;
/** Pixels of a ring that are looked at, at most: a large thing's ring is thinned out evenly. */
const MOST = 96;
/** Absorption below this part of the greatest is not counted to a thing: it is the surroundings' unrest. */
const FAINT = 0.15;

/** Which pixels dark things lie on: 1 in a thing, 2 beside one. */
export type DarkMask = Uint8Array;

export function maskOf(things: readonly DarkThing[], width: number, height: number): DarkMask {
  const mask = new Uint8Array(width * height);
  for (const { component } of things)
    for (const p of component.pixels) {
      const x = p % width;
      for (let q = p - width; q <= p + width; q += width)
        for (let k = x > 0 ? -1 : 0; k <= (x < width - 1 ? 1 : 0); k++)
          if (q + k >= 0 && q + k < mask.length && mask[q + k] === 0) mask[q + k] = 2;
    }
  for (const { component } of things) for (const p of component.pixels) mask[p] = 1;
  return mask;
}

/** Looks at a dark thing against the ring around it, other dark things left out. Undefined where no ring is to be had. */
export function natureOf(thing: DarkThing, plane: FilmPlane, mask: DarkMask): Nature | undefined {
  const { width, data } = plane;
  const { inside, ring } = placesOf(thing, plane, mask);
  if (ring.length < FEWEST) return undefined;
  const light = [0, 1, 2].map((c) => Float64Array.from(ring, (p) => logT(data[p * 3 + c])));
  const [red, green, blue] = light.map((l) => l.toSorted());
  const at = (sorted: Float64Array, part: number): number => sorted[Math.round(part * (sorted.length - 1))];
  const middle = at(green, 0.5);
  const without = backgrounds(inside, ring, light, width);
  let [gg, rg, bg, depth] = [0, 0, 0, 0];
  const absorption = new Float64Array(inside.length);
  for (const [k, p] of inside.entries()) {
    const [r, g, b] = [0, 1, 2].map((c) => logT(data[p * 3 + c]) - without[k * 3 + c]);
    gg += g * g;
    rg += r * g;
    bg += b * g;
    depth = Math.min(depth, g);
    absorption[k] = -Math.expm1(g);
  }
  if (!(gg > 0 && depth < 0)) return undefined;
  const most = -Math.expm1(depth);
  return {
    red: rg / gg,
    blue: bg / gg,
    depth,
    ...extent(inside, absorption, FAINT * most, width),
    edge: steepest(plane, inside, middle) / most,
    calm: deviation(green),
    unrest: (at(green, 0.9) - at(green, 0.1)) / 2.563,
    apart: deviation(light[2].map((v, k) => v - light[1][k])),
    around: [Math.exp(at(red, 0.5)), Math.exp(at(blue, 0.5))],
  };
}

/** A thing's pixels with their neighbours, and the pixels of the ring around it. */
function placesOf(
  { component }: DarkThing,
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
  for (let k = 0; k < distance.length; k++) {
    const p = (y0 + Math.floor(k / w)) * width + x0 + (k % w);
    if (distance[k] === 0 || (distance[k] === 1 && mask[p] !== 1)) inside.push(p);
    else if (distance[k] > GAP && distance[k] <= reach) {
      all.push(p);
      if (mask[p] === 0) ring.push(p);
    }
  }
  const chosen = ring.length < FEWEST ? all : ring;
  const step = Math.ceil(chosen.length / MOST);
  return { inside, ring: step > 1 ? chosen.filter((_, k) => k % step === 0) : chosen };
}

/** Chessboard distance of each pixel of a window from the nearest pixel of the thing, up to the ring's end. */
function distances(pixels: readonly number[], width: number, x0: number, y0: number, w: number, h: number): Uint8Array {
  const out = new Uint8Array(w * h).fill(255);
  let front: number[] = [];
  for (const p of pixels) {
    const k = (Math.floor(p / width) - y0) * w + (p % width) - x0;
    out[k] = 0;
    front.push(k);
  }
  for (let d = 1; d <= GAP + RING; d++) {
    const next: number[] = [];
    for (const k of front) {
      const [x, y] = [k % w, Math.floor(k / w)];
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const [nx, ny] = [x + dx, y + dy];
          if (nx < 0 || ny < 0 || nx >= w || ny >= h || out[ny * w + nx] <= d) continue;
          out[ny * w + nx] = d;
          next.push(ny * w + nx);
        }
    }
    front = next;
  }
  return out;
}

/** ln T of each pixel as it would be without the thing: the ring's, weighted by 1 over the square of the distance. */
function backgrounds(
  inside: readonly number[],
  ring: readonly number[],
  [red, green, blue]: readonly Float64Array[],
  width: number,
): Float64Array {
  const out = new Float64Array(inside.length * 3);
  const xs = Int32Array.from(ring, (p) => p % width);
  const ys = Int32Array.from(ring, (p) => Math.floor(p / width));
  for (const [k, p] of inside.entries()) {
    const [x, y] = [p % width, Math.floor(p / width)];
    let [sum, r, g, b] = [0, 0, 0, 0];
    for (let i = 0; i < xs.length; i++) {
      const weight = 1 / ((xs[i] - x) ** 2 + (ys[i] - y) ** 2);
      sum += weight;
      r += weight * red[i];
      g += weight * green[i];
      b += weight * blue[i];
    }
    out[k * 3] = r / sum;
    out[k * 3 + 1] = g / sum;
    out[k * 3 + 2] = b / sum;
  }
  return out;
}

/** Sum and spread of the absorption that is above a floor. */
function extent(
  places: readonly number[],
  absorption: Float64Array,
  floor: number,
  width: number,
): Pick<Nature, "absorbed" | "spread"> {
  let [sum, sx, sy, square] = [0, 0, 0, 0];
  const [ox, oy] = [places[0] % width, Math.floor(places[0] / width)];
  for (const [k, p] of places.entries()) {
    const a = absorption[k];
    if (a <= floor) continue;
    const [x, y] = [(p % width) - ox, Math.floor(p / width) - oy];
    sum += a;
    sx += a * x;
    sy += a * y;
    square += a * (x * x + y * y);
  }
  return { absorbed: sum, spread: (square / sum - (sx / sum) ** 2 - (sy / sum) ** 2) / 2 };
}

/** The steepest change of absorption over one pixel, in green, among some places. */
function steepest({ width, height, data }: FilmPlane, places: readonly number[], level: number): number {
  let most = 0;
  const at = (p: number): number => -Math.expm1(Math.min(0, logT(data[p * 3 + 1]) - level));
  for (const p of places) {
    const x = p % width;
    if (x < 1 || x > width - 2 || p < width || p >= width * (height - 1)) continue;
    most = Math.max(most, Math.hypot(at(p + 1) - at(p - 1), at(p + width) - at(p - width)) / 2);
  }
  return most;
}
