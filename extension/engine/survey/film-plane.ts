import type { LightSetup } from "../transmittance.ts";
import { readTransmittance } from "../transmittance.ts";
import type { LinearScan } from "../types.ts";

/** A whole scan as transmittance, three channels interleaved. */
export interface FilmPlane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

export function filmPlane(scan: LinearScan, light: LightSetup): FilmPlane {
  const { width, height } = scan;
  const data = new Float32Array(width * height * 3);
  const reader = readTransmittance(scan, light);
  for (let y = 0; y < height; y++) reader.row(y, data.subarray(y * width * 3, (y + 1) * width * 3));
  return { width, height, data };
}

/** A rectangle in whole pixels. */
export interface PixelBox {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** The pixels of a box in fractions, inside the picture. */
export function pixelBox(
  size: { width: number; height: number },
  left: number,
  top: number,
  right: number,
  bottom: number,
): PixelBox {
  const across = (v: number): number => Math.min(size.width, Math.max(0, Math.round(v * size.width)));
  const down = (v: number): number => Math.min(size.height, Math.max(0, Math.round(v * size.height)));
  return { x0: across(left), y0: down(top), x1: across(right), y1: down(bottom) };
}
