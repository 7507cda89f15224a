/** The WebAssembly kernel from samples to finished pictures. */
import { type Code, get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";
import { chainParts, type ChainTables } from "./chain-parts.ts";
import type { PrintOffsets } from "./tables.ts";
import { interleave } from "./interleave.ts";

/** Where things lie in the kernel's memory, in bytes. Tables hold pairs of 32-bit floats, intercept and slope. */
export interface FrameLayout extends ChainTables {
  /** Single 32-bit floats: see `CONSTANTS`. */
  readonly constants: number;
  readonly log: number;
  /** For each output: the second matrix, row by row, and each channel's address of the print segment for a zero float. */
  readonly outputs: readonly { readonly colour: number; readonly print: PrintOffsets }[];
}

/**
 * Places in the block of constants: black level, place within the band of gains, T's offset as it repeats over twelve
 * samples, the first matrix row by row and its offset.
 */
export const CONSTANTS = { black: 0, place: 1, offset: 4, unmix: 16, shift: 25, count: 28 };

/** Pixels that go through side by side. */
export const FRAME_STEP = 4;

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

  const parts = chainParts(layout, [r, g, b], [x, y, z], [low, high]);
  const constant = (k: number, vector = false): Code =>
    (vector ? lanes.load : lanes.loadSplat)(i32.value(layout.constants), 4 * k);

  /** Twelve samples to densities in x, y, z. */
  const densities = [x, y, z].flatMap((v, k) => {
    const signal = lanes.sub(lanes.fromI32(lanes.load16(get(samples), 8 * k)), constant(CONSTANTS.black));
    const slope = lanes.mul(constant(CONSTANTS.place), lanes.load(get(slopes), 16 * k));
    const gain = lanes.add(lanes.load(get(gains), 16 * k), slope);
    return [
      set(v, lanes.sub(lanes.mul(signal, gain), constant(CONSTANTS.offset + 4 * k, true))),
      ...parts.lookup(v, parts.floatIndex(v), layout.log, k),
    ];
  });
  const exposures = parts.exposures(layout.constants + 4 * CONSTANTS.unmix, layout.constants + 4 * CONSTANTS.shift);
  const finished = layout.outputs.flatMap(({ colour, print }, o) => [
    ...parts.finished(colour, print),
    ...interleave(get(target(o)), [r, g, b], [low, high]),
    set(target(o), i32.add(get(target(o)), i32.value(6 * FRAME_STEP))),
  ]);

  return moduleOf(
    ["i32", "i32", "i32", "i32", ...layout.outputs.map(() => "i32" as const)],
    Array.from({ length: 8 }, () => "v128" as const),
    [
      repeat(
        [
          ...densities,
          ...parts.apart,
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
