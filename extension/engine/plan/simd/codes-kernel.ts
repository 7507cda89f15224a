/** The WebAssembly kernel that runs a plan over log codes. */
import { type Code, get, i32, lanes, moduleOf, repeat, set } from "../../wasm/assembler.ts";
import type { PrintOffsets } from "./tables.ts";
import { chainParts, type ChainTables } from "./chain-parts.ts";

/** Where things lie in the kernel's memory, in bytes. */
export interface CodesLayout extends ChainTables {
  /** Matrices, row by row, and the offset between them: 32-bit floats. */
  readonly unmix: number;
  readonly offset: number;
  readonly colour: number;
  /** Address, for each channel, of its print table's segment for the float whose bits are all zero. */
  readonly print: PrintOffsets;
}

/** Pixels that go through side by side. */
export const CODES_STEP = 4;

/**
 * From log codes (log-code.ts) to 8-bit RGBA, opaque. A code is a density already, but for its scale, which is folded
 * into the first matrix: so there is no logarithm to look up. Parameters: address of the codes, of the pixels, and the
 * codes' end; four pixels go at a time, and both need room for three more.
 */
export function codesModule(layout: CodesLayout): Uint8Array {
  const [codes, pixels, end] = [0, 1, 2];
  const [x, y, z, r, g, b, low, high] = [3, 4, 5, 6, 7, 8, 9, 10];
  const parts = chainParts(layout, [r, g, b], [x, y, z], [low, high]);
  const byte = (v: number, bits: number): Code => lanes.shiftLeft(lanes.toI32(get(v)), bits);
  return moduleOf(
    ["i32", "i32", "i32"],
    Array.from({ length: 8 }, () => "v128" as const),
    [
      repeat(
        [
          ...[x, y, z].map((v, k) => set(v, lanes.fromI32(lanes.load16(get(codes), 8 * k)))),
          ...parts.apart,
          ...parts.exposures(layout.unmix, layout.offset),
          ...parts.finished(layout.colour, layout.print),
          lanes.store(
            get(pixels),
            lanes.or(lanes.or(lanes.toI32(get(r)), byte(g, 8)), lanes.or(byte(b, 16), lanes.splatI32(0xff << 24))),
          ),
          set(codes, i32.add(get(codes), i32.value(6 * CODES_STEP))),
          set(pixels, i32.add(get(pixels), i32.value(4 * CODES_STEP))),
        ],
        i32.lessThan(get(codes), get(end)),
      ),
    ],
  );
}
