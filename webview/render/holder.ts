/** The holder around the film: it lets no light through, so a print of it would be white. Outside the crop it is black. */
import { HOLDER_DENSITY } from "../../extension/engine/detect/edges.ts";
import { CODE_DENSITY, CODE_STEP } from "../../extension/engine/plan/log-code.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import { type Affine, apply } from "../state/affine.ts";
import type { Box } from "../state/frame-transform.ts";

export interface HolderMask {
  /** Codes whose sum is no greater than this are the holder's: film is not so dense. */
  readonly limit: number;
  /** From the canvas to the crop: 0 … 1 in both directions inside, where everything is picture. */
  readonly toCrop: Affine;
}

/** Sum of the three codes of a pixel whose mean density above base is the holder's; undefined for slides, where it is black anyway. */
export const holderLimit = ({ film, base }: FrameLook): number | undefined =>
  film === "slide" ? undefined : (3 * (CODE_DENSITY - HOLDER_DENSITY) - base[0] - base[1] - base[2]) / CODE_STEP;

/** Blackens the holder in RGBA pixels of a part of the canvas. @param codes what lies under them @param codeOffset the first of a row */
export function blackenHolder(
  pixels: Uint8ClampedArray,
  part: Box,
  codes: Uint16Array,
  codeOffset: (row: number) => number,
  { limit, toCrop }: HolderMask,
): void {
  for (let row = 0; row < part.height; row++) {
    let i = codeOffset(row) * 3;
    for (let column = 0, k = row * part.width * 4; column < part.width; column++, i += 3, k += 4) {
      if (codes[i] + codes[i + 1] + codes[i + 2] > limit) continue;
      const [u, v] = apply(toCrop, [part.x + column + 0.5, part.y + row + 0.5]);
      if (u < 0 || v < 0 || u > 1 || v > 1) pixels.fill(0, k, k + 3);
    }
  }
}
