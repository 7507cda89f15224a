/** Finds small dark blobs in a plane of light: dust and hairs on film, dirt on a blank, and what only looks like them. */
import type { Point, Spot } from "../image/spot.ts";
import { closeInPlace } from "./closing.ts";
import { type Component, components } from "./connected-components.ts";
import { centrelineOf, distanceTo, simplified } from "./centreline.ts";
import type { PixelBox } from "../flat-field/film-plane.ts";
import { deviation, median, quantile } from "../math/statistics.ts";

/** A dark blob, in pixels of the plane. */
export interface DarkBlob {
  readonly component: Component;
  readonly x: number;
  readonly y: number;
  /** Radius of the disc of the same area. */
  readonly radius: number;
  readonly elongation: number;
}

export interface SpeckLimits {
  /** Least darkening in its middle, as a natural logarithm. */
  readonly minDarkening: number;
  /** Least darkening in multiples of the place's own unrest. */
  readonly noiseMultiple: number;
}

/** Side of the tiles in which unrest is measured. */
const TILE = 64;
/** Pixels of a tile that are looked at. */
const SAMPLES = 144;

/** Half the side of the largest thing that is looked for. */
export const reachOf = (width: number): number => Math.max(6, Math.round(width * 0.004));

/** How far a line's course may lie beside the one that was found, in pixels. */
const SHIFT = 0.4;

/**
 * Darkening of each pixel against what closing leaves: ln(closed / value), 0 outside the box.
 * @param out takes it: 0 outside the box
 */
export function darkening(
  plane: Uint16Array,
  black: number,
  width: number,
  height: number,
  box: PixelBox,
  reach = reachOf(width),
  out = new Float32Array(plane.length),
): Float32Array {
  // What closing looks at from the box's own border lies within twice its reach.
  const far = 2 * reach;
  const [left, top] = [Math.max(0, box.x0 - far), Math.max(0, box.y0 - far)];
  const [wide, high] = [Math.min(width, box.x1 + far) - left, Math.min(height, box.y1 + far) - top];
  if (wide <= 0 || high <= 0) return out;
  const part = new Uint16Array(wide * high);
  for (let y = 0; y < high; y++)
    part.set(plane.subarray((top + y) * width + left, (top + y) * width + left + wide), y * wide);
  closeInPlace(part, wide, high, reach);
  const log = Float32Array.from({ length: 65536 }, (_, v) => Math.log(Math.max(1, v - black)));
  for (let y = box.y0; y < box.y1; y++) {
    const end = y * width + box.x1;
    for (let i = y * width + box.x0, k = (y - top) * wide + box.x0 - left; i < end; i++, k++)
      out[i] = log[part[k]] - log[plane[i]];
  }
  return out;
}

/** Dark blobs whose darkening stands out of its tile. */
export function darkBlobs(dark: Float32Array, width: number, height: number, limits: SpeckLimits): DarkBlob[] {
  const across = Math.max(1, Math.ceil(width / TILE));
  const down = Math.max(1, Math.ceil(height / TILE));
  const high = new Float32Array(across * down);
  const low = new Float32Array(across * down);
  for (let r = 0; r < down; r++)
    for (let q = 0; q < across; q++) {
      const values = sample(dark, width, height, q * TILE, r * TILE);
      const middle = values.length ? median(values) : 0;
      const noise = values.length ? deviation(values) : 0;
      high[r * across + q] = middle + Math.max(limits.minDarkening, limits.noiseMultiple * noise);
      low[r * across + q] = middle + Math.max(0.4 * limits.minDarkening, 2 * noise);
    }
  const tileOf = (place: number): number => {
    const x = place % width;
    return Math.floor((place - x) / width / TILE) * across + Math.floor(x / TILE);
  };
  const levels = {
    lowest: high.reduce((a, v) => Math.min(a, v), Infinity),
    high: (p: number) => high[tileOf(p)],
    low: (p: number) => low[tileOf(p)],
  };
  return components(dark, width, height, levels).map((component) => shapeOf(component, dark, width));
}

function sample(dark: Float32Array, width: number, height: number, x0: number, y0: number): Float32Array {
  const [x1, y1] = [Math.min(width, x0 + TILE), Math.min(height, y0 + TILE)];
  const step = Math.max(1, Math.floor(Math.sqrt(((x1 - x0) * (y1 - y0)) / SAMPLES)));
  const values: number[] = [];
  for (let y = y0; y < y1; y += step)
    for (let x = x0; x < x1; x += step) if (dark[y * width + x] !== 0) values.push(dark[y * width + x]);
  return Float32Array.from(values);
}

/** Centre, size and stretch from weighted moments. */
function shapeOf(component: Component, dark: Float32Array, width: number): DarkBlob {
  let [sum, sx, sy] = [0, 0, 0];
  for (const p of component.pixels) {
    const w = dark[p];
    sum += w;
    sx += w * ((p % width) + 0.5);
    sy += w * (Math.floor(p / width) + 0.5);
  }
  const [x, y] = [sx / sum, sy / sum];
  // A lone pixel has the moment of its own square.
  let [xx, xy, yy] = [1 / 12, 0, 1 / 12];
  for (const p of component.pixels) {
    const w = dark[p] / sum;
    const [dx, dy] = [(p % width) + 0.5 - x, Math.floor(p / width) + 0.5 - y];
    xx += w * dx * dx;
    xy += w * dx * dy;
    yy += w * dy * dy;
  }
  const size = Math.hypot((xx - yy) / 2, xy);
  const middle = (xx + yy) / 2;
  const elongation = Math.sqrt((middle + size) / Math.max(1 / 12, middle - size));
  return { component, x, y, radius: Math.sqrt(component.pixels.length / Math.PI), elongation };
}

/** How far beyond the pixels' middles a spot reaches, in pixels. */
const MARGIN = 0.9;
/** What is longer than this against its width is covered by a line, if it has a course, and not by a disc. */
const MIN_LINE_ELONGATION = 2.5;

/** What covers a dark blob, in fractions of the width: a disc, or a line along its course. */
export function spotsOf({ component, x, y, elongation }: DarkBlob, width: number): Spot[] {
  const { pixels } = component;
  const places = pixels.map((p): Point => [(p % width) + 0.5, Math.floor(p / width) + 0.5]);
  const centreline =
    component.centreline ?? (elongation < MIN_LINE_ELONGATION ? undefined : centrelineOf(pixels, width));
  if (!centreline) {
    const reach = Math.max(...places.map(([px, py]) => Math.hypot(px - x, py - y)));
    return [[x / width, y / width, (reach + MARGIN) / width]];
  }
  const aside = quantile(
    places.map((place) => distanceTo(centreline.points, place)),
    0.98,
  );
  const line = simplified(centreline.points, SHIFT).map(([px, py]): Point => [px / width, py / width]);
  return [{ line, width: (2 * (aside + MARGIN)) / width }];
}
