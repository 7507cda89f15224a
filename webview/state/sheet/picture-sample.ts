/** A picture's means for comparing frames, from a proxy of the whole scan. */
import { type PictureSample, sampleOf } from "../../../extension/engine/auto/balance.ts";
import type { Area } from "../../../extension/engine/types.ts";
import { type Source, transmittanceOf } from "../../render/source.ts";

/** @param area the frame's crop, in fractions of the scan */
export function pictureSample({ levels, part, scanWidth, scanHeight }: Source, area: Area): PictureSample {
  const grid = levels[levels.length - 1]!;
  const { width, height } = grid;
  const own = {
    ...area,
    left: (area.left - part.left) / part.width,
    top: (area.top - part.top) / part.height,
    width: area.width / part.width,
    height: area.height / part.height,
  };
  const shrink = Math.max(1, Math.round(scanWidth / width));
  const clipped = new Uint8Array(width * height);
  const scan = { width, height, shrink, scanWidth, scanHeight, t: transmittanceOf(grid), clipped, absolute: true };
  return sampleOf(scan, own);
}
