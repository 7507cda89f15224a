/**
 * Runs a plan over pixels on the CPU: the reference, used for every file written.
 *
 * The tables are kept as line segments, value = a + b·x, two numbers side by side; a lookup is then one index, two
 * loads, one multiplication and one addition. Axes in octaves take their index straight from a 32-bit float's bits.
 */
import { LEAST_D, LEAST_H, LEAST_T, MOST_H, MOST_T } from "./chain.ts";
import { densityOf } from "./density.ts";
import { FILM_SAMPLES, FILM_STEPS, floatAxis, PRINT_SAMPLES, PRINT_STEPS, printAxis } from "./plan-tables.ts";
import type { Plan } from "./plan.ts";

/** Bits of a 32-bit float below the index, for PRINT_STEPS an octave; the log table uses the same. */
const SHIFT = 23 - Math.log2(PRINT_STEPS);
/** Greatest place on the film table's axis, in steps, that still lies in a segment. */
const FILM_TOP = FILM_SAMPLES - 1 - 1e-6;

const scratch = new Float32Array(3);
const scratchBits = new Int32Array(scratch.buffer);
const bitsOf = (value: number): number => new Int32Array(Float32Array.of(value).buffer)[0];
const [LEAST_T_BITS, MOST_T_BITS] = [bitsOf(LEAST_T), bitsOf(MOST_T)];
const [LEAST_H_BITS, MOST_H_BITS] = [bitsOf(LEAST_H), bitsOf(MOST_H)];
const T_FIRST = LEAST_T_BITS >> SHIFT;
const H_FIRST = LEAST_H_BITS >> SHIFT;

/** −log10 of LEAST_T … MOST_T: off by less than 4e-6 D. */
const LOG = segments(
  Array.from({ length: ((MOST_T_BITS - LEAST_T_BITS) >> SHIFT) + 1 }, (_, k) => tAxis(k)),
  (t) => densityOf(t),
);

function tAxis(k: number): number {
  return floatAxis(LEAST_T, PRINT_STEPS, k);
}

/** Pairs a, b of the lines between neighbouring places of `axis`; one level line more for the last place itself. */
function segments(axis: readonly number[], value: (x: number, i: number) => number): Float64Array {
  const pairs = new Float64Array(axis.length * 2);
  let y = value(axis[0], 0);
  for (let i = 0; i < axis.length - 1; i++) {
    const next = value(axis[i + 1], i + 1);
    const slope = (next - y) / (axis[i + 1] - axis[i]);
    pairs[2 * i] = y - slope * axis[i];
    pairs[2 * i + 1] = slope;
    y = next;
  }
  pairs[pairs.length - 2] = y;
  return pairs;
}
/** A plan's tables as segments. */
interface Ready {
  /** Per channel, over steps of the film table's axis. */
  readonly film: readonly Float64Array[];
  /** Over H; full scale as the key says, plus a half, so that cutting off the fraction rounds. */
  readonly print: Map<number, Float64Array>;
}

const ready = new WeakMap<Plan, Ready>();
const filmSteps = Array.from({ length: FILM_SAMPLES }, (_, i) => i);
const printPlaces = Array.from({ length: PRINT_SAMPLES }, (_, k) => printAxis(k));

function prepared(plan: Plan, scale: number): { film: readonly Float64Array[]; print: Float64Array } {
  let made = ready.get(plan);
  if (!made) {
    const film = Array.from({ length: plan.channels }, (_, c) =>
      segments(filmSteps, (_x, i) => plan.film[c * FILM_SAMPLES + i]),
    );
    made = { film, print: new Map() };
    ready.set(plan, made);
  }
  let print = made.print.get(scale);
  if (!print) {
    print = segments(printPlaces, (_x, k) => plan.print[k] * scale + 0.5);
    made.print.set(scale, print);
  }
  return { film: made.film, print };
}

/**
 * Runs a plan over `n` pixels into 16-bit samples.
 * @param t transmittance, three values a pixel, interleaved; anything outside the chain's limits, NaN too, is held to them
 * @param out encoded positive, 0 … 65535, `plan.channels` values a pixel, interleaved
 * @param tFrom first pixel to read, `outFrom` first to write
 * @throws RangeError where either array is too short
 */
