import { type Code, get, i32, lanes, moduleOf, repeat, set, tee } from "./assemble.ts";

/** Where things lie in the kernel's memory, in bytes. Tables hold pairs of 32-bit floats, start and rise. */
export interface FrameLayout {
  /** Single 32-bit floats: see `CONSTANTS`. */
  readonly constants: number;
  /** Three vectors, in memory only to be taken apart. */
  readonly scratch: number;
  readonly log: number;
  readonly film: readonly [number, number, number];
  /** Index bits of the film table. */
  readonly filmBits: number;
  /** For each output: the second matrix, row by row, and the address of the print table's segment for a zero float. */
  readonly outputs: readonly { readonly colour: number; readonly print: number }[];
  /** Bits of a float below a segment's index, in the log and the print tables. */
  readonly shift: number;
  readonly filmLimits: readonly [number, number];
  readonly printLimits: readonly [number, number];
}

/**
 * Places in the block of constants: black level, place within the band of gains, T's offset as it repeats over twelve
 * samples, the first matrix row by row and its offset.
 */
export const CONSTANTS = { black: 0, place: 1, offset: 4, unmix: 16, shift: 25, count: 28 };

/** Pixels that go through side by side. */
export const FRAME_STEP = 4;

/** 1.5 · 2^23: added to a float below 2^22, it leaves the nearest integer in the lowest bits. */
const ROUNDING = 12582912;
/** log2 of a table entry's bytes. */
const PAIR = 3;

/**
 * From a scan's samples to finished ones, for a row of pixels of three channels: transmittance, film and print, for
 * several output spaces of the same look. Parameters: addresses of samples (16 bits), gains and their slopes (32-bit
 * floats), the gains' end, then one target (16 bits) an output. Four pixels go at a time: all need room for three more.
 *
 * Up to the densities, vectors hold twelve samples as they lie in memory, since all channels share one table; then one
 * vector holds four pixels of one channel. Vectors of indices are taken apart by way of memory: loads have ports of
 * their own in a processor, and shuffles are what it does fewest of.
 */
export function frameModule(layout: FrameLayout): Uint8Array {
  const [samples, gains, slopes, end] = [0, 1, 2, 3];
  const target = (k: number): number => 4 + k;
  const local = (k: number): number => 4 + layout.outputs.length + k;
  const [x, y, z, r, g, b, low, high] = [0, 1, 2, 3, 4, 5, 6, 7].map(local);

  const constant = (k: number, vector = false): Code =>
    (vector ? lanes.load : lanes.loadSplat)(i32.value(layout.constants), 4 * k);
  /** v ← start + rise · v, from the entries that its indices point to. */
  const lookup = (v: number, indices: Code, table: number, slot: number): Code[] => {
    const at = (lane: number): Code => i32.load(i32.value(layout.scratch), 16 * slot + 4 * lane);
    return [
      lanes.store(i32.value(layout.scratch), indices, 16 * slot),
      set(low, lanes.loadHigh(lanes.loadLow(at(0), table), at(1), table)),
      set(high, lanes.loadHigh(lanes.loadLow(at(2), table), at(3), table)),
      set(
        v,
        lanes.add(
          lanes.pick(get(low), get(high), [0, 2, 4, 6]),
          lanes.mul(lanes.pick(get(low), get(high), [1, 3, 5, 7]), get(v)),
        ),
      ),
    ];
  };
  const floatIndex = (v: number): Code =>
    lanes.and(lanes.shiftRight(get(v), layout.shift - PAIR), lanes.splatI32((2 ** (32 - layout.shift) - 1) << PAIR));
  const stepIndex = (v: number): Code =>
    lanes.and(
      lanes.shiftLeft(lanes.add(get(v), lanes.splat(ROUNDING)), PAIR),
      lanes.splatI32((2 ** layout.filmBits - 1) << PAIR),
    );
  const held = (v: Code, [least, most]: readonly [number, number]): Code =>
    lanes.lower(lanes.higher(lanes.splat(least), v), lanes.splat(most));
  /** A matrix row from address `at` on, times the three channels. */
  const product = (at: number, [p, q, s]: readonly number[]): Code =>
    lanes.add(
      lanes.add(
        lanes.mul(lanes.loadSplat(i32.value(at)), get(p)),
        lanes.mul(lanes.loadSplat(i32.value(at), 4), get(q)),
      ),
      lanes.mul(lanes.loadSplat(i32.value(at), 8), get(s)),
    );

  /** Twelve samples to densities in x, y, z. */
  const densities = [x, y, z].flatMap((v, k) => {
    const signal = lanes.sub(lanes.fromI32(lanes.load16(get(samples), 8 * k)), constant(CONSTANTS.black));
    const slope = lanes.mul(constant(CONSTANTS.place), lanes.load(get(slopes), 16 * k));
    const gain = lanes.add(lanes.load(get(gains), 16 * k), slope);
    return [
      set(v, lanes.sub(lanes.mul(signal, gain), constant(CONSTANTS.offset + 4 * k, true))),
      ...lookup(v, floatIndex(v), layout.log, k),
    ];
  });
  /** r0 g0 b0 r1 | g1 b1 r2 g2 | b2 r3 g3 b3 to one channel a vector. */
  const apart = [
    set(r, lanes.pick(lanes.pick(get(x), get(y), [0, 3, 6, 6]), get(z), [0, 1, 2, 5])),
    set(g, lanes.pick(lanes.pick(get(x), get(y), [1, 4, 7, 7]), get(z), [0, 1, 2, 6])),
    set(b, lanes.pick(lanes.pick(get(x), get(y), [2, 5, 5, 5]), get(z), [0, 1, 4, 7])),
  ];
  const exposures = [x, y, z].flatMap((v, c) => {
    const row = layout.constants + 4 * (CONSTANTS.unmix + 3 * c);
    const steps = lanes.add(product(row, [r, g, b]), constant(CONSTANTS.shift + c));
    return [set(v, held(steps, layout.filmLimits)), ...lookup(v, stepIndex(v), layout.film[c], c)];
  });
  const finished = layout.outputs.flatMap(({ colour, print }, o) => [
    ...[r, g, b].flatMap((v, c) => [
      set(v, held(product(colour + 12 * c, [x, y, z]), layout.printLimits)),
      ...lookup(v, floatIndex(v), print, c),
    ]),
    // 16-bit lanes: low is r0 … r3 g0 … g3, high is b0 … b3 twice.
    set(low, lanes.narrow(lanes.toI32(get(r)), lanes.toI32(get(g)))),
    set(high, lanes.narrow(tee(b, lanes.toI32(get(b))), get(b))),
    lanes.store(get(target(o)), lanes.pick16(get(low), get(high), [0, 4, 8, 1, 5, 9, 2, 6])),
    lanes.storeLow(get(target(o)), lanes.pick16(get(low), get(high), [10, 3, 7, 11, 11, 11, 11, 11]), 16),
    set(target(o), i32.add(get(target(o)), i32.value(6 * FRAME_STEP))),
  ]);

  return moduleOf(
    ["i32", "i32", "i32", "i32", ...layout.outputs.map(() => "i32" as const)],
    Array.from({ length: 8 }, () => "v128" as const),
    [
      repeat(
        [
          ...densities,
          ...apart,
          ...exposures,
          ...finished,
          set(samples, i32.add(get(samples), i32.value(6 * FRAME_STEP))),
          set(slopes, i32.add(get(slopes), i32.value(12 * FRAME_STEP))),
          set(gains, i32.add(get(gains), i32.value(12 * FRAME_STEP))),
        ],
        i32.lessThan(get(gains), get(end)),
      ),
    ],
  );
}
