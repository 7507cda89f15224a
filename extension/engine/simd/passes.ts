import type { Kernel } from "../kernel.ts";
import { columnModule, rowModule, widenModule } from "./kernels.ts";

/** Both passes for three channels, on rows that live in one WebAssembly memory. */
export interface SimdPasses {
  /** The source row to fill before `row`; its pixel 0 is source pixel `-before`. Refetched after every allocation. */
  readonly source: Uint16Array;
  /** The finished row of the column pass. */
  readonly target: Uint16Array;
  /** Resamples `source` into a buffered row: pixel u around source position start + u · step, counted in `source`. */
  row(slot: number, start: number, step: number): void;
  /** Sums buffered rows into columns from … end − 1 of `target`; position within the rows is start + u · slope. */
  columns(slots: ArrayLike<number>, from: number, end: number, start: number, slope: number): void;
}

const PAGE = 65536;
let memory: WebAssembly.Memory | undefined;
const made = new Map<string, (...numbers: number[]) => void>();

/** Lays out the memory for one picture: tables, source row, target row and `slots` buffered rows. */
export function simdPasses(
  across: Kernel,
  down: Kernel,
  sourceWidth: number,
  width: number,
  slots: number,
): SimdPasses {
  let used = 16;
  const take = (bytes: number): number => {
    const at = used;
    used = (used + bytes + 31) & ~15;
    return at;
  };
  const acrossAt = take(across.weights.byteLength);
  const downAt = take(down.weights.byteLength);
  const sourceAt = take((sourceWidth + 2) * 6);
  const wideAt = take((sourceWidth + 2) * 12);
  const targetAt = take((width + 1) * 6);
  const listAt = take(down.taps * 4);
  const rowBytes = (width + 1) * 12;
  const rowsAt = take(rowBytes * slots);
  const room = reserve(used);
  new Float32Array(room.buffer, acrossAt, across.weights.length).set(across.weights);
  new Float32Array(room.buffer, downAt, down.weights.length).set(down.weights);
  const list = new Int32Array(room.buffer, listAt, down.taps);
  const widen = compiled("widen", widenModule, room);
  const runRow = compiled(`row ${across.taps} ${across.first}`, () => rowModule(across.taps, across.first), room);
  const runColumns = compiled(`column ${down.taps}`, () => columnModule(down.taps), room);
  return {
    source: new Uint16Array(room.buffer, sourceAt, sourceWidth * 3),
    target: new Uint16Array(room.buffer, targetAt, width * 3),
    row(slot, start, step) {
      const to = rowsAt + slot * rowBytes;
      widen(sourceAt, wideAt, wideAt + sourceWidth * 12);
      runRow(wideAt, to, to + width * 12, start, step, acrossAt);
    },
    columns(rows, from, end, start, slope) {
      for (let t = 0; t < list.length; t++) list[t] = rowsAt + rows[t] * rowBytes;
      runColumns(listAt, targetAt, from, end, start, slope, downAt);
    },
  };
}

/** One memory a thread, grown when a picture needs more and kept for the next. */
function reserve(bytes: number): WebAssembly.Memory {
  const pages = Math.ceil(bytes / PAGE);
  memory ??= new WebAssembly.Memory({ initial: pages });
  const missing = pages - memory.buffer.byteLength / PAGE;
  if (missing > 0) memory.grow(missing);
  return memory;
}

function compiled(key: string, bytes: () => Uint8Array, room: WebAssembly.Memory): (...numbers: number[]) => void {
  const known = made.get(key);
  if (known) return known;
  const module = new WebAssembly.Module(bytes() as Uint8Array<ArrayBuffer>);
  const instance = new WebAssembly.Instance(module, { host: { memory: room } });
  const run = instance.exports.run as (...numbers: number[]) => void;
  made.set(key, run);
  return run;
}
