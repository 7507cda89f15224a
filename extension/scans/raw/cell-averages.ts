/** Averages over the cells of a 2 × 2 mosaic, by vectors. */
import { type Code, get, i32, lanes, moduleOf, repeat, set } from "../../engine/wasm/assembler.ts";
import { interleave } from "../../engine/plan/simd/interleave.ts";
import { enterArena, Allocator } from "../../engine/wasm/memory-pool.ts";
import { levelsOf, type Mosaic, within } from "./mosaic.ts";

/** A neighbour of a cell's top left site, and its share of one colour of the cell. */
export interface Tap {
  readonly dy: number;
  readonly dx: number;
  readonly weight: number;
}

/** Rows that neighbours lie in, from one above the cell to one below it, and their places in memory. */
const [ABOVE, ROWS] = [1, 4];
/** Room in samples before a row, and behind it: neighbours outside the picture, and a vector's overhang. */
const [BEFORE, BEHIND] = [8, 16];
/** Cells that go through at a time. */
const STEP = 4;

/**
 * Writes every cell's colours, interleaved: the weighted sums of its neighbours, which lie at most one site outside it.
 * Weights are sixteenths or so, so that sums of 16-bit numbers are exact in the 32-bit floats they are made in.
 *
 * @param taps of red, green and blue
 * @param offsets added to red, green and blue before they are cut to whole numbers
 */
export function averageCells(
  mosaic: Mosaic,
  out: Uint16Array,
  taps: readonly (readonly Tap[])[],
  offsets: readonly number[],
): void {
  const { width, height, stride, left, top, period, data } = mosaic;
  const { gain } = levelsOf(mosaic);
  const [cells, lines] = [width >> 1, height >> 1];
  const places = new Allocator();
  const rowAt = Array.from({ length: ROWS }, () => places.take(2 * (BEFORE + width + BEHIND)) + 2 * BEFORE);
  const targetAt = places.take(6 * (cells + STEP));
  const arena = enterArena(places.end);
  const { buffer } = arena.memory;
  const rows = rowAt.map((at) => new Uint16Array(buffer, at, width + 1));
  const beforeRows = rowAt.map((at) => new Uint16Array(buffer, at - 2, 1));
  const target = new Uint16Array(buffer, targetAt, cells * 3);
  const sums = taps.map((list, c) => ({
    taps: list.map((t) => ({ ...t, weight: t.weight * gain })),
    offset: offsets[c],
  }));
  const pass = arena.kernel(`cells ${JSON.stringify(sums)}`, () => cellsModule(sums));

  /** Puts a row of the mosaic at its place, with a site more on each side. */
  const load = (y: number): void => {
    const slot = (y + ROWS) % ROWS;
    const from = (top + within(y, height, period)) * stride + left;
    rows[slot].set(data.subarray(from, from + width));
    beforeRows[slot][0] = data[from + within(-1, width, period)];
    rows[slot][width] = data[from + within(width, width, period)];
  };
  load(-1);
  load(0);
  for (let line = 0; line < lines; line++) {
    const y = 2 * line;
    load(y + 1);
    load(y + 2);
    const around = Array.from({ length: ROWS }, (_, k) => rowAt[(y - ABOVE + k + ROWS) % ROWS]);
    pass(...around, targetAt, targetAt + 6 * cells);
    out.set(target, line * cells * 3);
  }
  arena.release();
}

interface WeightedSum {
  readonly taps: readonly Tap[];
  readonly offset: number;
}

/** Addresses: the cells' first site in the four rows, the target, the target's end. */
function cellsModule(sums: readonly WeightedSum[]): Uint8Array {
  const [target, end] = [ROWS, ROWS + 1];
  const [r, g, b, low, high] = [0, 1, 2, 3, 4].map((k) => ROWS + 2 + k);
  // Every other sample of eight: the low halves of four 32-bit numbers.
  const everyOther = ({ dy, dx }: Tap): Code => {
    const address = i32.add(get(dy + ABOVE), i32.value(2 * dx));
    return lanes.fromI32(lanes.and(lanes.load(address), lanes.splatI32(0xffff)));
  };
  const sumOf = ({ taps, offset }: WeightedSum): Code =>
    taps.reduce<Code>(
      (sum, tap) => lanes.add(sum, lanes.mul(everyOther(tap), lanes.splat(tap.weight))),
      lanes.splat(offset),
    );
  const forward = (local: number, bytes: number): Code => set(local, i32.add(get(local), i32.value(bytes)));
  return moduleOf(
    Array.from({ length: ROWS + 2 }, () => "i32" as const),
    Array.from({ length: 5 }, () => "v128" as const),
    [
      repeat(
        [
          ...[r, g, b].map((local, c) => set(local, sumOf(sums[c]))),
          ...interleave(get(target), [r, g, b], [low, high]),
          ...Array.from({ length: ROWS }, (_, k) => forward(k, 4 * STEP)),
          forward(target, 6 * STEP),
        ],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}
