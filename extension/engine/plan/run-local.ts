/**
 * Runs a plan over pixels that lie in areas of local exposure, filtration and contrast. Pixels that no area reaches are
 * left as the plan made them, so that a picture does not change outside its areas by a single code.
 *
 * D gets the area's filters before the film's table, H its exposure behind the colour matrix, and contrast spreads H about
 * mid-grey before the print's table. Logarithm and power come from tables, so that every machine gives the same bytes.
 */
import { MAX_D, MAX_H, MIN_D, MIN_H } from "../film/look-steps.ts";
import { isPlain, NODE_VALUES } from "../local/grid.ts";
import { MID_GREY } from "../colour/density.ts";
import type { Plan } from "./compile.ts";
import { floatAxis, FILM_SAMPLES, FILM_STEPS, PRINT_STEPS } from "./table-axes.ts";
import { floatSegments, LOG, type PlanSegments, segmentsOf, type Segments, SHIFT } from "./segments.ts";

/** log10 H. */
const LOG_H = floatSegments(MIN_H, MAX_H, (k) => Math.log10(floatAxis(MIN_H, PRINT_STEPS, k)));

/** 10^x in even steps from the least log10 H to the greatest: a chord is off by 2.5e-6 of the value at most. */
const POWER_STEPS = 512;
const [MIN_LOG, MAX_LOG] = [Math.log10(MIN_H), Math.log10(MAX_H)];
const POWERS = Float64Array.from(
  { length: Math.ceil((MAX_LOG - MIN_LOG) * POWER_STEPS) + 2 },
  (_, i) => 10 ** (MIN_LOG + i / POWER_STEPS),
);
const LOG_GREY = Math.log10(MID_GREY);

/** What a run reads and writes; indexes count values, not pixels. */
export interface LocalSpan {
  /** Pixels. */
  readonly n: number;
  /** Transmittance, three values a pixel, and its first one. */
  readonly t: Float32Array;
  readonly from: number;
  /** Adjustments, NODE_VALUES a pixel, from the start. */
  readonly adjustments: Float32Array;
  readonly out: Uint16Array | Uint8Array;
  readonly to: number;
  /** Values from one pixel written to the next. */
  readonly stride: number;
}

const tables = new WeakMap<Plan, Map<number, PlanSegments>>();

/** @param scale the output's full scale, 65535 or 255 */
export function runLocal(plan: Plan, scale: 65535 | 255, span: LocalSpan): void {
  const kept = tables.get(plan) ?? new Map<number, PlanSegments>();
  tables.set(plan, kept);
  if (!kept.has(scale)) kept.set(scale, segmentsOf(plan, scale));
  const segments = kept.get(scale)!;
  if (plan.mono) runMono(plan, segments, span);
  else runColour(plan, segments, span);
}

const bits = new Float32Array(1);
const bitsAsInt = new Int32Array(bits.buffer);

/** A table over the bits of a float. */
function over({ intercept, slope }: Segments, value: number): number {
  bits[0] = value;
  const i = bitsAsInt[0] >>> SHIFT;
  return intercept[i] + slope[i] * value;
}

/** H with its distance from mid-grey, in log exposure, multiplied. */
function spread(h: number, contrast: number): number {
  if (contrast === 1) return h;
  const log = LOG_GREY + (over(LOG_H, h) - LOG_GREY) * contrast;
  const at = (log < MIN_LOG ? 0 : log > MAX_LOG ? MAX_LOG - MIN_LOG : log - MIN_LOG) * POWER_STEPS;
  const i = at | 0;
  return POWERS[i] + (POWERS[i + 1] - POWERS[i]) * (at - i);
}

/** H of a density, in even steps of it. */
function exposureOf({ intercept, slope }: Segments, density: number): number {
  const d = density > MIN_D ? (density < MAX_D ? density : MAX_D) : MIN_D;
  const x = (d - MIN_D) * FILM_STEPS;
  const i = x < FILM_SAMPLES - 1 ? x | 0 : FILM_SAMPLES - 1;
  return intercept[i] + slope[i] * x;
}

function runColour(plan: Plan, { film, print }: PlanSegments, span: LocalSpan): void {
  const { n, t, adjustments, out, stride } = span;
  const { unmix, offset, colour } = plan;
  for (let p = 0, i = span.from, k = span.to, a = 0; p < n; p++, i += 3, k += stride, a += NODE_VALUES) {
    if (isPlain(adjustments, a)) continue;
    const [dr, dg, db] = [over(LOG, t[i]), over(LOG, t[i + 1]), over(LOG, t[i + 2])];
    const gain = adjustments[a + 3];
    const contrast = adjustments[a + 4];
    const er = exposureOf(film[0], unmix[0] * dr + unmix[1] * dg + unmix[2] * db + offset[0] + adjustments[a]);
    const eg = exposureOf(film[1], unmix[3] * dr + unmix[4] * dg + unmix[5] * db + offset[1] + adjustments[a + 1]);
    const eb = exposureOf(film[2], unmix[6] * dr + unmix[7] * dg + unmix[8] * db + offset[2] + adjustments[a + 2]);
    for (let c = 0; c < 3; c++) {
      const h = gain * (colour[3 * c] * er + colour[3 * c + 1] * eg + colour[3 * c + 2] * eb);
      out[k + c] = over(print[c] ?? print[0], spread(h, contrast));
    }
  }
}

function runMono(plan: Plan, { film, print }: PlanSegments, span: LocalSpan): void {
  const { n, t, adjustments, out, stride } = span;
  const [w0, w1, w2] = plan.weights;
  const channels = Math.min(3, stride);
  for (let p = 0, i = span.from, k = span.to, a = 0; p < n; p++, i += 3, k += stride, a += NODE_VALUES) {
    if (isPlain(adjustments, a)) continue;
    const density = over(LOG, w0 * t[i] + w1 * t[i + 1] + w2 * t[i + 2]) + plan.offset[0];
    const h = spread(adjustments[a + 3] * exposureOf(film[0], density), adjustments[a + 4]);
    // A toned print has three channels, and a canvas's pixel has the one value three times.
    for (let c = 0; c < channels; c++) out[k + c] = over(print[c] ?? print[0], h);
  }
}
