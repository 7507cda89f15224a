/** The WebAssembly kernel that runs a plan over transmittances. */
import { type Code, get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";
import type { PrintOffsets } from "./tables.ts";
import { type ChainTables, PAIR, ROUNDING } from "./chain-parts.ts";

/** Where things lie in the kernel's memory, in bytes. Tables hold pairs of 32-bit floats, intercept and slope. */
export interface PlanLayout extends Omit<ChainTables, "scratch"> {
  /** Columns of the first matrix, its offset, columns of the second: seven times four lanes, the last one idle. */
  readonly constants: number;
  readonly log: number;
  /** Address, for each channel, of the print segment for the float whose bits are all zero: may lie before the table. */
  readonly print: PrintOffsets;
}

/**
 * A plan over interleaved pixels, the three channels side by side in one vector. Addresses of transmittance (32-bit
 * floats), target (16-bit samples) and the transmittance's end; both need a channel of slack at their end.
 */
export function planModule(layout: PlanLayout): Uint8Array {
  const [source, target, end] = [0, 1, 2];
  const constant = (k: number): number => 3 + k;
  const [value, index, pair] = [10, 11, 12];

  /** value ← start + rise · value, from the entries that `index` points to. */
  const lookup = ([r, g, b]: readonly [number, number, number]): Code[] => {
    const at = (lane: number): Code => lanes.extract(get(index), lane);
    return [
      set(pair, lanes.loadHigh(lanes.loadLow(at(0), r), at(1), g)),
      set(index, lanes.loadLow(at(2), b)),
      set(
        value,
        lanes.add(
          lanes.pick(get(pair), get(index), [0, 2, 4, 6]),
          lanes.mul(lanes.pick(get(pair), get(index), [1, 3, 5, 7]), get(value)),
        ),
      ),
    ];
  };
  /** The matrix whose columns are constants k, k + 1, k + 2, times value. */
  const product = (k: number): Code =>
    [0, 1, 2]
      .map((c) => lanes.mul(get(constant(k + c)), lanes.pick(get(value), get(value), [c, c, c, c])))
      .reduce((a, b) => lanes.add(a, b));
  const clamped = (v: Code, [min, max]: readonly [number, number]): Code =>
    lanes.lower(lanes.higher(lanes.splat(min), v), lanes.splat(max));
  const floatIndex = (mask: number): Code =>
    lanes.and(lanes.shiftRight(get(value), layout.shift - PAIR), lanes.splatI32(mask));
  const everyFloat = (2 ** (32 - layout.shift) - 1) << PAIR;

  return moduleOf(
    ["i32", "i32", "i32"],
    Array.from({ length: 10 }, () => "v128" as const),
    [
      ...[0, 1, 2, 3, 4, 5, 6].map((k) => set(constant(k), lanes.load(i32.value(layout.constants), 16 * k))),
      repeat(
        [
          set(value, lanes.load(get(source))),
          set(index, floatIndex(everyFloat)),
          ...lookup([layout.log, layout.log, layout.log]),
          set(value, clamped(lanes.add(product(0), get(constant(3))), layout.filmLimits)),
          set(
            index,
            lanes.and(
              lanes.shiftLeft(lanes.add(get(value), lanes.splat(ROUNDING)), PAIR),
              lanes.splatI32((2 ** layout.filmBits - 1) << PAIR),
            ),
          ),
          ...lookup(layout.film),
          set(value, clamped(product(4), layout.printLimits)),
          set(index, floatIndex(everyFloat)),
          ...lookup(layout.print),
          set(value, lanes.toI32(get(value))),
          lanes.storeLow(get(target), lanes.narrow(get(value), get(value))),
          set(source, i32.add(get(source), i32.value(12))),
          set(target, i32.add(get(target), i32.value(6))),
        ],
        i32.lessThan(get(source), get(end)),
      ),
    ],
  );
}
