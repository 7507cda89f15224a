/** The WebAssembly kernels of resampling. */
import { PHASES } from "../lanczos.ts";
import { type Code, f64, get, i32, i64, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";

/** Bytes of a sample: 16 bits in scans and pictures, 32 in sums. */
const SAMPLE = 2;
const SUM = 4;
/** Positions are kept as integers, 2^32 to the pixel. */
const ONE = 2 ** 32;
const PHASE_BITS = Math.log2(PHASES);

/** Widens 16-bit samples to floating point. Addresses of source, target and target's end; works in fours. */
export function widenModule(): Uint8Array {
  const [source, target, end] = [0, 1, 2];
  return moduleOf(
    ["i32", "i32", "i32"],
    [],
    [
      repeat(
        [
          lanes.store(get(target), lanes.fromI32(lanes.load16(get(source)))),
          set(source, i32.add(get(source), i32.value(8))),
          set(target, i32.add(get(target), i32.value(16))),
        ],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}

/**
 * Row pass. Pixel u of the target is the sum of `taps` source pixels (floating point) from floor(x) + first on,
 * x = start + u · step. All addresses are bytes. Four lanes are moved at a time: source and target need four samples
 * of slack at their end, and what a pixel writes beyond its own channels, the next one writes over.
 */
export function rowModule(taps: number, first: number, channels: 1 | 3): Uint8Array {
  // parameters: source, target, end of target, start, step, weights
  const [source, target, end, start, step, weights] = [0, 1, 2, 3, 4, 5];
  const [x, stride, weight, pixel] = [6, 7, 8, 9];
  const bytes = SUM * channels;
  const terms = Array.from({ length: taps }, (_, t) =>
    lanes.mul(lanes.loadSplat(get(weight), 4 * t), lanes.load(get(pixel), bytes * t)),
  );
  const node = i32.fromI64(i64.shift(get(x), 32));
  const phase = i32.and(i32.fromI64(i64.shift(get(x), 32 - PHASE_BITS)), i32.value(PHASES - 1));
  return moduleOf(
    ["i32", "i32", "i32", "f64", "f64", "i32"],
    ["i64", "i64", "i32", "i32"],
    [
      set(x, halfPhaseOn(get(start))),
      set(stride, i64.fromF64(f64.mul(get(step), f64.value(ONE)))),
      repeat(
        [
          set(weight, i32.add(get(weights), i32.mul(phase, i32.value(4 * taps)))),
          set(pixel, i32.add(get(source), i32.mul(i32.add(node, i32.value(first)), i32.value(bytes)))),
          lanes.store(
            get(target),
            terms.reduce((a, b) => lanes.add(a, b)),
          ),
          set(x, i64.add(get(x), get(stride))),
          set(target, i32.add(get(target), i32.value(bytes))),
        ],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}

/**
 * Row pass where all pixels lie at the same phase and one source pixel apart, as in a straightened picture they do
 * for many in a row: weights stay where they are, and no lane is idle. Parameters: source pixel of the first tap,
 * target and its end, and the phase's weights. Sums are those of `rowModule`, bit for bit.
 */
export function steadyRowModule(taps: number, channels: 1 | 3): Uint8Array {
  const [source, target, end, weights] = [0, 1, 2, 3];
  const weight = (t: number): number => 4 + t;
  const terms = Array.from({ length: taps }, (_, t) =>
    lanes.mul(get(weight(t)), lanes.load(get(source), SUM * channels * t)),
  );
  return moduleOf(
    ["i32", "i32", "i32", "i32"],
    Array.from({ length: taps }, () => "v128" as const),
    [
      ...Array.from({ length: taps }, (_, t) => set(weight(t), lanes.loadSplat(get(weights), 4 * t))),
      repeat(
        [
          lanes.store(
            get(target),
            terms.reduce((a, b) => lanes.add(a, b)),
          ),
          set(source, i32.add(get(source), i32.value(4 * SUM))),
          set(target, i32.add(get(target), i32.value(4 * SUM))),
        ],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}

/**
 * Column pass, for columns whose taps lie in the same rows. Column u is the sum over the rows at
 * the addresses in `rows`, weighted for the position start + u · slope (0 … 1); rounded, held within 16 bits.
 */
export function columnModule(taps: number, channels: 1 | 3): Uint8Array {
  // parameters: list of row addresses, target, first column, end column, start, slope, weights
  const [rows, target, from, end, start, slope, weights] = [0, 1, 2, 3, 4, 5, 6];
  const [x, stride, weight, at, last, sum] = [7, 8, 9, 10, 11, 12];
  const row = (t: number): number => 13 + t;
  const terms = Array.from({ length: taps }, (_, t) =>
    lanes.mul(lanes.loadSplat(get(weight), 4 * t), lanes.load(i32.add(get(row(t)), get(at)))),
  );
  const phase = i32.fromI64(i64.shift(get(x), 32 - PHASE_BITS));
  return moduleOf(
    ["i32", "i32", "i32", "i32", "f64", "f64", "i32"],
    ["i64", "i64", "i32", "i32", "i32", "v128", ...Array.from({ length: taps }, () => "i32" as const)],
    [
      ...Array.from({ length: taps }, (_, t) => set(row(t), i32.load(get(rows), 4 * t))),
      set(stride, i64.fromF64(f64.mul(get(slope), f64.value(ONE)))),
      set(x, i64.add(halfPhaseOn(get(start)), i64.mul(i64.fromI32(get(from)), get(stride)))),
      set(at, i32.mul(get(from), i32.value(SUM * channels))),
      set(last, i32.mul(get(end), i32.value(SUM * channels))),
      set(target, i32.add(get(target), i32.mul(get(from), i32.value(SAMPLE * channels)))),
      repeat(
        [
          set(weight, i32.add(get(weights), i32.mul(phase, i32.value(4 * taps)))),
          set(sum, lanes.toI32(terms.reduce((a, b) => lanes.add(a, b), lanes.splat(0.5)))),
          lanes.storeLow(get(target), lanes.narrow(get(sum), get(sum))),
          set(at, i32.add(get(at), i32.value(SUM * channels))),
          set(target, i32.add(get(target), i32.value(SAMPLE * channels))),
          set(x, i64.add(get(x), get(stride))),
        ],
        i32.lessThan(get(at), get(last)),
      ),
    ],
  );
}

/** A position as an integer, moved by half a phase so that cutting off rounds to the nearest. */
function halfPhaseOn(position: Code): Code {
  return i64.fromF64(f64.mul(f64.add(position, f64.value(0.5 / PHASES)), f64.value(ONE)));
}
