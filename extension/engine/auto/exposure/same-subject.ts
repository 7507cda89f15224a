/**
 * Frames of a roll that show the same picture with more or less light: a bracket, or one subject taken again at once.
 * What differs between them is how much light they were given, and that can be measured: the brightness that they should
 * have in the positive is the same.
 */
import { median } from "../../math/statistics.ts";

/** A frame's luminance as a coarse grid, log10 exposure of film above mid-grey; the same grid for all frames. */
export type LuminanceGrid = Float32Array;

/** Frames of one picture: their numbers, and the log10 light of each above the first's. */
export interface SameSubject {
  readonly frames: readonly number[];
  readonly above: readonly number[];
}

/** Tones outside are the film's toe and shoulder, where light leaves no mark or is expanded from little. */
const [DARKEST, LIGHTEST] = [-1.2, 2.2];
/** Part of the grid that must lie within these on both frames. */
const OVERLAP = 0.3;
/** Two frames show one picture where their differences vary by less than this part of what each varies by itself. */
const MAX_DIFFERENCE_RATIO = 0.3;
/**
 * A curve that is not quite the film's makes one picture's contrast differ between its exposures by this factor at most.
 */
const MAX_CONTRAST_RATIO = 1.3;
/** Neighbours in a row of the grid that are averaged: grain and noise would make a flat picture differ from itself. */
const AVERAGED = 4;
/** Less variation than this (log10, robust standard deviation) is an even surface, which looks like any other. */
const MIN_VARIATION = 0.05;

/** Groups of two or more frames of one picture, in the roll's order. */
export function sameSubjects(grids: readonly LuminanceGrid[]): SameSubject[] {
  const groups: { frames: number[]; above: number[] }[] = [];
  for (const [i, grid] of grids.entries()) {
    if (!groups.some((group) => join(group, grids, i, grid))) groups.push({ frames: [i], above: [0] });
  }
  return groups.filter(({ frames }) => frames.length > 1);
}

/** Adds a frame to a group where it shows the same picture as one of its frames: light far apart compares with its neighbour. */
function join(
  group: { readonly frames: number[]; readonly above: number[] },
  grids: readonly LuminanceGrid[],
  frame: number,
  grid: LuminanceGrid,
): boolean {
  for (const [k, member] of group.frames.entries()) {
    const above = lightAbove(grids[member], grid);
    if (above === undefined) continue;
    group.frames.push(frame);
    group.above.push(group.above[k] + above);
    return true;
  }
  return false;
}

/** log10 light of the second frame above the first's; undefined where they show different pictures. */
function lightAbove(first: LuminanceGrid, second: LuminanceGrid): number | undefined {
  if (first.length !== second.length) return undefined;
  const [a, b]: [number[], number[]] = [[], []];
  for (let i = 0; i + AVERAGED <= first.length; i += AVERAGED) {
    const [p, q] = [meanFrom(first, i), meanFrom(second, i)];
    if (!(Math.min(p, q) > DARKEST && Math.max(p, q) < LIGHTEST)) continue;
    a.push(p);
    b.push(q);
  }
  if (a.length * AVERAGED < OVERLAP * first.length) return undefined;
  const [varied, other] = [deviation(a), deviation(b)];
  const variation = Math.min(varied, other);
  if (variation < MIN_VARIATION) return undefined;
  const contrast = Math.min(MAX_CONTRAST_RATIO, Math.max(1 / MAX_CONTRAST_RATIO, other / varied));
  if (deviation(b.map((q, i) => q - contrast * a[i])) > MAX_DIFFERENCE_RATIO * variation) return undefined;
  return median(b.map((q, i) => q - a[i]));
}

/** Mean of neighbours from one on. */
function meanFrom(grid: LuminanceGrid, from: number): number {
  let sum = 0;
  for (let i = from; i < from + AVERAGED; i++) sum += grid[i];
  return sum / AVERAGED;
}

/** Standard deviation as the median distance from the median gives it. */
function deviation(values: readonly number[]): number {
  const middle = median(values);
  return 1.4826 * median(values.map((v) => Math.abs(v - middle)));
}
