/**
 * The axes of a plan's tables. Every executor (run.ts here, the shader in the panel) reads them alike:
 *
 * - Between two samples a table is a straight line.
 * - The film table's axis is density, in even steps from MIN_D to MAX_D.
 * - The print table's axis is exposure H cut as floating point cuts it: octaves, each in even steps. Sample k stands at
 *   2^(o + floor(k / PRINT_STEPS)) · (1 + (k mod PRINT_STEPS) / PRINT_STEPS), 2^o being MIN_H. So the upper bits of
 *   a 32-bit float are the index, and no logarithm is needed.
 */
import { MIN_D, MIN_H, MAX_D, MAX_H } from "../film/look-steps.ts";

/** Steps of the film table per unit of density: fine enough for a held toe's slope (docs/mathematics.md). */
export const FILM_STEPS = 1024;
export const FILM_SAMPLES = (MAX_D - MIN_D) * FILM_STEPS + 1;

/** Steps of the print table per octave, a power of two. */
export const PRINT_STEPS = 128;
export const PRINT_SAMPLES = Math.log2(MAX_H / MIN_H) * PRINT_STEPS + 1;

/** Density at sample i of the film table. */
export function filmAxis(i: number): number {
  return MIN_D + i / FILM_STEPS;
}

/** Exposure at sample k of the print table. */
export function printAxis(k: number): number {
  return floatAxis(MIN_H, PRINT_STEPS, k);
}

/** The k-th point from `least`, a power of two, on an axis of octaves with even steps. */
export function floatAxis(min: number, steps: number, k: number): number {
  return min * 2 ** Math.floor(k / steps) * (1 + (k % steps) / steps);
}
