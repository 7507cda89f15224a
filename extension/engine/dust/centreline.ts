/** The course of a hair or a scratch: the line along the middle of a thin group of pixels. */
import { distanceFrom, type Point } from "../image/spot.ts";

export interface Centreline {
  /** From one end to the other, in pixels of the plane. */
  readonly points: readonly Point[];
  /** Length of the line and mean width of the group, in pixels. */
  readonly length: number;
  readonly width: number;
}

/** A hair or a scratch is at least this many times as long as it is wide, and this long in pixels. */
const [MIN_ELONGATION, MIN_LENGTH] = [4, 8];
/** Fewest pixels from end to end that have a course at all. */
const MIN_PIXELS = 4;
/** The part of a line's pixels that lies within its width of the course: branches and webs are no lines. */
const MIN_SHARE_ALONG = 0.9;
/** Pixels to either side over which the course is smoothed. */
const SMOOTH = 3;

/**
 * The course of a group of touching pixels: the longest of the shortest ways from pixel to pixel (found from any pixel
 * by going to the farthest one twice), smoothed. Undefined for a group that has branches, or is too small to have one.
 * @param pixels places in a plane of that width
 */
export function centrelineOf(pixels: readonly number[], width: number): Centreline | undefined {
  const from = farthest(pixels, pixels[0], width).last;
  const { last, before } = farthest(pixels, from, width);
  const path: Point[] = [];
  for (let p = last; p >= 0; p = before.get(p)!) path.push(middleOf(p, width));
  if (path.length < MIN_PIXELS) return undefined;
  const points = smoothed(path);
  const steps = points.slice(1).map(([x, y], k) => Math.hypot(x - points[k][0], y - points[k][1]));
  const length = 1 + steps.reduce((sum, step) => sum + step, 0);
  const wide = pixels.length / length;
  const along = pixels.filter((p) => distanceTo(points, middleOf(p, width)) <= wide / 2 + 1);
  return along.length >= MIN_SHARE_ALONG * pixels.length ? { points, length, width: wide } : undefined;
}

const middleOf = (p: number, width: number): Point => [(p % width) + 0.5, Math.floor(p / width) + 0.5];

/** The course of a group of pixels that is a hair or a scratch. */
export function lineOf(pixels: readonly number[], width: number): Centreline | undefined {
  if (pixels.length < MIN_LENGTH) return undefined;
  const centreline = centrelineOf(pixels, width);
  const isLong = centreline && centreline.length >= Math.max(MIN_LENGTH, MIN_ELONGATION * centreline.width);
  return isLong ? centreline : undefined;
}

/** Fewer points for the same course (Douglas and Peucker 1973): none that is left out lies farther than `most` beside it. */
export function simplified(points: readonly Point[], tolerance: number): Point[] {
  const [first, last] = [points[0], points[points.length - 1]];
  let [far, at] = [tolerance, -1];
  for (let k = 1; k < points.length - 1; k++) {
    const away = distanceFrom({ line: [first, last], width: 0 }, points[k]);
    if (away > far) [far, at] = [away, k];
  }
  if (at < 0) return [first, last];
  return [...simplified(points.slice(0, at + 1), tolerance).slice(0, -1), ...simplified(points.slice(at), tolerance)];
}

/** The pixel of a group that is the most steps away from one of it, and the step before each. */
function farthest(
  pixels: readonly number[],
  from: number,
  width: number,
): { last: number; before: ReadonlyMap<number, number> } {
  const left = new Set(pixels);
  const before = new Map([[from, -1]]);
  const queue = [from];
  left.delete(from);
  for (const p of queue)
    // Straight steps first, so that a way goes straight where it can.
    for (const step of [-1, 1, -width, width, -width - 1, -width + 1, width - 1, width + 1])
      if (left.delete(p + step)) {
        before.set(p + step, p);
        queue.push(p + step);
      }
  return { last: queue[queue.length - 1], before };
}

/** Running means; the window shrinks towards the ends, which stay. */
function smoothed(path: readonly Point[]): Point[] {
  return path.map((_, k) => {
    const reach = Math.min(SMOOTH, k, path.length - 1 - k);
    let [x, y] = [0, 0];
    for (let j = k - reach; j <= k + reach; j++) [x, y] = [x + path[j][0], y + path[j][1]];
    return [x / (2 * reach + 1), y / (2 * reach + 1)];
  });
}

/** Distance of a point from the nearest of a course's points. */
export function distanceTo(points: readonly Point[], [x, y]: Point): number {
  let least = Infinity;
  for (const [u, v] of points) least = Math.min(least, (u - x) ** 2 + (v - y) ** 2);
  return Math.sqrt(least);
}
