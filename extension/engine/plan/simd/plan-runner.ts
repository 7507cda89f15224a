/** Runs a plan of three channels on WebAssembly's vectors: the same tables as run.ts, in 32-bit floats. */
import { MIN_D } from "../../film/look-steps.ts";
import { FILM_STEPS } from "../table-axes.ts";
import type { Plan } from "../compile.ts";
import { LOG } from "../segments.ts";
import { planModule } from "./plan-kernel.ts";
import { FILM_BYTES, fillPairs, fillPlan, isTinted, PRINT_BYTES, printOffsets, TABLE_AXES } from "./tables.ts";

/** Pixels that are copied in, run and copied out at a time: small enough to stay in the processor's first cache. */
const CHUNK = 1024;
/** Plans that are kept ready, one to an output space: a picture's outputs may be run in turns, row by row. */
const SLOTS = 4;

const LOG_AT = 0;
const SLOTS_AT = LOG_AT + LOG.intercept.length * 8;
/** Within a slot. */
const FILM_AT = 128;
const PRINT_AT = FILM_AT + 3 * FILM_BYTES;
const SLOT_BYTES = Math.ceil((PRINT_AT + 3 * PRINT_BYTES) / 16) * 16;
const SOURCE_AT = SLOTS_AT + SLOTS * SLOT_BYTES;
const TARGET_AT = SOURCE_AT + CHUNK * 12 + 16;
const PAGES = Math.ceil((TARGET_AT + CHUNK * 6 + 16) / 65536);

/** One memory a thread, with a compiled kernel for each slot in use and the plan that it holds; latest use last. */
interface Vectors {
  readonly memory: WebAssembly.Memory;
  readonly slots: { readonly at: number; readonly run: Kernel; plan: Plan }[];
}
type Kernel = (source: number, target: number, end: number) => void;

/** undefined: not tried yet; null: this place has no WebAssembly with vectors, or forbids it. */
let vectors: Vectors | null | undefined;

/**
 * Runs `n` pixels of a plan of three channels, from sample `from` of `t` to sample `to` of `out`.
 * @returns false, with nothing done, where WebAssembly's vectors are missing or forbidden
 */
export function runOnVectors(
  plan: Plan,
  t: Float32Array,
  out: Uint16Array,
  n: number,
  from: number,
  to: number,
): boolean {
  if (vectors === undefined) vectors = opened(plan);
  if (vectors === null) return false;
  const run = slotOf(vectors, plan).run;
  const source = new Float32Array(vectors.memory.buffer, SOURCE_AT, CHUNK * 3);
  const target = new Uint16Array(vectors.memory.buffer, TARGET_AT, CHUNK * 3);
  for (let done = 0; done < n; done += CHUNK) {
    const now = Math.min(CHUNK, n - done);
    source.set(t.subarray(from + 3 * done, from + 3 * (done + now)));
    run(SOURCE_AT, TARGET_AT, SOURCE_AT + now * 12);
    out.set(now === CHUNK ? target : target.subarray(0, 3 * now), to + 3 * done);
  }
  return true;
}

function opened(plan: Plan): Vectors | null {
  try {
    const memory = new WebAssembly.Memory({ initial: PAGES });
    fillPairs(memory, LOG_AT, LOG, 0, 0, LOG.intercept.length);
    return { memory, slots: [newSlot(memory, SLOTS_AT, plan)] };
  } catch {
    return null;
  }
}

function slotOf(vectors: Vectors, plan: Plan): Vectors["slots"][number] {
  const { memory, slots } = vectors;
  const last = slots[slots.length - 1];
  if (last.plan === plan) return last;
  const known = slots.findIndex((slot) => slot.plan === plan);
  if (known < 0 && slots.length < SLOTS) slots.push(newSlot(memory, SLOTS_AT + slots.length * SLOT_BYTES, plan));
  else {
    const [slot] = slots.splice(Math.max(known, 0), 1);
    // A kernel knows where its print tables lie: one for all channels, or one each.
    if (isTinted(slot.plan) !== isTinted(plan)) slots.push(newSlot(memory, slot.at, plan));
    else {
      if (known < 0) fillSlot(memory, slot.at, plan);
      slot.plan = plan;
      slots.push(slot);
    }
  }
  return slots[slots.length - 1];
}

function newSlot(memory: WebAssembly.Memory, at: number, plan: Plan): Vectors["slots"][number] {
  const bytes = planModule({
    constants: at,
    log: LOG_AT,
    film: filmAt(at),
    print: printOffsets(at + PRINT_AT, isTinted(plan)),
    ...TABLE_AXES,
  });
  const module = new WebAssembly.Module(bytes as Uint8Array<ArrayBuffer>);
  const instance = new WebAssembly.Instance(module, { host: { memory } });
  fillSlot(memory, at, plan);
  return { at, run: instance.exports.run as Kernel, plan };
}

const filmAt = (slot: number): [number, number, number] => {
  const film = slot + FILM_AT;
  return [film, film + FILM_BYTES, film + 2 * FILM_BYTES];
};

function fillSlot(memory: WebAssembly.Memory, at: number, plan: Plan): void {
  fillConstants(new Float32Array(memory.buffer, at, 28), plan);
  fillPlan(memory, { film: filmAt(at), print: printOffsets(at + PRINT_AT, isTinted(plan)) }, plan, 65535);
}

/** Matrix columns and offset; the film table's axis, in steps less a half, is folded into the first. */
function fillConstants(out: Float32Array, plan: Plan): void {
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      out[4 * column + row] = plan.unmix[3 * row + column] * FILM_STEPS;
      out[16 + 4 * column + row] = plan.colour[3 * row + column];
    }
    out[12 + row] = (plan.offset[row] - MIN_D) * FILM_STEPS - 0.5;
  }
}
