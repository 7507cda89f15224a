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
  return courseOf(pixels, width, () => true);
}

/** The course of a group of pixels that is a hair or a scratch. */
export function lineOf(pixels: readonly number[], width: number): Centreline | undefined {
  const isLong = (length: number): boolean => length >= Math.max(MIN_LENGTH, (MIN_ELONGATION * pixels.length) / length);
  return pixels.length < MIN_LENGTH ? undefined : courseOf(pixels, width, isLong);
}

/** A step of a way is no longer than this, in pixels, and rounding lengthens none by more than the slack. */
const [LONGEST_STEP, SLACK] = [Math.SQRT2, 1e-6];

/** @param isLong whether a course of some length serves; one that is longer does, too. It is asked before what takes time */
function courseOf(
  pixels: readonly number[],
  width: number,
  isLong: (length: number) => boolean,
): Centreline | undefined {
  const group = new TouchingPixels(pixels, width);
  const maxLength = (steps: number): number => 1 + SLACK + LONGEST_STEP * steps;
  const first = group.wayToFarthest(0);
  // No way is longer than twice the longest from any one pixel, and smoothing makes none longer.
  const last = isLong(maxLength(2 * (first.length - 1))) ? group.wayToFarthest(first[0]) : [];
  group.release();
  if (last.length < MIN_PIXELS || !isLong(maxLength(last.length - 1))) return undefined;
  const points = smoothed(last.map((i) => middleOf(pixels[i], width)));
  let steps = 0;
  for (let k = 1; k < points.length; k++)
    steps += Math.hypot(points[k][0] - points[k - 1][0], points[k][1] - points[k - 1][1]);
  const length = 1 + steps;
  const wide = pixels.length / length;
  return isLong(length) && liesAlong(points, pixels, width, wide / 2 + 1) ? { points, length, width: wide } : undefined;
}

/** Whether most pixels of a group lie no farther than that from one of a course's points. */
function liesAlong(points: readonly Point[], pixels: readonly number[], width: number, reach: number): boolean {
  let aside = 0;
  // One pixel of a group lies near the one before it: so does its nearest point.
  let near = 0;
  for (const p of pixels) {
    const x = p % width;
    const found = nearFrom(points, near, x + 0.5, (p - x) / width + 0.5, reach);
    if (found >= 0) near = found;
    else if (pixels.length - ++aside < MIN_SHARE_ALONG * pixels.length) return false;
  }
  return true;
}

/** The number of a point of a course that is no farther than that from a place, looked for from one point on; or −1. */
function nearFrom(points: readonly Point[], from: number, x: number, y: number, reach: number): number {
  const isNear = (k: number): boolean => Math.sqrt((points[k][0] - x) ** 2 + (points[k][1] - y) ** 2) <= reach;
  for (let away = 0; away < points.length; away++) {
    const [before, after] = [from - away, from + away];
    if (before < 0 && after >= points.length) break;
    if (before >= 0 && isNear(before)) return before;
    if (after < points.length && isNear(after)) return after;
  }
  return -1;
}

const middleOf = (p: number, width: number): Point => [(p % width) + 0.5, Math.floor(p / width) + 0.5];

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

/** The number of each pixel of a group plus 1 at its place in the group's own rectangle; all 0 between uses. */
let grid = new Uint16Array(0);

/** A group of at most 65,534 pixels, in which ways from pixel to pixel are looked for. */
class TouchingPixels {
  /** Place of each pixel in the grid, which has a border of one pixel. */
  readonly #at: Int32Array;
  /** Straight steps first, so that a way goes straight where it can. */
  readonly #steps: readonly number[];

  constructor(pixels: readonly number[], width: number) {
    let [x0, y0, x1, y1] = [Infinity, Infinity, 0, 0];
    for (const p of pixels) {
      const x = p % width;
      const y = (p - x) / width;
      if (x < x0) x0 = x;
      if (x > x1) x1 = x;
      if (y < y0) y0 = y;
      if (y > y1) y1 = y;
    }
    const row = x1 - x0 + 3;
    if (grid.length < row * (y1 - y0 + 3)) grid = new Uint16Array(row * (y1 - y0 + 3));
    this.#steps = [-1, 1, -row, row, -row - 1, -row + 1, row - 1, row + 1];
    this.#at = new Int32Array(pixels.length);
    for (let i = 0; i < pixels.length; i++) {
      const x = pixels[i] % width;
      this.#at[i] = ((pixels[i] - x) / width - y0 + 1) * row + x - x0 + 1;
      grid[this.#at[i]] = i + 1;
    }
  }

  /** The shortest way from the pixel that is the most steps away from one of them, by numbers of pixels, to that one. */
  wayToFarthest(from: number): number[] {
    const at = this.#at;
    const steps = this.#steps;
    const before = new Int32Array(at.length).fill(-2);
    const queue = new Int32Array(at.length);
    let [next, count] = [0, 1];
    queue[0] = from;
    before[from] = -1;
    for (; next < count; next++)
      for (let s = 0; s < 8; s++) {
        const i = grid[at[queue[next]] + steps[s]] - 1;
        if (i < 0 || before[i] !== -2) continue;
        before[i] = queue[next];
        queue[count++] = i;
      }
    const way: number[] = [];
    for (let i = queue[count - 1]; i >= 0; i = before[i]) way.push(i);
    return way;
  }

  /** Clears the grid for the next group. */
  release(): void {
    for (let i = 0; i < this.#at.length; i++) grid[this.#at[i]] = 0;
  }
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

/** Distance of a point from the nearest of a centreline's points, which lie no farther apart than a step. */
export function distanceTo(points: readonly Point[], [x, y]: Point): number {
  let [least, nearest] = [Infinity, Infinity];
  for (let k = 0; k < points.length;) {
    const square = (points[k][0] - x) ** 2 + (points[k][1] - y) ** 2;
    if (square < least) [least, nearest] = [square, Math.sqrt(square)];
    // None of the next points can be nearer than the nearest by steps that are too short to reach it.
    k += Math.max(1, Math.floor((Math.sqrt(square) - nearest - SLACK) / LONGEST_STEP));
  }
  return nearest;
}
