/** Small crops of a scan at half size, by which two scans' focus can be compared by eye: the middle and four corners. */
import { clamp } from "../../../engine/math/clamp.ts";
import type { FilmPlane } from "../../../engine/flat-field/film-plane.ts";
import { quantile } from "../../../engine/math/statistics.ts";
import type { Area } from "../../../engine/types.ts";
import { encodePicture } from "../../../scans/output/encode.ts";

/** Side of a crop in pixels of the half-size scan. */
export const CROP = 128;

/** Middles of the crops in the picture: the order of FOCUS_PLACES. */
const MIDDLES = [
  [0.5, 0.5],
  [0.18, 0.18],
  [0.82, 0.18],
  [0.18, 0.82],
  [0.82, 0.82],
] as const;

/** One row of five grey crops, as a JPEG file's bytes; each has the contrast that shows its grain best. */
export function grainCrops(plane: FilmPlane, area: Area): Promise<Uint8Array> {
  const side = Math.min(CROP, Math.floor(Math.min(plane.width * area.width, plane.height * area.height) / 4));
  const data = new Uint8Array(side * MIDDLES.length * side);
  MIDDLES.forEach(([u, v], k) => {
    const x0 = pixelWithin((area.left + u * area.width) * plane.width - side / 2, plane.width - side);
    const y0 = pixelWithin((area.top + v * area.height) * plane.height - side / 2, plane.height - side);
    const density = new Float32Array(side * side);
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++)
        density[y * side + x] = -Math.log10(Math.max(1e-3, plane.data[((y0 + y) * plane.width + x0 + x) * 3 + 1]));
    const [low, high] = [quantile(density, 0.01), quantile(density, 0.99)];
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++) {
        const part = (density[y * side + x] - low) / Math.max(1e-6, high - low);
        data[y * side * MIDDLES.length + k * side + x] = 255 * Math.min(1, Math.max(0, part));
      }
  });
  const picture = { width: side * MIDDLES.length, height: side, channels: 1, data } as const;
  return encodePicture(picture, { type: "jpeg", depth: 8, space: "srgb", quality: 90 }, {});
}

const pixelWithin = (value: number, max: number): number => Math.round(clamp(value, 0, max));
