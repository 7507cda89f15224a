/** The two passes of a resampling on WebAssembly's vectors. */
import { type Kernel, PHASES } from "../lanczos.ts";
import { columnModule, rowModule, steadyRowModule, widenModule } from "./resample-kernels.ts";
import { enterArena, Allocator } from "../../wasm/memory-pool.ts";

/** Both passes, on rows that live in one WebAssembly memory. */
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

/** Positions are kept as whole numbers, 2^32 to the pixel; so many of them to a phase. */
const ONE = 2 ** 32;
const PHASE = ONE / PHASES;
/** Pixels that must lie at one phase for the steady kernel to be worth its call. */
const STEADY = 16;
/** Samples that kernels may touch beyond a row's end. */
const SLACK = 4;

/** Lays out the memory for one picture: tables, source row, target row and `slots` buffered rows. */
export function simdPasses(
  channels: 1 | 3,
  across: Kernel,
  down: Kernel,
  sourceWidth: number,
  width: number,
  slots: number,
): SimdPasses {
  const places = new Allocator();
  const acrossAt = places.take(across.weights.byteLength);
  const downAt = places.take(down.weights.byteLength);
  const sourceAt = places.take((sourceWidth * channels + SLACK) * 2);
  const wideAt = places.take((sourceWidth * channels + SLACK) * 4);
  const targetAt = places.take((width * channels + SLACK) * 2);
  const listAt = places.take(down.taps * 4);
  const pixel = channels * 4;
  const rowBytes = width * pixel + SLACK * 4;
  const rowsAt = places.take(rowBytes * slots);
  const arena = enterArena(places.end);
  const { buffer } = arena.memory;
  new Float32Array(buffer, acrossAt, across.weights.length).set(across.weights);
  new Float32Array(buffer, downAt, down.weights.length).set(down.weights);
  const list = new Int32Array(buffer, listAt, down.taps);
  const widen = arena.kernel("widen", widenModule);
  const { taps, first } = across;
  const runRow = arena.kernel(`row ${taps} ${channels}`, () => rowModule(taps, first, channels));
  const runSteady = arena.kernel(`steady ${taps} ${channels}`, () => steadyRowModule(taps, channels));
  const runColumns = arena.kernel(`column ${down.taps} ${channels}`, () => columnModule(down.taps, channels));

  /** Runs of pixels at one phase, for steps so near to 1 that they are long. */
  function steadyRow(to: number, start: number, step: number): void {
    const drift = Math.trunc(step * ONE) - ONE;
    for (let u = 0, x = Math.trunc((start + 0.5 / PHASES) * ONE); u < width;) {
      const phase = Math.floor(x / PHASE);
      const left = drift < 0 ? x - phase * PHASE + 1 : (phase + 1) * PHASE - x;
      const count = drift === 0 ? width - u : Math.min(width - u, Math.ceil(left / Math.abs(drift)));
      const from = wideAt + (Math.floor(phase / PHASES) + first) * pixel;
      const at = to + u * pixel;
      runSteady(from, at, at + count * pixel, acrossAt + (phase & (PHASES - 1)) * taps * 4);
      u += count;
      x += count * (ONE + drift);
    }
  }

  return {
    source: new Uint16Array(buffer, sourceAt, sourceWidth * channels),
    target: new Uint16Array(buffer, targetAt, width * channels),
    row(slot, start, step) {
      const to = rowsAt + slot * rowBytes;
      widen(sourceAt, wideAt, wideAt + sourceWidth * pixel);
      if (Math.abs(step - 1) * STEADY < 1 / PHASES) steadyRow(to, start, step);
      else runRow(wideAt, to, to + width * pixel, start, step, acrossAt);
    },
    columns(rows, from, end, start, slope) {
      for (let t = 0; t < list.length; t++) list[t] = rowsAt + rows[t] * rowBytes;
      runColumns(listAt, targetAt, from, end, start, slope, downAt);
    },
    release: () => arena.release(),
  };
}
