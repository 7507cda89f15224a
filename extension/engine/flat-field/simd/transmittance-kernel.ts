/** The WebAssembly kernel that turns samples into transmittance. */
import { get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";

/** Places in the block of constants, all 32-bit floats: black level, place within the band of gains, T's offset over twelve samples. */
export const CONSTANTS = { black: 0, place: 1, offset: 4, count: 16 };

/** Pixels that go through at a time: three vectors of interleaved channels. */
export const TRANSMITTANCE_STEP = 4;

/**
 * Transmittance of a row of samples, three channels interleaved: (sample − black) · (start + place · slope) − offset.
 * Addresses: the constants, samples (16 bits), starts and slopes of the gains, the target (32-bit floats), the target's
 * end. All need room for three pixels more.
 */
export function transmittanceModule(): Uint8Array {
  const [constants, samples, starts, slopes, target, end] = [0, 1, 2, 3, 4, 5];
  const one = (k: number) => lanes.loadSplat(get(constants), 4 * k);
  const third = (k: number) => {
    const signal = lanes.sub(lanes.fromI32(lanes.load16(get(samples), 8 * k)), one(CONSTANTS.black));
    const gain = lanes.add(
      lanes.load(get(starts), 16 * k),
      lanes.mul(one(CONSTANTS.place), lanes.load(get(slopes), 16 * k)),
    );
    const offset = lanes.load(get(constants), 4 * (CONSTANTS.offset + 4 * k));
    return lanes.store(get(target), lanes.sub(lanes.mul(signal, gain), offset), 16 * k);
  };
  const forward = (local: number, bytes: number) => set(local, i32.add(get(local), i32.value(bytes)));
  return moduleOf(
    ["i32", "i32", "i32", "i32", "i32", "i32"],
    [],
    [
      repeat(
        [
          ...[0, 1, 2].map(third),
          forward(samples, 6 * TRANSMITTANCE_STEP),
          ...[starts, slopes, target].map((local) => forward(local, 12 * TRANSMITTANCE_STEP)),
        ],
        i32.lessThan(get(target), get(end)),
      ),
    ],
  );
}
