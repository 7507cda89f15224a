/**
 * What kernels that take four pixels at a time have in common: from densities to finished values. One vector holds four
 * pixels of one channel. Vectors of indices are taken apart by way of memory: loads have ports of their own in a
 * processor, and shuffles are what it does fewest of.
 */
import { type Code, get, i32, lanes, set } from "../../wasm/assembler.ts";

/** Where a look's tables lie, in bytes, and how their segments are found. */
export interface ChainTables {
  /** Three vectors, in memory only to be taken apart. */
  readonly scratch: number;
  readonly film: readonly [number, number, number];
  /** Index bits of the film table. */
  readonly filmBits: number;
  /** Bits of a float below a segment's index, in the log and the print tables. */
  readonly shift: number;
  /** Limits of what the film table is asked for, in steps less a half, and of the print table in exposure. */
  readonly filmLimits: readonly [number, number];
  readonly printLimits: readonly [number, number];
}

/** 1.5 · 2^23: added to a float below 2^22, it leaves the nearest integer in the lowest bits. */
export const ROUNDING = 12582912;
/** log2 of a table entry's bytes. */
export const PAIR = 3;

type Three = readonly [number, number, number];

/**
 * @param channels locals of red, green and blue
 * @param mixed locals that take what is mixed from them; before that, twelve values as they lie in memory
 * @param spare two locals to work in
 */
export function chainParts(tables: ChainTables, channels: Three, mixed: Three, spare: readonly [number, number]) {
  const [r, g, b] = channels;
  const [x, y, z] = mixed;
  const [low, high] = spare;

  /** v ← start + rise · v, from the entries that its indices point to. */
  const lookup = (v: number, indices: Code, table: number, slot: number): Code[] => {
    const at = (lane: number): Code => i32.load(i32.value(tables.scratch), 16 * slot + 4 * lane);
    return [
      lanes.store(i32.value(tables.scratch), indices, 16 * slot),
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
    lanes.and(lanes.shiftRight(get(v), tables.shift - PAIR), lanes.splatI32((2 ** (32 - tables.shift) - 1) << PAIR));
  const stepIndex = (v: number): Code =>
    lanes.and(
      lanes.shiftLeft(lanes.add(get(v), lanes.splat(ROUNDING)), PAIR),
      lanes.splatI32((2 ** tables.filmBits - 1) << PAIR),
    );
  const clamped = (v: Code, [min, max]: readonly [number, number]): Code =>
    lanes.lower(lanes.higher(lanes.splat(min), v), lanes.splat(max));
  /** A matrix row from address `at` on, times three channels. */
  const product = (at: number, [p, q, s]: Three): Code =>
    lanes.add(
      lanes.add(
        lanes.mul(lanes.loadSplat(i32.value(at)), get(p)),
        lanes.mul(lanes.loadSplat(i32.value(at), 4), get(q)),
      ),
      lanes.mul(lanes.loadSplat(i32.value(at), 8), get(s)),
    );

  return {
    lookup,
    floatIndex,
    /** r0 g0 b0 r1 | g1 b1 r2 g2 | b2 r3 g3 b3 in `mixed` to one channel a vector in `channels`. */
    apart: [
      set(r, lanes.pick(lanes.pick(get(x), get(y), [0, 3, 6, 6]), get(z), [0, 1, 2, 5])),
      set(g, lanes.pick(lanes.pick(get(x), get(y), [1, 4, 7, 7]), get(z), [0, 1, 2, 6])),
      set(b, lanes.pick(lanes.pick(get(x), get(y), [2, 5, 5, 5]), get(z), [0, 1, 4, 7])),
    ],
    /** Densities in `channels` to exposures in `mixed`: matrix at `unmix`, offsets at `shift`, the film table. */
    exposures: (unmix: number, shift: number): Code[] =>
      [x, y, z].flatMap((v, c) => {
        const steps = lanes.add(product(unmix + 12 * c, channels), lanes.loadSplat(i32.value(shift), 4 * c));
        return [set(v, clamped(steps, tables.filmLimits)), ...lookup(v, stepIndex(v), tables.film[c], c)];
      }),
    /** Exposures in `mixed` to finished values in `channels`: matrix at `colour`, each channel's print table at `print`. */
    finished: (colour: number, print: Three): Code[] =>
      [r, g, b].flatMap((v, c) => [
        set(v, clamped(product(colour + 12 * c, mixed), tables.printLimits)),
        ...lookup(v, floatIndex(v), print[c], c),
      ]),
  };
}