export function runPlan(plan: Plan, t: Float32Array, out: Uint16Array, n: number, tFrom = 0, outFrom = 0): void {
  check(plan, t, out.length / plan.channels, n, tFrom, outFrom);
  if (plan.channels === 1) runOne(plan, t, out, n, tFrom, outFrom, 65535, 1);
  else runThree(plan, t, out, n, tFrom * 3, outFrom * 3, 65535, 3);
}

/**
 * Runs a plan over `n` pixels into 8-bit RGBA, opaque, as a canvas takes it; one channel fills red, green and blue.
 * Parameters and errors as in `runPlan`; `out` has four values a pixel.
 */
export function runPlan8(plan: Plan, t: Float32Array, out: Uint8ClampedArray, n: number, tFrom = 0, outFrom = 0): void {
  check(plan, t, out.length / 4, n, tFrom, outFrom);
  const bytes = new Uint8Array(out.buffer, out.byteOffset, out.length);
  if (plan.channels === 3) {
    runThree(plan, t, bytes, n, tFrom * 3, outFrom * 4, 255, 4);
    for (let k = outFrom * 4 + 3, end = (outFrom + n) * 4; k < end; k += 4) bytes[k] = 255;
    return;
  }
  runOne(plan, t, bytes, n, tFrom, outFrom * 4, 255, 4);
  for (let k = outFrom * 4, end = (outFrom + n) * 4; k < end; k += 4) {
    bytes[k + 1] = bytes[k + 2] = bytes[k];
    bytes[k + 3] = 255;
  }
}

function check(plan: Plan, t: Float32Array, room: number, n: number, tFrom: number, outFrom: number): void {
  if ((tFrom + n) * 3 > t.length)
    throw new RangeError(`A plan was given ${t.length / 3} pixels of transmittance but asked for ${tFrom + n}.`);
  if (outFrom + n > room)
    throw new RangeError(
      `A plan has room for ${room} pixels of ${plan.channels} channels but was asked for ${outFrom + n}.`,
    );
}

