/** The WebAssembly kernel that averages the surroundings of many places by distance. */
import { get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";

/** 32-bit floats that a place around has: x, y, red, green, blue. */
export const AROUND = 5;

/**
 * What each of many places would be by its surroundings: the means of red, green and blue around it, weighted by 1 over
 * the square of the distance. No place may lie on one of the surroundings. Addresses: the places' x and y, the
 * surroundings (see `AROUND`) and their end, the means of red, green and blue, the places' end in x. Four places go at a
 * time: all but the surroundings need room for three more.
 */
export function surroundingsModule(): Uint8Array {
  const [xs, ys, ring, ringEnd, red, green, blue, end] = [0, 1, 2, 3, 4, 5, 6, 7];
  const at = 8;
  const [x, y, d, e, weights, r, g, b] = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => 9 + k);
  const forward = (local: number, bytes: number) => set(local, i32.add(get(local), i32.value(bytes)));
  const weighted = (sum: number, k: number) =>
    set(sum, lanes.add(get(sum), lanes.mul(get(d), lanes.loadSplat(get(at), 4 * k))));
  return moduleOf(
    Array.from({ length: 8 }, () => "i32" as const),
    ["i32", ...Array.from({ length: 8 }, () => "v128" as const)],
    [
      repeat(
        [
          set(x, lanes.load(get(xs))),
          set(y, lanes.load(get(ys))),
          ...[weights, r, g, b].map((sum) => set(sum, lanes.splat(0))),
          set(at, get(ring)),
          repeat(
            [
              set(d, lanes.sub(lanes.loadSplat(get(at)), get(x))),
              set(e, lanes.sub(lanes.loadSplat(get(at), 4), get(y))),
              set(e, lanes.add(lanes.mul(get(d), get(d)), lanes.mul(get(e), get(e)))),
              set(d, lanes.divide(lanes.splat(1), get(e))),
              set(weights, lanes.add(get(weights), get(d))),
              ...[r, g, b].map((sum, c) => weighted(sum, 2 + c)),
              forward(at, 4 * AROUND),
            ],
            i32.lessThan(get(at), get(ringEnd)),
          ),
          lanes.store(get(red), lanes.divide(get(r), get(weights))),
          lanes.store(get(green), lanes.divide(get(g), get(weights))),
          lanes.store(get(blue), lanes.divide(get(b), get(weights))),
          ...[xs, ys, red, green, blue].map((local) => forward(local, 16)),
        ],
        i32.lessThan(get(xs), get(end)),
      ),
    ],
  );
}
