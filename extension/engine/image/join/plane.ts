/** What measuring a join keeps of a scan: its green density, and its tones made small. */
import { type LightSetup, readTransmittance } from "../../flat-field/transmittance.ts";
import type { LinearScan } from "../../types.ts";

export interface JoinPlane {
  readonly width: number;
  readonly height: number;
  /** Green density, the plane that grain and picture show best in. */
  readonly density: Float32Array;
  /** Mean transmittance of squares of `TONE_STEP` pixels, three channels interleaved. */
  readonly tones: { readonly width: number; readonly height: number; readonly data: Float32Array };
}

/** Pixels along a side of a square of `tones`. */
export const TONE_STEP = 8;

const DARKEST = 1e-3;

export function joinPlane(scan: LinearScan, light: LightSetup): JoinPlane {
  const { width, height } = scan;
  const density = new Float32Array(width * height);
  const [columns, rows] = [Math.floor(width / TONE_STEP), Math.floor(height / TONE_STEP)];
  const data = new Float32Array(columns * rows * 3);
  const share = 1 / (TONE_STEP * TONE_STEP);
  const row = new Float32Array(width * 3);
  const reader = readTransmittance(scan, light);
  for (let y = 0; y < height; y++) {
    reader.row(y, row);
    for (let x = 0, k = y * width; x < width; x++) density[k + x] = -Math.log10(Math.max(DARKEST, row[x * 3 + 1]));
    const below = Math.floor(y / TONE_STEP);
    if (below >= rows) continue;
    for (let x = 0; x < columns * TONE_STEP; x++) {
      const o = (below * columns + Math.floor(x / TONE_STEP)) * 3;
      for (let c = 0; c < 3; c++) data[o + c] += row[x * 3 + c] * share;
    }
  }
  return { width, height, density, tones: { width: columns, height: rows, data } };
}
