/** Rows of a frame from samples to finished pictures on WebAssembly's vectors, for all its outputs at once. */
import { MIN_D } from "../../film/look-steps.ts";
import { FILM_STEPS } from "../table-axes.ts";
import type { Plan } from "../compile.ts";
import { LOG } from "../segments.ts";
import { CONSTANTS, FRAME_STEP, frameModule } from "./frame-kernel.ts";
import {
  FILM_BYTES,
  fillPairs,
  fillPlan,
  isTinted,
  PRINT_BYTES,
  type PrintOffsets,
  printOffsets,
  TABLE_AXES,
} from "./tables.ts";

/** A row's way from samples to finished pixels. All arrays hold three channels, interleaved. */
export interface FrameRunner {
  /** Fill before `run`: the row's samples, and gains = start + at · slope. */
  readonly samples: Uint16Array;
  readonly start: Float32Array;
  readonly slope: Float32Array;
  /** One finished row for each plan. */
  readonly targets: readonly Uint16Array[];
  /** T = (sample − black) · gain − offset, then every plan, over the first `count` pixels. */
  run(count: number, black: number, at: number, offset: readonly number[]): void;
}

const CONSTANT_BYTES = CONSTANTS.count * 4;

type Kernel = (...addresses: number[]) => void;
/**
 * Compiled kernels by their number of outputs, and whether channels have print tables of their own; their memory lays
 * the tables out first, so addresses never change.
 */
const compiled = new Map<string, { memory: WebAssembly.Memory; run: Kernel; layout: Layout }>();

interface Layout {
  readonly constants: number;
  readonly scratch: number;
  readonly log: number;
  readonly film: readonly [number, number, number];
  readonly outputs: readonly { readonly colour: number; readonly print: PrintOffsets }[];
  /** First byte behind the tables. */
  readonly rows: number;
}

/**
 * @param plans of one look: they differ in their output space alone; three channels each.
 * @param width most pixels of a row.
 */
export function openFrameRunner(plans: readonly Plan[], width: number): FrameRunner {
  const tinted = isTinted(plans[0]);
  const name = `${plans.length} ${tinted}`;
  const kernel = compiled.get(name) ?? compile(plans.length, tinted);
  compiled.set(name, kernel);
  const { memory, layout, run } = kernel;
  let used = layout.rows;
  const take = (bytes: number): number => {
    const at = used;
    used = (used + bytes + 31) & ~15;
    return at;
  };
  const capacity = width + FRAME_STEP;
  const samplesAt = take(capacity * 6);
  const startAt = take(capacity * 12);
  const slopeAt = take(capacity * 12);
  const targetsAt = plans.map(() => take(capacity * 6));
  const missing = Math.ceil(used / 65536) - memory.buffer.byteLength / 65536;
  if (missing > 0) memory.grow(missing);
  fillTables(memory, layout, plans);
  const constants = new Float32Array(memory.buffer, layout.constants, CONSTANTS.count);
  return {
    samples: new Uint16Array(memory.buffer, samplesAt, width * 3),
    start: new Float32Array(memory.buffer, startAt, width * 3),
    slope: new Float32Array(memory.buffer, slopeAt, width * 3),
    targets: targetsAt.map((at) => new Uint16Array(memory.buffer, at, width * 3)),
    run(count, black, at, offset) {
      constants[CONSTANTS.black] = black;
      constants[CONSTANTS.place] = at;
      for (let k = 0; k < 12; k++) constants[CONSTANTS.offset + k] = offset[k % 3];
      run(samplesAt, startAt, slopeAt, startAt + count * 12, ...targetsAt);
    },
  };
}

function compile(outputs: number, tinted: boolean): { memory: WebAssembly.Memory; run: Kernel; layout: Layout } {
  let used = 0;
  const take = (bytes: number): number => {
    const at = used;
    used = (used + bytes + 15) & ~15;
    return at;
  };
  const layout = {
    constants: take(CONSTANT_BYTES),
    scratch: take(48),
    log: take(LOG.intercept.length * 8),
    film: [take(FILM_BYTES), take(FILM_BYTES), take(FILM_BYTES)] as const,
    outputs: Array.from({ length: outputs }, () => ({
      colour: take(36),
      print: printOffsets(take(PRINT_BYTES * (tinted ? 3 : 1)), tinted),
    })),
    rows: 0,
  };
  layout.rows = used;
  const memory = new WebAssembly.Memory({ initial: Math.ceil(used / 65536) });
  const bytes = frameModule({ ...layout, ...TABLE_AXES });
  const module = new WebAssembly.Module(bytes as Uint8Array<ArrayBuffer>);
  const instance = new WebAssembly.Instance(module, { host: { memory } });
  fillPairs(memory, layout.log, LOG, 0, 0, LOG.intercept.length);
  return { memory, run: instance.exports.run as Kernel, layout };
}

/** Matrices, with the film table's axis (steps less a half) folded into the first, and the plans' tables. */
function fillTables(memory: WebAssembly.Memory, layout: Layout, plans: readonly Plan[]): void {
  const [plan] = plans;
  const constants = new Float32Array(memory.buffer, layout.constants, CONSTANTS.count);
  plan.unmix.forEach((v, k) => (constants[CONSTANTS.unmix + k] = v * FILM_STEPS));
  plan.offset.forEach((d, c) => (constants[CONSTANTS.shift + c] = (d - MIN_D) * FILM_STEPS - 0.5));
  plans.forEach((p, k) => {
    const { colour, print } = layout.outputs[k];
    new Float32Array(memory.buffer, colour, 9).set(p.colour);
    fillPlan(memory, { film: k === 0 ? layout.film : undefined, print }, p, 65535);
  });
}
