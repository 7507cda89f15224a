/**
 * The vector kernels of correct.ts: Lanczos along a row and down columns, at places that change slowly from sample to
 * sample. Shifts come as nodes, one for 16 samples: the shift there and its step from sample to sample, 32-bit floats.
 */
import { type Code, get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";

/** Samples between two nodes. */
export const NODE = 16;
/** Bytes of a phase's weights: eight 32-bit floats, the last ones 0. */
export const PHASE_BYTES = 32;
/** Phases of a pixel. */
const PHASES = 256;

const vectors = (count: number) => Array.from({ length: count }, () => "v128" as const);
const i32s = (count: number) => Array.from({ length: count }, () => "i32" as const);
const forward = (local: number, bytes: number): Code => set(local, i32.add(get(local), i32.value(bytes)));

/** The shifts of four samples: node + step · (4·quarter … 4·quarter + 3); `counts` holds 0 … 15 as floats. */
const shifts = (nodes: number, counts: number, quarter: number): Code =>
  lanes.add(
    lanes.loadSplat(get(nodes)),
    lanes.mul(lanes.loadSplat(get(nodes), 4), lanes.load(get(counts), 16 * quarter)),
  );
/** Places of the weights of four shifts over their whole parts, in bytes. */
const phases = (shift: number, whole: number): Code =>
  lanes.shiftLeft(
    lanes.toI32(lanes.add(lanes.mul(lanes.sub(get(shift), get(whole)), lanes.splat(PHASES)), lanes.splat(0.5))),
    Math.log2(PHASE_BYTES),
  );

/**
 * Resamples a row. Addresses: nodes, the first tap of the first sample at a shift of 0, weights (a row of PHASE_BYTES a
 * phase, 0 … 256), the counts 0 … 15, the target and its end; all but the weights 32-bit floats in whole nodes.
 */
export function alongModule(): Uint8Array {
  const [nodes, source, weights, counts, target, end] = [0, 1, 2, 3, 4, 5];
  const [from, by] = [6, 7];
  const [shift, whole, phase, a, b, c, d] = [8, 9, 10, 11, 12, 13, 14];
  const sample = (lane: number, into: number): Code[] => [
    set(from, i32.add(get(source), lanes.extract(get(whole), lane))),
    set(by, i32.add(get(weights), lanes.extract(get(phase), lane))),
    set(
      into,
      lanes.add(
        lanes.mul(lanes.load(get(from), 4 * lane), lanes.load(get(by))),
        lanes.mul(lanes.load(get(from), 4 * lane + 16), lanes.load(get(by), 16)),
      ),
    ),
  ];
  const halves = (p: number, q: number): Code =>
    lanes.add(lanes.pick(get(p), get(q), [0, 1, 4, 5]), lanes.pick(get(p), get(q), [2, 3, 6, 7]));
  const quarter = (k: number): Code[] => [
    set(shift, shifts(nodes, counts, k)),
    set(whole, lanes.floor(get(shift))),
    set(phase, phases(shift, whole)),
    set(whole, lanes.shiftLeft(lanes.toI32(get(whole)), 2)),
    ...sample(0, a),
    ...sample(1, b),
    ...sample(2, c),
    ...sample(3, d),
    set(a, halves(a, b)),
    set(c, halves(c, d)),
    lanes.store(
      get(target),
      lanes.add(lanes.pick(get(a), get(c), [0, 2, 4, 6]), lanes.pick(get(a), get(c), [1, 3, 5, 7])),
      16 * k,
    ),
    forward(source, 16),
  ];
  return moduleOf(
    [...i32s(6)],
    [...i32s(2), ...vectors(7)],
    [
      repeat(
        [...[0, 1, 2, 3].flatMap(quarter), forward(nodes, 8), forward(target, 4 * NODE)],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}

/** Taps that the shifts of four neighbours span: six, and one more where they fall into two rows. */
const SPANNED = 7;

/**
 * Resamples down the columns to 16-bit samples. Addresses: nodes, the addresses of the rows (that of the first tap at a
 * shift of 0), bytes from a row's start to the first column, weights (phases 0 … 512: those past 256 are one row on), the
 * counts 0 … 15, the target and its end. Shifts of neighbours differ by less than a quarter of a row.
 */
export function downModule(): Uint8Array {
  const [nodes, rows, column, weights, counts, target, end] = [0, 1, 2, 3, 4, 5, 6];
  const [table, by] = [7, 8];
  const [shift, whole, phase, sum, t0, t1] = [9, 10, 11, 12, 13, 14];
  const [own, tap] = [
    [15, 16, 17, 18],
    [19, 20, 21, 22],
  ];
  const swapped = (order: readonly [number, number, number, number]): Code =>
    lanes.lowerI32(get(t0), lanes.pick(get(t0), get(t0), order));
  /** Weights of four taps, each of four columns, into `tap`. */
  const turn = (half: 0 | 1): Code[] => [
    ...own.map((local, lane) =>
      set(local, lanes.load(i32.add(get(weights), lanes.extract(get(phase), lane)), 16 * half)),
    ),
    ...(
      [
        [0, 4, 1, 5],
        [2, 6, 3, 7],
      ] as const
    ).flatMap((order, pair) => [
      set(t0, lanes.pick(get(own[0]), get(own[1]), order)),
      set(t1, lanes.pick(get(own[2]), get(own[3]), order)),
      set(tap[2 * pair], lanes.pick(get(t0), get(t1), [0, 1, 4, 5])),
      set(tap[2 * pair + 1], lanes.pick(get(t0), get(t1), [2, 3, 6, 7])),
    ]),
  ];
  const product = (t: number): Code =>
    lanes.mul(get(tap[t % 4]), lanes.load(i32.add(i32.load(get(table), 4 * t), get(column))));
  const quarter = (k: number): Code[] => [
    set(shift, shifts(nodes, counts, k)),
    // The upper row of the four.
    set(t0, lanes.toI32(lanes.floor(get(shift)))),
    set(t0, swapped([1, 0, 3, 2])),
    set(t0, swapped([2, 3, 0, 1])),
    set(by, lanes.extract(get(t0), 0)),
    set(table, i32.add(get(rows), i32.mul(get(by), i32.value(4)))),
    set(whole, lanes.fromI32(get(t0))),
    set(phase, phases(shift, whole)),
    ...turn(0),
    set(sum, product(0)),
    ...[1, 2, 3].map((t) => set(sum, lanes.add(get(sum), product(t)))),
    ...turn(1),
    ...Array.from({ length: SPANNED - 4 }, (_, t) => set(sum, lanes.add(get(sum), product(t + 4)))),
    set(sum, lanes.toI32(lanes.add(get(sum), lanes.splat(0.5)))),
    lanes.storeLow(get(target), lanes.narrow(get(sum), get(sum)), 8 * k),
    forward(column, 16),
  ];
  return moduleOf(
    i32s(7),
    [...i32s(2), ...vectors(14)],
    [
      repeat(
        [...[0, 1, 2, 3].flatMap(quarter), forward(nodes, 8), forward(target, 2 * NODE)],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}
