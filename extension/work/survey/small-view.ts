import type { LinearScan } from "../../engine/types.ts";
import { encodePicture } from "../../scans/output/encode.ts";
import { clamp } from "../../engine/math/clamp.ts";

/** A small picture of a scan for a survey's report, as the camera saw it: grey, a JPEG file's bytes. */
export interface SmallView {
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

/** Pixels across, at most. */
const WIDTH = 360;

export async function viewOf({ width, height, channels, data, black, scale }: LinearScan): Promise<SmallView> {
  const step = Math.max(1, Math.ceil(width / WIDTH));
  const [w, h] = [Math.floor(width / step), Math.floor(height / step)];
  const view = new Uint8Array(w * h);
  const green = channels === 3 ? 1 : 0;
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const signal = (data[(y * step * width + x * step) * channels + green] - black) * scale;
      view[y * w + x] = 255 * clamp(signal, 0, 1) ** (1 / 2.4);
    }
  const picture = { width: w, height: h, channels: 1, data: view } as const;
  const bytes = await encodePicture(picture, { type: "jpeg", depth: 8, space: "srgb", quality: 78 }, {});
  return { width: w, height: h, bytes };
}
