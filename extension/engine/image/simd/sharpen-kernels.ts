/** The WebAssembly kernels of sharpening. */
import { type Code, get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";

/** Pixels that go through side by side. */
export const SHARPEN_STEP = 4;
const VECTOR = 16;

/**
 * Luminance R + 2G + B (grey: four times the sample) of a row, as 32-bit numbers. Addresses of samples (16 bits),
 * target and the target's end.
 */
export function lumaModule(channels: 1 | 3): Uint8Array {
  const [samples, target, end] = [0, 1, 2];
  const [x, y, z] = [3, 4, 5];
  const grey = [lanes.store(get(target), lanes.shiftLeft(lanes.load16(get(samples)), 2))];
  const colour = [
    // r0 g0 b0 r1 | g1 b1 r2 g2 | b2 r3 g3 b3
    set(x, lanes.load16(get(samples))),
    set(y, lanes.load16(get(samples), 8)),
    set(z, lanes.load16(get(samples), 16)),
    lanes.store(
      get(target),
      lanes.addI32(
        lanes.addI32(
          lanes.pick(lanes.pick(get(x), get(y), [0, 3, 6, 6]), get(z), [0, 1, 2, 5]),
          lanes.pick(lanes.pick(get(x), get(y), [2, 5, 5, 5]), get(z), [0, 1, 4, 7]),
        ),
        lanes.shiftLeft(lanes.pick(lanes.pick(get(x), get(y), [1, 4, 7, 7]), get(z), [0, 1, 2, 6]), 1),
      ),
    ),
  ];
  return moduleOf(
    ["i32", "i32", "i32"],
    ["v128", "v128", "v128"],
    [
      repeat(
        [
          ...(channels === 3 ? colour : grey),
          set(samples, i32.add(get(samples), i32.value(2 * channels * SHARPEN_STEP))),
          set(target, i32.add(get(target), i32.value(VECTOR))),
        ],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}

/**
 * Blur 1 4 6 4 1 and extremes over three pixels, along a row of luminance that goes on by two pixels at both ends.
 * Addresses: luminance, its end, then where blur, lowest and highest go.
 */
export function alongModule(): Uint8Array {
  const [own, end, blur, low, high] = [0, 1, 2, 3, 4];
  const [left, middle, right] = [5, 6, 7];
  const at = (pixels: number): Code => lanes.load(i32.add(get(own), i32.value(4 * pixels)));
  const forward = (local: number): Code => set(local, i32.add(get(local), i32.value(VECTOR)));
  return moduleOf(
    ["i32", "i32", "i32", "i32", "i32"],
    ["v128", "v128", "v128"],
    [
      repeat(
        [
          set(left, at(-1)),
          set(middle, at(0)),
          set(right, at(1)),
          lanes.store(get(low), lanes.lowerI32(lanes.lowerI32(get(left), get(right)), get(middle))),
          lanes.store(get(high), lanes.higherI32(lanes.higherI32(get(left), get(right)), get(middle))),
          lanes.store(get(blur), binomial(at(-2), get(left), get(middle), get(right), at(2))),
          ...[own, blur, low, high].map(forward),
        ],
        i32.lessThan(get(own), get(end)),
      ),
    ],
  );
}

/** a + 4b + 6c + 4d + e. */
function binomial(a: Code, b: Code, c: Code, d: Code, e: Code): Code {
  const four = lanes.shiftLeft(lanes.addI32(lanes.addI32(b, d), c), 2);
  return lanes.addI32(lanes.addI32(lanes.addI32(a, e), four), lanes.shiftLeft(c, 1));
}

/** Places of single 32-bit floats in the block of constants. */
export const SHARPEN_CONSTANTS = { gain: 0, overshoot: 4, blurSum: 8, bytes: 16 };

/**
 * Sharpens a row of samples in place. Parameters: samples, the row's luminance and its end, five rows of blur, then
 * lowest and highest of the rows above, at and below.
 * @param constants address of the block of constants; the gain is for whole samples, the overshoot for luminance
 * @param blurBits log2 of the weights' sum in both directions
 */
export function sharpenModule(channels: 1 | 3, constants: number, blurBits: number): Uint8Array {
  const [samples, own, end, blur, low, high] = [0, 1, 2, 3, 8, 11];
  const [v, min, max, arena, add] = [14, 15, 16, 17, 18];
  const row = (first: number, k: number): Code => lanes.load(get(first + k));
  const constant = (offset: number): Code => lanes.loadSplat(i32.value(constants), offset);
  const forward = (local: number, bytes: number): Code => set(local, i32.add(get(local), i32.value(bytes)));
  const three = (first: number, pick: (...vectors: Code[]) => Code): Code =>
    pick(pick(row(first, 0), row(first, 2)), row(first, 1));
  const toward = (limit: number): Code => lanes.fromI32(lanes.subI32(get(limit), get(v)));
  const detail = lanes.fromI32(
    lanes.subI32(
      lanes.shiftLeft(get(v), blurBits),
      binomial(row(blur, 0), row(blur, 1), row(blur, 2), row(blur, 3), row(blur, 4)),
    ),
  );
  const added = (k: number, order: readonly [number, number, number, number]): Code =>
    lanes.addI32(lanes.load16(get(samples), 8 * k), lanes.pick(get(add), get(add), order));
  const grey = [set(v, added(0, [0, 1, 2, 3])), lanes.storeLow(get(samples), lanes.narrow(get(v), get(v)))];
  const colour = [
    set(v, added(2, [2, 3, 3, 3])),
    lanes.store(get(samples), lanes.narrow(added(0, [0, 0, 0, 1]), added(1, [1, 1, 2, 2]))),
    lanes.storeLow(get(samples), lanes.narrow(get(v), get(v)), 16),
  ];
  return moduleOf(
    Array.from({ length: 14 }, () => "i32" as const),
    Array.from({ length: 5 }, () => "v128" as const),
    [
      repeat(
        [
          set(v, lanes.load(get(own))),
          set(min, three(low, lanes.lowerI32)),
          set(max, three(high, lanes.higherI32)),
          set(arena, lanes.mul(lanes.fromI32(lanes.subI32(get(max), get(min))), constant(SHARPEN_CONSTANTS.overshoot))),
          set(
            add,
            lanes.lower(
              lanes.higher(lanes.mul(detail, constant(SHARPEN_CONSTANTS.gain)), lanes.sub(toward(min), get(arena))),
              lanes.add(toward(max), get(arena)),
            ),
          ),
          // Rounded once, so that the channels move by the same whole number.
          set(add, lanes.toI32(lanes.floor(lanes.add(lanes.mul(get(add), lanes.splat(0.25)), lanes.splat(0.5))))),
          ...(channels === 3 ? colour : grey),
          forward(samples, 2 * channels * SHARPEN_STEP),
          ...Array.from({ length: 13 }, (_, k) => k + 1)
            .filter((local) => local !== end)
            .map((local) => forward(local, VECTOR)),
        ],
        i32.lessThan(get(own), get(end)),
      ),
    ],
  );
}
