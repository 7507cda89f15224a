/** How far two pictures are apart, pixel by pixel. */
import { apply } from "../math/matrix.ts";
import type { OutputSpace, Raster } from "../types.ts";
import { deltaE2000 } from "./difference.ts";
import { type Lab, labOf } from "./lab.ts";
import { SPACES, toD50 } from "./spaces.ts";

/** ΔE00 (ISO/CIE 11664-6) of every pixel, and what they come to. */
export interface PictureDifference {
  readonly width: number;
  readonly height: number;
  readonly deltaE: Float32Array;
  readonly mean: number;
  /** 95 of 100 pixels differ by no more. */
  readonly p95: number;
  readonly max: number;
}

type Sixteen = Raster<Uint16Array>;

/**
 * Compares two pictures of one size whose 16-bit samples are in the same space; either may be grey. Seen under D50.
 * @throws RangeError when their sizes differ
 */
export function pictureDifference(a: Sixteen, b: Sixteen, space: OutputSpace): PictureDifference {
  const { width, height } = a;
  if (b.width !== width || b.height !== height)
    throw new RangeError(`Pictures of ${width} × ${height} and ${b.width} × ${b.height} pixels cannot be compared.`);
  const [first, second] = [labReader(a, space), labReader(b, space)];
  const deltaE = new Float32Array(width * height);
  let sum = 0;
  for (let i = 0; i < deltaE.length; i++) {
    if (samePixel(a, b, i)) continue;
    deltaE[i] = deltaE2000(first(i), second(i));
    sum += deltaE[i];
  }
  const sorted = deltaE.toSorted();
  const p95 = sorted[Math.min(sorted.length - 1, Math.ceil(0.95 * sorted.length) - 1)] ?? 0;
  return { width, height, deltaE, mean: sum / Math.max(1, deltaE.length), p95, max: sorted.at(-1) ?? 0 };
}

function samePixel(a: Sixteen, b: Sixteen, i: number): boolean {
  if (a.channels !== b.channels) return false;
  const at = i * a.channels;
  for (let c = 0; c < a.channels; c++) if (a.data[at + c] !== b.data[at + c]) return false;
  return true;
}

function labReader({ data, channels }: Sixteen, space: OutputSpace): (pixel: number) => Lab {
  const { decode } = SPACES[space];
  const matrix = toD50(SPACES[space]);
  const linear = Float32Array.from({ length: 65536 }, (_, code) => decode(code / 65535));
  return (pixel) => {
    const at = pixel * channels;
    const red = linear[data[at]];
    if (channels === 1) return labOf(apply(matrix, [red, red, red]));
    return labOf(apply(matrix, [red, linear[data[at + 1]], linear[data[at + 2]]]));
  };
}
