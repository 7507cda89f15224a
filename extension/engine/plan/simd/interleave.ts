/** Interleaves three vectors of one channel each into samples of four pixels. */
import { type Code, get, lanes, set, tee } from "../../wasm/assembler.ts";

/**
 * Four pixels' red, green and blue, a vector of 32-bit floats each, as 16-bit samples side by side: cut to whole numbers
 * and held within 0 … 65535. Writes 24 bytes at `target`.
 *
 * @param channels locals of red, green and blue; what they hold is lost
 * @param spare two locals to work in
 */
export function interleave(
  target: Code,
  [r, g, b]: readonly [number, number, number],
  [low, high]: readonly [number, number],
): Code[] {
  return [
    // 16-bit lanes: low is r0 … r3 g0 … g3, high is b0 … b3 twice.
    set(low, lanes.narrow(lanes.toI32(get(r)), lanes.toI32(get(g)))),
    set(high, lanes.narrow(tee(b, lanes.toI32(get(b))), get(b))),
    lanes.store(target, lanes.pick16(get(low), get(high), [0, 4, 8, 1, 5, 9, 2, 6])),
    lanes.storeLow(target, lanes.pick16(get(low), get(high), [10, 3, 7, 11, 11, 11, 11, 11]), 16),
  ];
}
