import { type Kernel, PHASES } from "./kernel.ts";
import { simdPasses } from "./simd/passes.ts";

/** The two passes of a resampling. Rows go through `source` into slots; output rows come out of slots into `target`. */
export interface Passes {
  /** Samples of one scan row, to be filled before `row`. */
  readonly source: Uint16Array;
  /** Resamples `source` into a slot: output column u lies at source position start + u · step (0: first sample's middle). */
  row(slot: number, start: number, step: number): void;
  /** Makes an output row out of the slots that `slotOf` gives for scan rows: column u lies at row start + u · slope. */
  columns(slotOf: (y: number) => number, start: number, slope: number): void;
  /** Gives the memory back, for the next picture. */
  release(): void;
}

/**
 * @param width pixels of an output row.
 * @param count pixels of a source row.
 * @param border how far, in pixels, positions may lie beyond the source row's ends; its end samples repeat there.
 * @param slots buffered rows.
 * @param target receives each finished row.
 */
export type PassMaker = (
  width: number,
  count: number,
  border: number,
  slots: number,
  across: Kernel,
  down: Kernel,
  target: Uint16Array,
) => Passes;

/** Three channels, in SIMD. */
export const colourPasses: PassMaker = (width, count, border, slots, across, down, target) => {
  const simd = simdPasses(across, down, count + 2 * border, width, slots);
  const source = simd.source.subarray(border * 3, (border + count) * 3);
  const list = new Int32Array(down.taps);
  return {
    source,
    row(slot, start, step) {
      repeatEnds(simd.source, border, count, 3);
      simd.row(slot, start + border, step);
    },
    columns(slotOf, start, slope) {
      eachRun(width, start, slope, (from, end, node) => {
        for (let t = 0; t < list.length; t++) list[t] = slotOf(node + down.first + t);
        simd.columns(list, from, end, start - node, slope);
      });
      target.set(simd.target);
    },
    release: () => simd.release(),
  };
};

/** One channel, in plain loops. */
export const greyPasses: PassMaker = (width, count, border, slots, across, down, target) => {
  const whole = new Uint16Array(count + 2 * border);
  const row = new Float32Array(whole.length);
  const rows = Array.from({ length: slots }, () => new Float32Array(width));
  return {
    source: whole.subarray(border, border + count),
    row(slot, start, step) {
      repeatEnds(whole, border, count, 1);
      row.set(whole);
      greyRow(row, rows[slot], start + border, step, across);
    },
    columns(slotOf, start, slope) {
      eachRun(width, start, slope, (from, end, node) => {
        const taken = Array.from({ length: down.taps }, (_, t) => rows[slotOf(node + down.first + t)]);
        greyColumns(taken, target, from, end, start - node, slope, down);
      });
    },
    release() {},
  };
};

function repeatEnds(row: Uint16Array, border: number, count: number, channels: number): void {
  const first = border * channels;
  const end = (border + count) * channels;
  for (let i = first - 1; i >= 0; i--) row[i] = row[i + channels];
  for (let i = end; i < row.length; i++) row[i] = row[i - channels];
}

/** Splits columns 0 … width − 1 into runs whose positions start + u · slope lie between the same two rows. */
function eachRun(
  width: number,
  start: number,
  slope: number,
  use: (from: number, end: number, node: number) => void,
): void {
  let from = 0;
  while (from < width) {
    const node = Math.floor(start + from * slope);
    let end = width;
    if (slope !== 0) {
      const edge = slope > 0 ? node + 1 : node;
      end = Math.min(width, Math.max(from + 1, Math.ceil((edge - start) / slope)));
      // Rounding may have put the last column on the other side.
      while (end > from + 1 && Math.floor(start + (end - 1) * slope) !== node) end--;
    }
    use(from, end, node);
    from = end;
  }
}

function greyRow(row: Float32Array, to: Float32Array, start: number, step: number, kernel: Kernel): void {
  const { weights: w, taps, first } = kernel;
  for (let u = 0; u < to.length; u++) {
    const x = start + u * step;
    const node = Math.floor(x);
    const k = (((x - node) * PHASES + 0.5) | 0) * taps;
    let sum = 0;
    for (let t = 0, i = node + first; t < taps; t++, i++) sum += w[k + t] * row[i];
    to[u] = sum;
  }
}

function greyColumns(
  rows: Float32Array[],
  to: Uint16Array,
  from: number,
  end: number,
  start: number,
  slope: number,
  kernel: Kernel,
): void {
  const { weights: w, taps } = kernel;
  for (let u = from; u < end; u++) {
    const k = (((start + u * slope) * PHASES + 0.5) | 0) * taps;
    let sum = 0.5;
    for (let t = 0; t < taps; t++) sum += w[k + t] * rows[t][u];
    // Lanczos' negative lobes can overshoot.
    to[u] = sum <= 0 ? 0 : sum >= 65535 ? 65535 : sum;
  }
}
