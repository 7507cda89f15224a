/** Spots to heal: round specks, and lines such as hairs and scratches. All numbers are fractions of the scan's width. */
import { clamp } from "../math/clamp.ts";

export type Point = readonly [x: number, y: number];

/** Centre and radius of a speck. */
export type RoundSpot = readonly [x: number, y: number, radius: number];

/** A hair or a scratch: the points of its course, and its width. */
export interface LineSpot {
  readonly line: readonly Point[];
  readonly width: number;
}

export type Spot = RoundSpot | LineSpot;

export const isLine = (spot: Spot): spot is LineSpot => !Array.isArray(spot);

/** Discs along a line, so many in its width: their outline is nearly as even as the line's own. */
const DISCS_A_WIDTH = 2;

/** Discs that cover a spot: a round one itself, a line by many along its course. */
export function discsAlong(spot: Spot): RoundSpot[] {
  if (!isLine(spot)) return [spot];
  const { line, width } = spot;
  return line.flatMap(([x, y], k): RoundSpot[] => {
    const [u, v] = line[k + 1] ?? [x, y];
    const steps = Math.max(1, Math.ceil((DISCS_A_WIDTH * Math.hypot(u - x, v - y)) / width));
    return Array.from({ length: steps }, (_, i) => [x + ((u - x) * i) / steps, y + ((v - y) * i) / steps, width / 2]);
  });
}

/** Centre of a round spot; of a line the point half-way along its course. */
export function middleOf(spot: Spot): Point {
  if (!isLine(spot)) return [spot[0], spot[1]];
  const steps = spot.line.slice(1).map(([x, y], k) => Math.hypot(x - spot.line[k][0], y - spot.line[k][1]));
  let left = steps.reduce((sum, step) => sum + step, 0) / 2;
  for (const [k, step] of steps.entries()) {
    if (left <= step && step > 0) {
      const [[x, y], [u, v]] = [spot.line[k], spot.line[k + 1]];
      return [x + ((u - x) * left) / step, y + ((v - y) * left) / step];
    }
    left -= step;
  }
  return spot.line[0];
}

/** Radius of a round spot, half the width of a line. */
export const radiusOf = (spot: Spot): number => (isLine(spot) ? spot.width / 2 : spot[2]);

/** Distance of a point from a spot's centre or course. */
export function distanceFrom(spot: Spot, [x, y]: Point): number {
  if (!isLine(spot)) return Math.hypot(spot[0] - x, spot[1] - y);
  let minDistance = Infinity;
  for (const [k, [ax, ay]] of spot.line.entries()) {
    const [bx, by] = spot.line[k + 1] ?? [ax, ay];
    const square = (bx - ax) ** 2 + (by - ay) ** 2;
    const t = square > 0 ? clamp(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square, 0, 1) : 0;
    minDistance = Math.min(minDistance, Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay)));
  }
  return minDistance;
}

/** The same spot, its numbers rounded: places and sizes to so many decimals. */
export function roundedSpot(spot: Spot, places: number, sizes: number): Spot {
  const round = (v: number, digits: number): number => Number(v.toFixed(digits));
  if (!isLine(spot)) return [round(spot[0], places), round(spot[1], places), round(spot[2], sizes)];
  return {
    line: spot.line.map(([x, y]): Point => [round(x, places), round(y, places)]),
    width: round(spot.width, sizes),
  };
}
