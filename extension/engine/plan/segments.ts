/**
 * A plan's tables as straight segments, value = slope · x + intercept, as the executors read them.
 *
 * Axes in octaves take their index from the upper half of a 32-bit float's bits: sign, exponent and seven bits of the
 * mantissa. Such an index covers every number there is: what lies outside the chain's limits finds a level segment.
 */
import { MIN_H, MIN_T, MAX_H, MAX_T } from "../film/look-steps.ts";
import { densityOf } from "../colour/density.ts";
import { FILM_SAMPLES, floatAxis, PRINT_SAMPLES, PRINT_STEPS } from "./table-axes.ts";
import type { Plan } from "./compile.ts";

/** Straight lines over the segments of an axis. */
export interface Segments {
  readonly intercept: Float64Array;
  readonly slope: Float64Array;
}

/** A plan's own tables. */
export interface PlanSegments {
  /** Per channel, over the steps of the film table. */
  readonly film: readonly Segments[];
  /** One for all channels, or one each; over the bits of H. A half is added, so that cutting off the fraction rounds. */
  readonly print: readonly Segments[];
}

/** Bits of a 32-bit float below the index: PRINT_STEPS segments an octave, in the log table too. */
export const SHIFT = 23 - Math.log2(PRINT_STEPS);
const FLOAT_INDEXES = 2 ** (32 - SHIFT);

/** −log10 T: off by less than 4e-6 D. */
export const LOG = floatSegments(MIN_T, MAX_T, (k) => densityOf(floatAxis(MIN_T, PRINT_STEPS, k)));

/** @param scale the output's full scale */
export function segmentsOf(plan: Plan, scale: number): PlanSegments {
  return {
    film: Array.from({ length: plan.mono ? 1 : 3 }, (_, c) =>
      stepSegments(plan.film.subarray(c * FILM_SAMPLES, (c + 1) * FILM_SAMPLES)),
    ),
    print: Array.from({ length: plan.print.length / PRINT_SAMPLES }, (_, c) =>
      floatSegments(MIN_H, MAX_H, (k) => plan.print[c * PRINT_SAMPLES + k] * scale + 0.5),
    ),
  };
}

/** The index of a float's segment. */
export function floatIndex(value: number): number {
  return new Int32Array(Float32Array.of(value).buffer)[0] >>> SHIFT;
}

/** Segments over all 32-bit floats: `value(k)` at the k-th point from `least` to `most`, level outside. */
export function floatSegments(min: number, max: number, value: (k: number) => number): Segments {
  const intercept = new Float64Array(FLOAT_INDEXES);
  const slope = new Float64Array(FLOAT_INDEXES);
  const first = floatIndex(min);
  const count = Math.log2(max / min) * PRINT_STEPS;
  intercept.fill(value(0));
  intercept.fill(value(count), first + count, FLOAT_INDEXES / 2); // the upper half is negative
  for (let k = 0, y = value(0); k < count; k++) {
    const [x, next] = [floatAxis(min, PRINT_STEPS, k), value(k + 1)];
    const slopeHere = (next - y) / (floatAxis(min, PRINT_STEPS, k + 1) - x);
    slope[first + k] = slopeHere;
    intercept[first + k] = y - slopeHere * x;
    y = next;
  }
  return { intercept, slope };
}

/** Segments over the steps 0, 1, 2 … of a table. */
function stepSegments(table: Float32Array): Segments {
  const slope = Float64Array.from(table, (y, i) => (i + 1 < table.length ? table[i + 1] - y : 0));
  return { intercept: Float64Array.from(table, (y, i) => y - slope[i] * i), slope };
}
