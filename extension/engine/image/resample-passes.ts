/** The two passes of a resampling, across and down, without vectors. */
import type { Kernel } from "./lanczos.ts";
import { simdPasses } from "./simd/resample-passes.ts";

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
export function makePasses(
  channels: 1 | 3,
  { width, count, border, slots }: { width: number; count: number; border: number; slots: number },
  across: Kernel,
  down: Kernel,
  target: Uint16Array,
): Passes {
  const simd = simdPasses(channels, across, down, count + 2 * border, width, slots);
  const source = simd.source.subarray(border * channels, (border + count) * channels);
  const list = new Int32Array(down.taps);
  return {
    source,
    row(slot, start, step) {
      repeatEnds(simd.source, border, count, channels);
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
}

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
