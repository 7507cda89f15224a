/** Grey closing: what a picture would be without its small dark blobs. */
import { extremesModule } from "./simd/extremes-kernel.ts";
import { enterArena, type Pass, Allocator } from "../wasm/memory-pool.ts";

/**
 * Closing by a square of 2·reach + 1 pixels, written over the plane: the greatest value around each pixel, then the
 * least of those.
 */
export function closeInPlace(plane: Uint16Array, width: number, height: number, reach: number): void {
  for (const isMaximum of [true, false]) extremes(plane, width, height, reach, isMaximum);
}

/** A row in a kernel's memory. */
interface Row {
  readonly at: number;
  readonly end: number;
  readonly values: Uint16Array;
}

/**
 * Extremes over a square, in place: along each row by windows that double, then down the columns by van Herk's and Gil
 * and Werman's running extremes. All are extremes of two rows, which vectors do eight pixels at a time.
 */
function extremes(data: Uint16Array, width: number, height: number, reach: number, isMaximum: boolean): void {
  const size = 2 * reach + 1;
  const places = new Allocator();
  const take = (count: number) => ({ at: places.take(2 * count), count });
  const [padded, run, result] = [take(width + 2 * reach), take(width), take(width)];
  const slots = Array.from({ length: 2 * size }, () => take(width));
  const arena = enterArena(places.end);
  const rowAt = ({ at, count }: ReturnType<typeof take>): Row => ({
    at,
    end: at + 2 * count,
    values: new Uint16Array(arena.memory.buffer, at, count),
  });
  const pass = arena.kernel(isMaximum ? "greater" : "lower", () => extremesModule(isMaximum));
  const along = alongRows(pass, rowAt(padded), reach, isMaximum ? 0 : 65535);
  columns(
    { data, width, height, size },
    { pass, run: rowAt(run), result: rowAt(result), slots: slots.map(rowAt) },
    (y, slot) => along(y < 0 || y >= height ? undefined : data.subarray(y * width, (y + 1) * width), slot),
  );
  arena.release();
}

/** Makes the extremes along a row, nothing lying beyond its ends; of no row, what is no extreme of anything. */
function alongRows(pass: Pass, padded: Row, reach: number, filler: number) {
  const size = 2 * reach + 1;
  return (source: Uint16Array | undefined, target: Row): void => {
    if (!source) {
      target.values.fill(filler);
      return;
    }
    padded.values.fill(filler, 0, reach);
    padded.values.set(source, reach);
    padded.values.fill(filler, reach + source.length);
    let window = 1;
    for (; 2 * window <= size; window *= 2) pass(padded.at, padded.at + 2 * window, padded.at, padded.end);
    pass(padded.at, padded.at + 2 * (size - window), target.at, target.end);
  };
}

interface ColumnRows {
  readonly pass: Pass;
  readonly run: Row;
  readonly result: Row;
  /** Two blocks of as many rows as the square is high. */
  readonly slots: readonly Row[];
}

/** Extremes down the columns of the rows that `along` makes: a row of the data is read before it is written. */
function columns(
  { data, width, height, size }: { data: Uint16Array; width: number; height: number; size: number },
  { pass, run, result, slots }: ColumnRows,
  along: (y: number, slot: Row) => void,
): void {
  const reach = (size - 1) / 2;
  let [block, next] = [slots.slice(0, size), slots.slice(size)];
  for (const [i, slot] of block.entries()) along(i - reach, slot);
  for (let top = 0; top < height; top += size) {
    for (let i = size - 2; i >= 0; i--) pass(block[i].at, block[i + 1].at, block[i].at, block[i].end);
    for (let i = 0; i < size; i++) {
      const y = top + i;
      // The window that begins in this block's row i ends in row i − 1 of the next one.
      if (i > 0) pass(block[i].at, run.at, result.at, result.end);
      if (y < height) data.set((i > 0 ? result : block[0]).values, y * width);
      along(y + reach + 1, next[i]);
      if (i > 0) pass(run.at, next[i].at, run.at, run.end);
      else run.values.set(next[0].values);
    }
    [block, next] = [next, block];
  }
}
