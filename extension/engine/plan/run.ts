/**
 * Runs a plan over pixels on the CPU: the reference, used for every file written.
 *
 * Three channels run on WebAssembly's vectors (simd/) where there are any, else in the plain loop below: the same tables
 * and steps, within one code of 65535 of each other. Every Node this project runs on has vectors, so files written are
 * the same everywhere; a webview may forbid them.
 */
import { MIN_D, MAX_D } from "../film/look-steps.ts";
import { codeTable } from "./log-code.ts";
import { FILM_SAMPLES, FILM_STEPS } from "./table-axes.ts";
import type { Plan } from "./compile.ts";
import { LOG, type PlanSegments, segmentsOf, SHIFT } from "./segments.ts";
import { runCodesOnVectors } from "./simd/codes-runner.ts";
import { runOnVectors } from "./simd/plan-runner.ts";

/**
 * Runs a plan over `n` pixels into 16-bit samples.
 * @param t transmittance, three values a pixel, interleaved. Values outside the chain's limits are held to them;
 *   what a NaN or an infinity reaches counts as clear film.
 * @param out encoded positive, 0 … 65535, `plan.channels` values a pixel, interleaved
 * @param tFrom first pixel to read
 * @param outFrom first pixel to write
 * @throws RangeError where either array is too short
 */
export function runPlan(plan: Plan, t: Float32Array, out: Uint16Array, n: number, tFrom = 0, outFrom = 0): void {
  check(t.length / 3, out.length / plan.channels, n, tFrom, outFrom);
  if (!plan.mono && runOnVectors(plan, t, out, n, tFrom * 3, outFrom * 3)) return;
  runPlainly(plan, t, out, n, tFrom, outFrom);
}

/** `runPlan` without vectors. */
export function runPlainly(plan: Plan, t: Float32Array, out: Uint16Array, n: number, tFrom = 0, outFrom = 0): void {
  check(t.length / 3, out.length / plan.channels, n, tFrom, outFrom);
  const segments = once(sixteenBits, plan, () => segmentsOf(plan, 65535));
  const { channels } = plan;
  if (plan.mono) runOne(plan, segments, t, out, { n, from: tFrom * 3, to: outFrom * channels, stride: channels });
  else runThree(plan, segments, t, out, { n, from: tFrom * 3, to: outFrom * 3, stride: 3 });
}

/**
 * Runs a plan over `n` pixels into 8-bit RGBA, opaque, as a canvas takes it; one channel fills red, green and blue.
 * Parameters and errors as in `runPlan`, but `out` has four values a pixel.
 */
export function runPlan8(plan: Plan, t: Float32Array, out: Uint8ClampedArray, n: number, tFrom = 0, outFrom = 0): void {
  check(t.length / 3, out.length / 4, n, tFrom, outFrom);
  // The clamping array would round a second time.
  const bytes = new Uint8Array(out.buffer, out.byteOffset, out.length);
  const one = plan.channels === 1;
  const segments = once(eightBits, plan, () => segmentsOf(plan, 255));
  (plan.mono ? runOne : runThree)(plan, segments, t, bytes, { n, from: tFrom * 3, to: outFrom * 4, stride: 4 });
  for (let k = outFrom * 4, end = (outFrom + n) * 4; k < end; k += 4) {
    if (one) bytes[k + 1] = bytes[k + 2] = bytes[k];
    bytes[k + 3] = 255;
  }
}

/**
 * `runPlan8` over log codes (log-code.ts), three a pixel, as the preview keeps its scans.
 * @param codesFrom first pixel to read
 */
