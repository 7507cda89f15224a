/** The WebAssembly kernel of grey closing: the greater or the lower of two rows of 16-bit samples. */
import { get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";

/** Bytes that go through at a time: eight samples of 16 bits. */
const VECTOR = 16;

/**
 * The greater (or the lower) of two rows of 16-bit samples, one by one. Addresses: the rows, the target, the target's
 * end. All need room for a vector more. The target may be the first row, and the second may be the same, further on.
 */
export function extremesModule(isMaximum: boolean): Uint8Array {
  const [a, b, target, end] = [0, 1, 2, 3];
  const extreme = isMaximum ? lanes.higher16 : lanes.lower16;
  const forward = (local: number) => set(local, i32.add(get(local), i32.value(VECTOR)));
  return moduleOf(
    ["i32", "i32", "i32", "i32"],
    [],
    [
      repeat(
        [lanes.store(get(target), extreme(lanes.load(get(a)), lanes.load(get(b)))), ...[a, b, target].map(forward)],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}
