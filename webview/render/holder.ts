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

/**
 * How far the holder's edge reaches, as a part of the scan's longer side: the holder lies off the plane of focus, and half
 * of its shadow would print as a bright, coloured fringe. Chosen by judgement, no source: 18 px of a scan of 24 megapixels.
 */
export const HOLDER_EDGE = 0.003;

/** What lies under the pixels of a part of the canvas. */
export interface HolderGround {
  readonly codes: Uint16Array;
  /** Index of a row's first pixel in `codes`. */
  readonly offset: (row: number) => number;
  /** HOLDER_EDGE in pixels of the canvas. */
  readonly reach: number;
}

/** Blackens the holder and its edge in RGBA pixels of a part of the canvas. */
export function blackenHolder(
  pixels: Uint8ClampedArray,
  part: Box,
  { codes, offset, reach }: HolderGround,
  { limit, toCrop }: HolderMask,
): void {
  const { width, height } = part;
  const dark = new Uint8Array(width * height);
  for (let row = 0, k = 0; row < height; row++)
    for (let column = 0, i = offset(row) * 3; column < width; column++, i += 3, k++)
      if (codes[i]! + codes[i + 1]! + codes[i + 2]! <= limit) dark[k] = 1;
  spreadAlong(dark, { lines: height, from: width, length: width, step: 1 }, reach);
  spreadAlong(dark, { lines: width, from: 1, length: height, step: width }, reach);
  for (let row = 0, k = 0; row < height; row++)
    for (let column = 0; column < width; column++, k++) {
      if (!dark[k]) continue;
      const [u, v] = apply(toCrop, [part.x + column + 0.5, part.y + row + 0.5]);
      if (u < 0 || v < 0 || u > 1 || v > 1) pixels.fill(0, 4 * k, 4 * k + 3);
    }
}

/** Marks what lies within `reach` pixels of a mark on the same line. @param lines how many, and how they lie in memory */
function spreadAlong(
  marks: Uint8Array,
  { lines, from, length, step }: { lines: number; from: number; length: number; step: number },
  reach: number,
): void {
  const before = new Uint8Array(length);
  for (let line = 0; line < lines; line++) {
    const start = line * from;
    for (let i = 0; i < length; i++) before[i] = marks[start + i * step]!;
    for (let i = 0, last = -Infinity; i < length; i++) {
      if (before[i]) last = i;
      if (i - last <= reach) marks[start + i * step] = 1;
    }
    for (let i = length - 1, last = Infinity; i >= 0; i--) {
      if (before[i]) last = i;
      if (last - i <= reach) marks[start + i * step] = 1;
    }
  }
}