export function runCodes8(
  plan: Plan,
  codes: Uint16Array,
  out: Uint8ClampedArray,
  n: number,
  codesFrom = 0,
  outFrom = 0,
): void {
  check(codes.length / 3, out.length / 4, n, codesFrom, outFrom);
  if (!plan.mono && runCodesOnVectors(plan, codes, out, n, codesFrom * 3, outFrom * 4)) return;
  const table = codeTable();
  const t = new Float32Array(3 * Math.min(n, CODES_AT_ONCE));
  for (let done = 0; done < n; done += CODES_AT_ONCE) {
    const now = Math.min(CODES_AT_ONCE, n - done);
    for (let k = 0, i = 3 * (codesFrom + done); k < 3 * now; k++, i++) t[k] = table[codes[i]];
    runPlan8(plan, t, out, now, 0, outFrom + done);
  }
}
const CODES_AT_ONCE = 4096;

function check(given: number, capacity: number, n: number, tFrom: number, outFrom: number): void {
  if (tFrom + n > given)
    throw new RangeError(
      `A plan was given ${given} pixels of transmittance and asked to read up to pixel ${tFrom + n}.`,
    );
  if (outFrom + n > capacity)
    throw new RangeError(`A plan has memory for ${capacity} pixels and was asked to write up to pixel ${outFrom + n}.`);
}

/** What a plan needs to run: made when it first runs, gone with it. */
const sixteenBits = new WeakMap<Plan, PlanSegments>();
const eightBits = new WeakMap<Plan, PlanSegments>();

function once<T>(store: WeakMap<Plan, T>, plan: Plan, make: () => T): T {
  if (!store.has(plan)) store.set(plan, make());
  return store.get(plan) as T;
}

/** Which values a loop reads and writes. */
interface Span {
  /** Pixels. */
  readonly n: number;
  /** Index of the first value read. */
  readonly from: number;
  /** Index of the first value written. */
  readonly to: number;
  /** Values from one pixel written to the next. */
  readonly stride: number;
}

/**
 * The inner loop for three channels. Everything it reads is a local: the compiler reloads what belongs to the module on
 * every turn, which halves the speed (tests/bench/plan-run.ts).
 */
function runThree(
  plan: Plan,
  { film, print }: PlanSegments,
  t: Float32Array,
  out: Uint16Array | Uint8Array,
  { n, from, to, stride }: Span,
): void {
  const [logIntercept, logSlope] = [LOG.intercept, LOG.slope];
  const [redIntercept, redSlope] = [film[0].intercept, film[0].slope];
  const [greenIntercept, greenSlope] = [film[1].intercept, film[1].slope];
  const [blueIntercept, blueSlope] = [film[2].intercept, film[2].slope];
  const [onRed, onGreen, onBlue] = [print[0], print[1] ?? print[0], print[2] ?? print[0]];
  const [redPrint, redPrintSlope] = [onRed.intercept, onRed.slope];
  const [greenPrint, greenPrintSlope] = [onGreen.intercept, onGreen.slope];
  const [bluePrint, bluePrintSlope] = [onBlue.intercept, onBlue.slope];
  // The film table's axis, in steps from its start, is folded into the first matrix.
  const mix = Float64Array.from(plan.unmix, (v) => v * FILM_STEPS);
  const shift = Float64Array.from([...plan.offset, MIN_D, MAX_D], (v) => (v - MIN_D) * FILM_STEPS);
  const m00 = mix[0];
  const m01 = mix[1];
  const m02 = mix[2];
  const m10 = mix[3];
  const m11 = mix[4];
  const m12 = mix[5];
  const m20 = mix[6];
  const m21 = mix[7];
  const m22 = mix[8];
  const s0 = shift[0];
  const s1 = shift[1];
  const s2 = shift[2];
  const c = plan.colour;
  const c00 = c[0];
  const c01 = c[1];
  const c02 = c[2];
  const c10 = c[3];
  const c11 = c[4];
  const c12 = c[5];
  const c20 = c[6];
  const c21 = c[7];
  const c22 = c[8];
  // Read from a Float64Array, so that the compiler knows both as floating point and does not convert on every turn.
  const zero = shift[3];
  const top = shift[4];
  const upper = SHIFT;
  const tBits = new Int32Array(t.buffer, t.byteOffset, t.length);
  const h = new Float32Array(3);
  const hBits = new Int32Array(h.buffer);

  for (let i = from, k = to, end = from + n * 3; i < end; i += 3, k += stride) {
    const ti = tBits[i] >>> upper;
    const tj = tBits[i + 1] >>> upper;
    const tk = tBits[i + 2] >>> upper;
    const dr = logIntercept[ti] + logSlope[ti] * t[i];
    const dg = logIntercept[tj] + logSlope[tj] * t[i + 1];
    const db = logIntercept[tk] + logSlope[tk] * t[i + 2];

    let x = m00 * dr + m01 * dg + m02 * db + s0;
    let y = m10 * dr + m11 * dg + m12 * db + s1;
    let z = m20 * dr + m21 * dg + m22 * db + s2;
    x = x > zero ? (x < top ? x : top) : zero;
    y = y > zero ? (y < top ? y : top) : zero;
    z = z > zero ? (z < top ? z : top) : zero;
    const xi = x | 0;
    const yi = y | 0;
    const zi = z | 0;
    const er = redIntercept[xi] + redSlope[xi] * x;
    const eg = greenIntercept[yi] + greenSlope[yi] * y;
    const eb = blueIntercept[zi] + blueSlope[zi] * z;

    const r = c00 * er + c01 * eg + c02 * eb;
    const g = c10 * er + c11 * eg + c12 * eb;
    const b = c20 * er + c21 * eg + c22 * eb;
    h[0] = r;
    h[1] = g;
    h[2] = b;
    const hi = hBits[0] >>> upper;
    const hj = hBits[1] >>> upper;
    const hk = hBits[2] >>> upper;
    out[k] = redPrint[hi] + redPrintSlope[hi] * r;
    out[k + 1] = greenPrint[hj] + greenPrintSlope[hj] * g;
    out[k + 2] = bluePrint[hk] + bluePrintSlope[hk] * b;
  }
}