function runThree(
  plan: Plan,
  t: Float32Array,
  out: Uint16Array | Uint8Array,
  n: number,
  from: number,
  to: number,
  scale: number,
  stride: number,
): void {
  const { film, print } = prepared(plan, scale);
  const [filmR, filmG, filmB] = film;
  // The film table's axis, in steps from its start, is folded into the first matrix.
  const [u00, u01, u02, u10, u11, u12, u20, u21, u22] = plan.unmix.map((v) => v * FILM_STEPS);
  const o0 = (plan.offset[0] - LEAST_D) * FILM_STEPS;
  const o1 = (plan.offset[1] - LEAST_D) * FILM_STEPS;
  const o2 = (plan.offset[2] - LEAST_D) * FILM_STEPS;
  const [c00, c01, c02, c10, c11, c12, c20, c21, c22] = plan.colour;
  const tBits = new Int32Array(t.buffer, t.byteOffset, t.length);
  const end = from + n * 3;

  for (let i = from, k = to; i < end; i += 3, k += stride) {
    let r = t[i];
    let g = t[i + 1];
    let b = t[i + 2];
    let rb = tBits[i];
    let gb = tBits[i + 1];
    let bb = tBits[i + 2];
    if (rb < LEAST_T_BITS || rb > MOST_T_BITS) {
      r = r > LEAST_T ? MOST_T : LEAST_T;
      rb = r === MOST_T ? MOST_T_BITS : LEAST_T_BITS;
    }
    if (gb < LEAST_T_BITS || gb > MOST_T_BITS) {
      g = g > LEAST_T ? MOST_T : LEAST_T;
      gb = g === MOST_T ? MOST_T_BITS : LEAST_T_BITS;
    }
    if (bb < LEAST_T_BITS || bb > MOST_T_BITS) {
      b = b > LEAST_T ? MOST_T : LEAST_T;
      bb = b === MOST_T ? MOST_T_BITS : LEAST_T_BITS;
    }
    let j = ((rb >> SHIFT) - T_FIRST) << 1;
    const dr = LOG[j] + LOG[j + 1] * r;
    j = ((gb >> SHIFT) - T_FIRST) << 1;
    const dg = LOG[j] + LOG[j + 1] * g;
    j = ((bb >> SHIFT) - T_FIRST) << 1;
    const db = LOG[j] + LOG[j + 1] * b;

    let x = u00 * dr + u01 * dg + u02 * db + o0;
    x = x > 0 ? (x < FILM_TOP ? x : FILM_TOP) : 0;
    j = (x | 0) << 1;
    const hr = filmR[j] + filmR[j + 1] * x;
    x = u10 * dr + u11 * dg + u12 * db + o1;
    x = x > 0 ? (x < FILM_TOP ? x : FILM_TOP) : 0;
    j = (x | 0) << 1;
    const hg = filmG[j] + filmG[j + 1] * x;
    x = u20 * dr + u21 * dg + u22 * db + o2;
    x = x > 0 ? (x < FILM_TOP ? x : FILM_TOP) : 0;
    j = (x | 0) << 1;
    const hb = filmB[j] + filmB[j + 1] * x;

    r = c00 * hr + c01 * hg + c02 * hb;
    g = c10 * hr + c11 * hg + c12 * hb;
    b = c20 * hr + c21 * hg + c22 * hb;
    scratch[0] = r;
    scratch[1] = g;
    scratch[2] = b;
    rb = scratchBits[0];
    gb = scratchBits[1];
    bb = scratchBits[2];
    // Negative exposures have negative bits; none is NaN here.
    if (rb < LEAST_H_BITS) {
      r = LEAST_H;
      rb = LEAST_H_BITS;
    } else if (rb > MOST_H_BITS) {
      r = MOST_H;
      rb = MOST_H_BITS;
    }
    if (gb < LEAST_H_BITS) {
      g = LEAST_H;
      gb = LEAST_H_BITS;
    } else if (gb > MOST_H_BITS) {
      g = MOST_H;
      gb = MOST_H_BITS;
    }
    if (bb < LEAST_H_BITS) {
      b = LEAST_H;
      bb = LEAST_H_BITS;
    } else if (bb > MOST_H_BITS) {
      b = MOST_H;
      bb = MOST_H_BITS;
    }
    j = ((rb >> SHIFT) - H_FIRST) << 1;
    out[k] = print[j] + print[j + 1] * r;
    j = ((gb >> SHIFT) - H_FIRST) << 1;
    out[k + 1] = print[j] + print[j + 1] * g;
    j = ((bb >> SHIFT) - H_FIRST) << 1;
    out[k + 2] = print[j] + print[j + 1] * b;
  }
}

function runOne(
  plan: Plan,
  t: Float32Array,
  out: Uint16Array | Uint8Array,
  n: number,
  from: number,
  to: number,
  scale: number,
  stride: number,
): void {
  const { film, print } = prepared(plan, scale);
  const table = film[0];
  const [w0, w1, w2] = plan.weights;
  const offset = (plan.offset[0] - LEAST_D) * FILM_STEPS;
  const end = (from + n) * 3;
  for (let i = from * 3, k = to; i < end; i += 3, k += stride) {
    let v = w0 * t[i] + w1 * t[i + 1] + w2 * t[i + 2];
    v = v > LEAST_T ? (v < MOST_T ? v : MOST_T) : LEAST_T;
    scratch[0] = v;
    let j = ((scratchBits[0] >> SHIFT) - T_FIRST) << 1;
    let x = (LOG[j] + LOG[j + 1] * v) * FILM_STEPS + offset;
    x = x > 0 ? (x < FILM_TOP ? x : FILM_TOP) : 0;
    j = (x | 0) << 1;
    v = table[j] + table[j + 1] * x;
    v = v > LEAST_H ? (v < MOST_H ? v : MOST_H) : LEAST_H;
    scratch[0] = v;
    j = ((scratchBits[0] >> SHIFT) - H_FIRST) << 1;
    out[k] = print[j] + print[j + 1] * v;
  }
}
