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
/** Less variation than this (log10, robust standard deviation) is an even surface, which looks like any other. */
const MIN_VARIATION = 0.05;

/** Groups of two or more frames of one picture, in the roll's order. */
export function sameSubjects(grids: readonly LuminanceGrid[]): SameSubject[] {
  const groups: { frames: number[]; above: number[] }[] = [];
  for (const [i, grid] of grids.entries()) {
    let joined = false;
    for (const group of groups) {
      const above = lightAbove(grids[group.frames[0]], grid);
      if (above === undefined) continue;
      group.frames.push(i);
      group.above.push(above);
      joined = true;
      break;
    }
    if (!joined) groups.push({ frames: [i], above: [0] });
  }
  return groups.filter(({ frames }) => frames.length > 1);
}

/** log10 light of the second frame above the first's; undefined where they show different pictures. */
function lightAbove(first: LuminanceGrid, second: LuminanceGrid): number | undefined {
  if (first.length !== second.length) return undefined;
  const differences: number[] = [];
  const [a, b]: [number[], number[]] = [[], []];
  for (let i = 0; i < first.length; i++) {
    const [p, q] = [first[i], second[i]];
    if (!(Math.min(p, q) > DARKEST && Math.max(p, q) < LIGHTEST)) continue;
    differences.push(q - p);
    a.push(p);
    b.push(q);
  }
  if (differences.length < OVERLAP * first.length) return undefined;
  const variation = Math.min(deviation(a), deviation(b));
  if (variation < MIN_VARIATION || deviation(differences) > MAX_DIFFERENCE_RATIO * variation) return undefined;
  return median(differences);
}

/** Standard deviation as the median distance from the median gives it. */
function deviation(values: readonly number[]): number {
  const middle = median(values);
  return 1.4826 * median(values.map((v) => Math.abs(v - middle)));
}
