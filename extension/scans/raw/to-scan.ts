/** From recorded numbers to a scan. */
import type { LinearScan } from "../../engine/types.ts";
import { demosaicBayer } from "./bayer.ts";
import { halfSize } from "./half.ts";
import { levelsFor, levelsOf, type Mosaic, type Part, type SampleMemory } from "./mosaic.ts";
import type { LinearPicture } from "./read-raw.ts";
import { demosaicXTrans } from "./xtrans.ts";

/** Smaller sensors than this have no neighbours to interpolate from. */
export const MIN_SIDE = 12;

/** How a full-size colour scan is made. */
export interface FullSize {
  /** Gives its memory. */
  readonly memory?: SampleMemory;
  /** Changes what was recorded, before the colours of filters that repeat every 2 × 2 sites are interpolated. */
  readonly beforeDemosaic?: (mosaic: Mosaic) => void;
  /** The part of it that is wanted, from its width and height; the whole where absent. */
  readonly part?: (width: number, height: number) => Part;
}

/** What a file holds, before colours are interpolated: a mosaic, or a picture. */
export type Unpacked =
  | { readonly kind: "mosaic"; readonly mosaic: Mosaic }
  | { readonly kind: "picture"; readonly scan: LinearScan };

/**
 * The scan that was unpacked, or a part of it, at full or half size.
 * @param keep whether what was unpacked is needed again: it is left as it is then, and shares no memory with the scan
 */
export function scanOf(unpacked: Unpacked, { half, keep, ...wanted }: FullSize & UnpackedUse): LinearScan {
  if (unpacked.kind === "picture") {
    const { scan } = unpacked;
    return half ? halveScan(scan) : keep ? copyOf(scan, wanted) : scan;
  }
  const { mosaic } = unpacked;
  // What is recorded is changed in place.
  const own = keep && wanted.beforeDemosaic && !half ? { ...mosaic, data: mosaic.data.slice() } : mosaic;
  return scanOfMosaic(own, half, wanted);
}

export interface UnpackedUse {
  readonly half: boolean;
  readonly keep: boolean;
}

/** Memory that is not written to is not taken from the system: rows outside the part cost nothing. */
function copyOf(scan: LinearScan, { memory, part }: FullSize): LinearScan {
  const { width, height, channels } = scan;
  const data = memory ? memory(scan.data.length) : new Uint16Array(scan.data.length);
  const { top, height: rows } = part?.(width, height) ?? { top: 0, height };
  const [from, to] = [top * width * channels, (top + rows) * width * channels];
  data.set(scan.data.subarray(from, to), from);
  return { ...scan, data };
}

export function scanOfMosaic(mosaic: Mosaic, half: boolean, wanted: FullSize = {}): LinearScan {
  const { pedestal, scale } = levelsOf(mosaic);
  const channels = mosaic.monochrome ? 1 : 3;
  const size = half ? { width: mosaic.width >> 1, height: mosaic.height >> 1 } : mosaic;
  const data = half ? halfSize(mosaic) : fullSize(mosaic, wanted);
  return { width: size.width, height: size.height, channels, data, black: pedestal, scale };
}

function fullSize(mosaic: Mosaic, { memory, part, beforeDemosaic }: FullSize): Uint16Array {
  if (mosaic.monochrome) return monochrome(mosaic);
  if (mosaic.period === 2) beforeDemosaic?.(mosaic);
  const demosaic = mosaic.period === 6 ? demosaicXTrans : demosaicBayer;
  return demosaic(mosaic, undefined, memory, part?.(mosaic.width, mosaic.height));
}

function monochrome(mosaic: Mosaic): Uint16Array {
  const { width, height, stride, left, top, data, black, period } = mosaic;
  const { gain, pedestal } = levelsOf(mosaic);
  const out = new Uint16Array(width * height);
  for (let y = 0; y < height; y++) {
    const from = (top + y) * stride + left;
    for (let x = 0; x < width; x++) {
      const level = black[(y % period) * period + (x % period)];
      out[y * width + x] = toNumber((data[from + x] - level) * gain + pedestal);
    }
  }
  return out;
}

/** Linear colours as stored; `black` holds one level, or one a channel. The picture's own memory is used. */
export function scanOfLinear(picture: LinearPicture, black: readonly number[], white: number): LinearScan {
  const { width, height, channels, data } = picture;
  const { gain, pedestal, scale } = levelsFor(white - Math.max(...black));
  for (let channel = 0; channel < channels; channel++) {
    const level = black[Math.min(channel, black.length - 1)];
    for (let i = channel; i < data.length; i += channels) data[i] = toNumber((data[i] - level) * gain + pedestal);
  }
  return { width, height, channels, data, black: pedestal, scale };
}

function toNumber(value: number): number {
  return value < 0 ? 0 : value > 65535 ? 65535 : value;
}

/** Mean of every 2 × 2 pixels; an odd last row or column is left off. */
export function halveScan(scan: LinearScan): LinearScan {
  const { channels, data } = scan;
  const width = scan.width >> 1;
  const height = scan.height >> 1;
  const row = scan.width * channels;
  const out = new Uint16Array(width * height * channels);
  let at = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let channel = 0; channel < channels; channel++) {
        const i = 2 * y * row + 2 * x * channels + channel;
        out[at++] = (data[i] + data[i + channels] + data[i + row] + data[i + row + channels] + 2) >> 2;
      }
  return { ...scan, width, height, data: out };
}
