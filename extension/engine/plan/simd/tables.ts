/** A plan's tables in a kernel's memory: pairs of 32-bit floats, intercept and slope, one for each segment. */
import { MIN_H, MAX_H } from "../../film/look-steps.ts";
import { FILM_SAMPLES, PRINT_SAMPLES } from "../table-axes.ts";
import type { Plan } from "../compile.ts";
import { floatIndex, type Segments, segmentsOf, SHIFT } from "../segments.ts";

/** The print table's first segment, as the bits of a float count them. */
export const PRINT_FIRST = floatIndex(MIN_H);
export const FILM_BYTES = FILM_SAMPLES * 8;
export const PRINT_BYTES = PRINT_SAMPLES * 8;

/** How kernels find a segment: the same for all of them. */
export const TABLE_AXES = {
  filmBits: Math.ceil(Math.log2(FILM_SAMPLES)),
  shift: SHIFT,
  filmLimits: [-0.5, FILM_SAMPLES - 1.5],
  printLimits: [MIN_H, MAX_H],
} as const;

/** Where each channel finds its print segment for the float whose bits are all zero, in bytes; one table may serve all. */
export type PrintOffsets = readonly [number, number, number];

/** Where a plan's tables lie, in bytes. */
export interface TableOffsets {
  readonly film?: readonly [number, number, number];
  readonly print: PrintOffsets;
}

/** Whether each channel of a plan's print has a table of its own. */
export const isTinted = (plan: Plan): boolean => plan.print.length > PRINT_SAMPLES;

/** Print tables from address `at` on: one for all channels, or one each. */
export function printOffsets(at: number, tinted: boolean): PrintOffsets {
  const first = at - PRINT_FIRST * 8;
  return tinted ? [first, first + PRINT_BYTES, first + 2 * PRINT_BYTES] : [first, first, first];
}

/** Writes a plan's tables for an output whose full scale is `scale`. */
export function fillPlan(memory: WebAssembly.Memory, places: TableOffsets, plan: Plan, scale: number): void {
  const { film, print } = segmentsOf(plan, scale);
  places.film?.forEach((at, c) => fillPairs(memory, at, film[c], 0.5, 0, FILM_SAMPLES));
  print.forEach((table, c) =>
    fillPairs(memory, places.print[c]! + PRINT_FIRST * 8, table, 0, PRINT_FIRST, PRINT_SAMPLES),
  );
}

/** Writes `count` segments from `first` on as pairs; `shift` is what the kernel has taken off the axis. */
export function fillPairs(
  memory: WebAssembly.Memory,
  at: number,
  { intercept: start, slope }: Segments,
  shift: number,
  first: number,
  count: number,
): void {
  const pairs = new Float32Array(memory.buffer, at, 2 * count);
  for (let i = 0; i < count; i++) {
    pairs[2 * i] = start[first + i] + shift * slope[first + i];
    pairs[2 * i + 1] = slope[first + i];
  }
}
