/** The film beside the picture as pictures of grey levels, for what is printed on its edges. */
import type { Area, Rgb } from "../../types.ts";
import type { DownsampledScan } from "../downsampled-scan.ts";

/** A part of a downsampled scan; grey levels 0 … 255, the unexposed film and all that is lighter at 255. */
export interface EdgeBand {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  /** Its first pixel in the downsampled scan. */
  readonly left: number;
  readonly top: number;
}

/** A margin narrower than this, in parts of the scan's shorter side, shows no code. */
const MIN_MARGIN = 0.02;
/** Levels are spread so that prints of little density can be told from the base. */
const GAMMA = 0.6;

/**
 * The margins above, below and beside the picture; the whole scan where no picture is known.
 * @param base density of the unexposed film; where unknown, the lightest tenth of a band stands for it
 */
export function edgeBands(downsampled: DownsampledScan, area: Area | undefined, base: Rgb | undefined): EdgeBand[] {
  const { width, height } = downsampled;
  if (!area) return [band(downsampled, 0, 0, width, height, base)];
  // The corners of a tilted picture reach beyond its sides.
  const slope = Math.abs(Math.sin((area.tilt * Math.PI) / 180));
  const [dx, dy] = [(slope * area.height * height) / 2, (slope * area.width * width) / 2];
  const left = Math.round(area.left * width - dx);
  const right = Math.round((area.left + area.width) * width + dx);
  const top = Math.round(area.top * height - dy);
  const bottom = Math.round((area.top + area.height) * height + dy);
  const minMargin = MIN_MARGIN * Math.min(width, height);
  const bands: EdgeBand[] = [];
  if (top > minMargin) bands.push(band(downsampled, 0, 0, width, top, base));
  if (height - bottom > minMargin) bands.push(band(downsampled, 0, bottom, width, height, base));
  if (left > minMargin) bands.push(band(downsampled, 0, 0, left, height, base));
  if (width - right > minMargin) bands.push(band(downsampled, right, 0, width, height, base));
  return bands;
}

function band(
  { t, width }: DownsampledScan,
  left: number,
  top: number,
  right: number,
  bottom: number,
  base: Rgb | undefined,
): EdgeBand {
  const [w, h] = [right - left, bottom - top];
  const green = new Float32Array(w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) green[y * w + x] = Math.max(0, t[((y + top) * width + x + left) * 3 + 1]);
  const clear = base ? 10 ** -base[1] : Float32Array.from(green).sort()[Math.floor(0.9 * green.length)];
  // Bare light in perforations must not set the scale.
  const data = new Uint8Array(green.length);
  for (let i = 0; i < data.length; i++) data[i] = 255 * Math.min(1, green[i] / Math.max(clear, 1e-6)) ** GAMMA;
  return { width: w, height: h, data, left, top };
}