/** The same for film of one channel, read from the weighted sum of the scan's three; a toned print of it has three. */
function runOne(
  plan: Plan,
  { film, print }: PlanSegments,
  t: Float32Array,
  out: Uint16Array | Uint8Array,
  { n, from, to, stride }: Span,
): void {
  const [logIntercept, logSlope] = [LOG.intercept, LOG.slope];
  const [filmIntercept, filmSlope] = [film[0].intercept, film[0].slope];
  const [printIntercept, printSlope] = [print[0].intercept, print[0].slope];
  const toned = print.length === 3;
  const [greenPrint, greenPrintSlope] = [(print[1] ?? print[0]).intercept, (print[1] ?? print[0]).slope];
  const [bluePrint, bluePrintSlope] = [(print[2] ?? print[0]).intercept, (print[2] ?? print[0]).slope];
  const [w0, w1, w2] = plan.weights;
  const shift = (plan.offset[0] - MIN_D) * FILM_STEPS;
  const steps = FILM_STEPS;
  const zero = 0;
  const top = FILM_SAMPLES - 1;
  const value = new Float32Array(1);
  const upper = SHIFT;
  const bits = new Int32Array(value.buffer);
  for (let i = from, k = to, end = from + n * 3; i < end; i += 3, k += stride) {
    const sum = w0 * t[i] + w1 * t[i + 1] + w2 * t[i + 2];
    value[0] = sum;
    const ti = bits[0] >>> upper;
    let x = (logIntercept[ti] + logSlope[ti] * sum) * steps + shift;
    x = x > zero ? (x < top ? x : top) : zero;
    const xi = x | 0;
    const e = filmIntercept[xi] + filmSlope[xi] * x;
    value[0] = e;
    const hi = bits[0] >>> upper;
    out[k] = printIntercept[hi] + printSlope[hi] * e;
    if (toned) {
      out[k + 1] = greenPrint[hi] + greenPrintSlope[hi] * e;
      out[k + 2] = bluePrint[hi] + bluePrintSlope[hi] * e;
    }
  }
}
