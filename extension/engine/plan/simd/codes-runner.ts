/** Runs a plan of three channels over log codes on WebAssembly's vectors, into 8-bit RGBA. */
import { MIN_D } from "../../film/look-steps.ts";
import { CODE_DENSITY, CODE_STEP } from "../log-code.ts";
import { FILM_STEPS } from "../table-axes.ts";
import type { Plan } from "../compile.ts";
import { CODES_STEP, codesModule } from "./codes-kernel.ts";
import { Allocator } from "../../wasm/memory-pool.ts";
import { FILM_BYTES, fillPlan, isTinted, PRINT_BYTES, printOffsets, TABLE_AXES } from "./tables.ts";

/** Pixels that are copied in, run and copied out at a time: small enough to stay in the processor's first cache. */
const CHUNK = 1024;

interface Vectors {
  readonly memory: WebAssembly.Memory;
  /** Compiled when first needed: with one print table for all channels, and with one each. */
  readonly kernels: Map<boolean, Kernel>;
  plan?: Plan;
}
type Kernel = (codes: number, pixels: number, end: number) => void;

const places = new Allocator();
const AT = {
  scratch: places.take(48),
  unmix: places.take(36),
  offset: places.take(12),
  colour: places.take(36),
  film: [places.take(FILM_BYTES), places.take(FILM_BYTES), places.take(FILM_BYTES)] as const,
  print: places.take(3 * PRINT_BYTES),
  codes: places.take((CHUNK + CODES_STEP) * 6),
  pixels: places.take((CHUNK + CODES_STEP) * 4),
} as const;

/** undefined: not tried yet; null: this place has no WebAssembly with vectors, or forbids it. */
let vectors: Vectors | null | undefined;

/**
 * Runs `n` pixels of a plan of three channels, from code `from` to byte `to`.
 * @returns false, with nothing done, where WebAssembly's vectors are missing or forbidden
 */
export function runCodesOnVectors(
  plan: Plan,
  codes: Uint16Array,
  out: Uint8ClampedArray,
  n: number,
  from: number,
  to: number,
): boolean {
  if (vectors === undefined) vectors = opened();
  if (vectors === null) return false;
  const { memory } = vectors;
  const run = kernelOf(vectors, isTinted(plan));
  if (vectors.plan !== plan) fill(memory, plan);
  vectors.plan = plan;
  const source = new Uint16Array(memory.buffer, AT.codes, CHUNK * 3);
  const target = new Uint8Array(memory.buffer, AT.pixels, CHUNK * 4);
  for (let done = 0; done < n; done += CHUNK) {
    const now = Math.min(CHUNK, n - done);
    source.set(codes.subarray(from + 3 * done, from + 3 * (done + now)));
    run(AT.codes, AT.pixels, AT.codes + now * 6);
    out.set(now === CHUNK ? target : target.subarray(0, 4 * now), to + 4 * done);
  }
  return true;
}

function opened(): Vectors | null {
  try {
    const memory = new WebAssembly.Memory({ initial: Math.ceil(places.end / 65536) });
    const vectors = { memory, kernels: new Map<boolean, Kernel>() };
    kernelOf(vectors, false);
    return vectors;
  } catch {
    return null;
  }
}

function kernelOf({ memory, kernels }: Vectors, tinted: boolean): Kernel {
  const known = kernels.get(tinted);
  if (known) return known;
  const bytes = codesModule({ ...AT, ...TABLE_AXES, print: printOffsets(AT.print, tinted) });
  const module = new WebAssembly.Module(bytes as Uint8Array<ArrayBuffer>);
  const kernel = new WebAssembly.Instance(module, { host: { memory } }).exports.run as Kernel;
  kernels.set(tinted, kernel);
  return kernel;
}

/** Density is CODE_DENSITY − code · CODE_STEP: that and the film table's axis, in steps less a half, go into the matrix. */
function fill(memory: WebAssembly.Memory, plan: Plan): void {
  const unmix = new Float32Array(memory.buffer, AT.unmix, 9);
  const offset = new Float32Array(memory.buffer, AT.offset, 3);
  for (let row = 0; row < 3; row++) {
    const mix = plan.unmix.slice(3 * row, 3 * row + 3);
    mix.forEach((v, c) => (unmix[3 * row + c] = -v * CODE_STEP * FILM_STEPS));
    const atZero = plan.offset[row] + mix.reduce((sum, v) => sum + v, 0) * CODE_DENSITY;
    offset[row] = (atZero - MIN_D) * FILM_STEPS - 0.5;
  }
  new Float32Array(memory.buffer, AT.colour, 9).set(plan.colour);
  fillPlan(memory, { film: AT.film, print: printOffsets(AT.print, isTinted(plan)) }, plan, 255);
}
