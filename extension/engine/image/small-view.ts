/** A scan as the camera saw it, small and grey: for reports. */
import { clamp } from "../math/clamp.ts";
import type { LinearScan, Raster } from "../types.ts";

/** Exponent that makes linear light fit for a screen. */
const DISPLAY_GAMMA = 2.4;

/**
 * Every n-th pixel of the scan's green (or only) channel, encoded for a screen.
 *
 * @param most pixels across, at most
 */
export function smallGreyView(scan: LinearScan, most: number): Raster<Uint8Array> & { readonly channels: 1 } {
  const { width, height, channels, data, black, scale } = scan;
  const step = Math.max(1, Math.ceil(width / most));
  const [w, h] = [Math.floor(width / step), Math.floor(height / step)];
  const view = new Uint8Array(w * h);
  const green = channels === 3 ? 1 : 0;
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const signal = (data[(y * step * width + x * step) * channels + green] - black) * scale;
      view[y * w + x] = 255 * clamp(signal, 0, 1) ** (1 / DISPLAY_GAMMA);
    }
  return { width: w, height: h, channels: 1, data: view };
}
