/** Where a downsampled scan shows picture, bare light, or nothing because a holder hides it. */
import type { DensityAboveBase } from "../edges.ts";

export const CLEAR = 0;
export const PICTURE = 1;
/** Bare light: perforations, and light beside the film. */
export const BARE = 2;
/** Under the holder, or within its soft border. */
export const HIDDEN = 3;

/** One of the four classes a pixel; clear is film as thin as its base. */
export interface PictureMap {
  readonly width: number;
  readonly height: number;
  readonly kind: Uint8Array;
}

/** Mean density above base of 3 × 3 pixels from which they are picture: a night's black lies below, D. */
const MIN_PICTURE = 0.03;
/** Thinner than base by this much is no film, D. */
const MAX_BARE = -0.07;
/** Width of a holder's soft border, pixels. */
const BORDER = 4;

/** Classes of all pixels, by means of 3 × 3. */
export function pictureMapOf({ width, height, value }: DensityAboveBase): PictureMap {
  const kind = new Uint8Array(width * height);
  const sums = new Float32Array(width);
  for (let y = 0; y < height; y++) {
    const rows = [Math.max(0, y - 1), y, Math.min(height - 1, y + 1)].map((r) => r * width);
    for (let x = 0; x < width; x++) sums[x] = value[rows[0] + x] + value[rows[1] + x] + value[rows[2] + x];
    for (let x = 0; x < width; x++) {
      const mean = (sums[Math.max(0, x - 1)] + sums[x] + sums[Math.min(width - 1, x + 1)]) / 9;
      kind[y * width + x] = Number.isNaN(mean) ? HIDDEN : mean > MIN_PICTURE ? PICTURE : mean < MAX_BARE ? BARE : CLEAR;
    }
  }
  return { width, height, kind: withBorder(kind, width, height) };
}

/** Hidden pixels grown by the holder's soft border. */
function withBorder(kind: Uint8Array, width: number, height: number): Uint8Array {
  const across = Uint8Array.from(kind);
  const grow = (from: Uint8Array, to: Uint8Array, lines: number, line: number, length: number, step: number): void => {
    for (let l = 0; l < lines; l++) {
      let last = -Infinity;
      for (let k = 0; k < length; k++) {
        const i = l * line + k * step;
        if (from[i] === HIDDEN) last = k;
        else if (k - last <= BORDER) to[i] = HIDDEN;
      }
      last = Infinity;
      for (let k = length - 1; k >= 0; k--) {
        const i = l * line + k * step;
        if (from[i] === HIDDEN) last = k;
        else if (last - k <= BORDER) to[i] = HIDDEN;
      }
    }
  };
  grow(kind, across, height, width, width, 1);
  const out = Uint8Array.from(across);
  grow(across, out, width, 1, height, width);
  return out;
}

/** The same map with rows and columns exchanged. */
export function transposed({ width, height, kind }: PictureMap): PictureMap {
  const out = new Uint8Array(kind.length);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) out[x * height + y] = kind[y * width + x];
  return { width: height, height: width, kind: out };
}
