/** Sharpens a finished picture at its output size. */
import { enterArena, Allocator, type WasmArena } from "../wasm/memory-pool.ts";
import { alongModule, lumaModule, SHARPEN_CONSTANTS, SHARPEN_STEP, sharpenModule } from "./simd/sharpen-kernels.ts";
import type { Raster } from "../types.ts";
import { clamp } from "../math/clamp.ts";

/**
 * Highest gain on detail, at amount 1. One pass of a 5-tap binomial leaves detail of two pixels' period at 0 and takes
 * little from eight pixels' period, so the gain acts on what a print or screen at size loses: edges one or two pixels
 * wide.
 */
const GAIN = 1.2;
/** How far a pixel may go beyond its eight neighbours, as a part of their range: the halo limit, light and dark. */
const OVERSHOOT = 0.1;
/** log2 of the sum of the binomial weights 1 4 6 4 1 in both directions. */
const BLUR_BITS = 8;
/** Rows that the blur takes in, and how far it reaches. */
const ROWS = 5;
const REACH = 2;

/**
 * Output sharpening, in place: an unsharp mask of small radius (σ = 1 pixel) on a luminance-like sum (R + 2G + B),
 * added to all channels alike, so colours do not shift and colour noise is not raised. A pixel may leave the range of
 * its 3×3 neighbourhood by a tenth of that range and no more, so edges get no visible halo. Works on the encoded
 * picture (steps there are nearly even to the eye). Beyond the edges the edge pixels repeat.
 *
 * @param amount 0 (nothing) … 1.
 */
export function sharpen(picture: Raster<Uint16Array>, amount: number): void {
  if (!(amount > 0)) return;
  const { width, height, channels, data } = picture;
  const buffers = openSharpenBuffers(width, channels, GAIN * Math.min(1, amount));
  const row = (y: number): Uint16Array => data.subarray(y * width * channels, (y + 1) * width * channels);
  let read = -1;
  for (let y = 0; y < height; y++) {
    // Rows are read before they are written: what is added never feeds on itself.
    for (; read < Math.min(y + REACH, height - 1); read++) buffers.read(read + 1, row(read + 1));
    const at = (k: number): number => clamp(y + k, 0, height - 1);
    buffers.sharpen(row(y), [at(-2), at(-1), y, at(1), at(2)]);
  }
  buffers.arena.release();
}

/** Where a few rows of a picture lie while they are sharpened. */
interface SharpenBuffers {
  readonly arena: WasmArena;
  /** Takes in row y: its luminance, blurred along the row, and its extremes. */
  read(y: number, samples: Uint16Array): void;
  /** Sharpens the middle one of five rows that were read. */
  sharpen(samples: Uint16Array, rows: readonly [number, number, number, number, number]): void;
}

/** One row's luminance with `REACH` pixels before and after it, its blur (times 16) and its extremes over three pixels. */
interface LumaRow {
  readonly own: number;
  readonly blur: number;
  readonly low: number;
  readonly high: number;
}

function openSharpenBuffers(width: number, channels: 1 | 3, gain: number): SharpenBuffers {
  const places = new Allocator();
  const padded = width + SHARPEN_STEP + 2 * REACH;
  const constants = places.take(SHARPEN_CONSTANTS.bytes);
  const samplesAt = places.take(padded * channels * 2);
  const plane = (): number => places.take(padded * 4);
  const rows = Array.from({ length: ROWS }, (): LumaRow => ({
    own: plane() + 4 * REACH,
    blur: plane(),
    low: plane(),
    high: plane(),
  }));
  const arena = enterArena(places.end);
  const { buffer } = arena.memory;
  const numbers = new Float32Array(buffer, constants, SHARPEN_CONSTANTS.bytes / 4);
  numbers[SHARPEN_CONSTANTS.gain / 4] = gain / 2 ** BLUR_BITS;
  numbers[SHARPEN_CONSTANTS.overshoot / 4] = OVERSHOOT;
  const block = new Uint16Array(buffer, samplesAt, width * channels);
  const luma = arena.kernel(`luma ${channels}`, () => lumaModule(channels));
  const along = arena.kernel("along", alongModule);
  const kernel = arena.kernel(`sharpen ${channels}`, () => sharpenModule(channels, constants, BLUR_BITS));
  const planes = rows.map(({ own }) => new Int32Array(buffer, own - 4 * REACH, padded));
  return {
    arena,
    read(y, samples) {
      const { own, blur, low, high } = rows[y % ROWS];
      block.set(samples);
      luma(samplesAt, own, own + 4 * width);
      const plane = planes[y % ROWS];
      plane.fill(plane[REACH], 0, REACH);
      plane.fill(plane[REACH + width - 1], REACH + width);
      along(own, own + 4 * width, blur, low, high);
    },
    sharpen(samples, five) {
      const taken = five.map((y) => rows[y % ROWS]);
      const { own } = taken[REACH];
      const near = taken.slice(1, -1);
      block.set(samples);
      kernel(
        samplesAt,
        own,
        own + 4 * width,
        ...taken.map((row) => row.blur),
        ...near.map((row) => row.low),
        ...near.map((row) => row.high),
      );
      samples.set(block);
    },
  };
}
