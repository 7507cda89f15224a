import type { Kernel } from "../kernel.ts";
import { columnModule, rowModule, widenModule } from "./kernels.ts";
import { enterRoom, Places } from "./room.ts";

/** Both passes for three channels, on rows that live in one WebAssembly memory. */
export interface SimdPasses {
  /** The source row to fill before `row`; its beyond its ends lies what the caller puts there. */
  readonly source: Uint16Array;
  /** The finished row of the column pass. */
  readonly target: Uint16Array;
  /** Resamples `source` into a buffered row: pixel u around source position start + u · step, counted in `source`. */
  row(slot: number, start: number, step: number): void;
  /** Sums buffered rows into columns from … end − 1 of `target`; position within the rows is start + u · slope. */
  columns(slots: ArrayLike<number>, from: number, end: number, start: number, slope: number): void;
  /** Frees the memory for another picture; nothing here may be used any more. */
  release(): void;
}

/** Lays out the memory for one picture: tables, source row, target row and `slots` buffered rows. */
export function simdPasses(
  across: Kernel,
  down: Kernel,
  sourceWidth: number,
  width: number,
  slots: number,
): SimdPasses {
  const places = new Places();
  const take = (bytes: number): number => places.take(bytes);
  const acrossAt = take(across.weights.byteLength);
  const downAt = take(down.weights.byteLength);
  const sourceAt = take((sourceWidth + 2) * 6);
  const wideAt = take((sourceWidth + 2) * 12);
  const targetAt = take((width + 1) * 6);
  const listAt = take(down.taps * 4);
  const rowBytes = (width + 1) * 12;
  const rowsAt = take(rowBytes * slots);
  const room = enterRoom(places.end);
  const { buffer } = room.memory;
  new Float32Array(buffer, acrossAt, across.weights.length).set(across.weights);
  new Float32Array(buffer, downAt, down.weights.length).set(down.weights);
  const list = new Int32Array(buffer, listAt, down.taps);
  const widen = room.kernel("widen", widenModule);
  const runRow = room.kernel(`row ${across.taps}`, () => rowModule(across.taps, across.first));
  const runColumns = room.kernel(`column ${down.taps}`, () => columnModule(down.taps));
  return {
    source: new Uint16Array(buffer, sourceAt, sourceWidth * 3),
    target: new Uint16Array(buffer, targetAt, width * 3),
    row(slot, start, step) {
      const to = rowsAt + slot * rowBytes;
      widen(sourceAt, wideAt, wideAt + sourceWidth * 12);
      runRow(wideAt, to, to + width * 12, start, step, acrossAt);
    },
    columns(rows, from, end, start, slope) {
      for (let t = 0; t < list.length; t++) list[t] = rowsAt + rows[t] * rowBytes;
      runColumns(listAt, targetAt, from, end, start, slope, downAt);
    },
    release: () => room.release(),
  };
}
