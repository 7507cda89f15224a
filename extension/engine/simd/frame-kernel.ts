import { type Code, get, i32, lanes, moduleOf, repeat, set } from "./assemble.ts";

/** Where things lie in the kernel's memory, in bytes. Tables hold pairs of 32-bit floats, start and rise. */
export interface FrameLayout {
  /** Four lanes each: black level, place within the band, offset of T; columns of the first matrix; its offset. */
  readonly constants: number;
  /** Sixteen bytes that vectors pass through to become scalars. */
  readonly scratch: number;
  readonly log: number;
  readonly film: readonly [number, number, number];
  /** Index bits of the film table. */
  readonly filmBits: number;
  /** For each output: columns of the second matrix, and the address of the print table's segment for a zero float. */
  readonly outputs: readonly { readonly colour: number; readonly print: number }[];
  /** Bits of a float below a segment's index, in the log and the print tables. */
  readonly shift: number;
  readonly filmLimits: readonly [number, number];
  readonly printLimits: readonly [number, number];
}

/** 1.5 · 2^23: added to a float below 2^22, it leaves the nearest integer in the lowest bits. */
const ROUNDING = 12582912;
/** log2 of a table entry's bytes. */
const PAIR = 3;

/**
 * From a scan's samples to finished ones, for a row of pixels of three channels: transmittance, film and print, for
 * several output spaces of the same look. The three channels lie side by side in one vector. Parameters: addresses of
 * samples (16 bits), gains and their slopes (32-bit floats), the gains' end, then one target (16 bits) an output. All
 * need a channel of slack at their end.
 *
 * Vectors are taken apart by way of memory: loads have ports of their own, and shuffles are what there are fewest of.
 */
export function frameModule(layout: FrameLayout): Uint8Array {
  const [samples, gains, slopes, end] = [0, 1, 2, 3];
  const target = (k: number): number => 4 + k;
  const first = 4 + layout.outputs.length;
  const constant = (k: number): number => first + k;
  const colour = (output: number, k: number): number => first + 7 + 3 * output + k;
  const [value, exposure, index, pair] = [0, 1, 2, 3].map((k) => first + 7 + 3 * layout.outputs.length + k);

  const scratch = (lane: number): Code => i32.load(i32.value(layout.scratch), 4 * lane);
  const intoScratch = (v: Code): Code => lanes.store(i32.value(layout.scratch), v);
  /** value ← start + rise · value, from the entries that the index vector points to. */
  const lookup = (indices: Code, [r, g, b]: readonly [number, number, number]): Code[] => [
    intoScratch(indices),
    set(pair, lanes.loadHigh(lanes.loadLow(scratch(0), r), scratch(1), g)),
    set(index, lanes.loadLow(scratch(2), b)),
    set(
      value,
      lanes.add(
        lanes.pick(get(pair), get(index), [0, 2, 4, 6]),
        lanes.mul(lanes.pick(get(pair), get(index), [1, 3, 5, 7]), get(value)),
      ),
    ),
  ];
  /** The matrix with these columns, times what lies in scratch. */
  const product = (columns: readonly number[]): Code =>
    columns
      .map((column, c) => lanes.mul(get(column), lanes.loadSplat(i32.value(layout.scratch), 4 * c)))
      .reduce((a, b) => lanes.add(a, b));
  const held = (v: Code, [least, most]: readonly [number, number]): Code =>
    lanes.lower(lanes.higher(lanes.splat(least), v), lanes.splat(most));
  const floatIndex = (): Code =>
    lanes.and(
      lanes.shiftRight(get(value), layout.shift - PAIR),
      lanes.splatI32((2 ** (32 - layout.shift) - 1) << PAIR),
    );

  const [black, place, offset, , , , shift] = [0, 1, 2, 3, 4, 5, 6].map(constant);
  const gain = lanes.add(lanes.load(get(gains)), lanes.mul(get(place), lanes.load(get(slopes))));
  const signal = lanes.sub(lanes.fromI32(lanes.load16(get(samples))), get(black));
  return moduleOf(
    ["i32", "i32", "i32", "i32", ...layout.outputs.map(() => "i32" as const)],
    Array.from({ length: 7 + 3 * layout.outputs.length + 4 }, () => "v128" as const),
    [
      ...[0, 1, 2, 3, 4, 5, 6].map((k) => set(constant(k), lanes.load(i32.value(layout.constants), 16 * k))),
      ...layout.outputs.flatMap((output, o) =>
        [0, 1, 2].map((k) => set(colour(o, k), lanes.load(i32.value(output.colour), 16 * k))),
      ),
      repeat(
        [
          set(value, lanes.sub(lanes.mul(signal, gain), get(offset))),
          ...lookup(floatIndex(), [layout.log, layout.log, layout.log]),
          intoScratch(get(value)),
          set(value, held(lanes.add(product([3, 4, 5].map(constant)), get(shift)), layout.filmLimits)),
          ...lookup(
            lanes.and(
              lanes.shiftLeft(lanes.add(get(value), lanes.splat(ROUNDING)), PAIR),
              lanes.splatI32((2 ** layout.filmBits - 1) << PAIR),
            ),
            layout.film,
          ),
          set(exposure, get(value)),
          ...layout.outputs.flatMap(({ print }, o) => [
            intoScratch(get(exposure)),
            set(value, held(product([0, 1, 2].map((k) => colour(o, k))), layout.printLimits)),
            ...lookup(floatIndex(), [print, print, print]),
            set(value, lanes.toI32(get(value))),
            lanes.storeLow(get(target(o)), lanes.narrow(get(value), get(value))),
            set(target(o), i32.add(get(target(o)), i32.value(6))),
          ]),
          set(samples, i32.add(get(samples), i32.value(6))),
          set(slopes, i32.add(get(slopes), i32.value(12))),
          set(gains, i32.add(get(gains), i32.value(12))),
        ],
        i32.lessThan(get(gains), get(end)),
      ),
    ],
  );
}
