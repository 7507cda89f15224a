import type { Raster } from "./types.ts";

/**
 * Highest gain on detail, at amount 1. One pass of a 5-tap binomial leaves detail of two pixels' period at 0 and takes
 * little from eight pixels' period, so the gain acts on what a print or screen at size loses: edges one or two pixels
 * wide.
 */
const GAIN = 1.2;
/** How far a pixel may go beyond its eight neighbours, as a part of their range: the halo limit, light and dark. */
const OVERSHOOT = 0.1;

/**
 * Output sharpening, in place: an unsharp mask of small radius (σ = 1 pixel) on a luminance-like sum (R + 2G + B),
 * added to all channels alike, so colours do not shift and colour noise is not raised. A pixel may leave the range of
 * its 3×3 neighbourhood by a tenth of that range and no more, so edges get no visible halo. Works on the encoded
 * picture (steps there are nearly even to the eye).
 *
 * @param amount 0 (nothing) … 1.
 */
export function sharpen(picture: Raster<Uint16Array>, amount: number): void {
  if (!(amount > 0)) return;
  const { width, height, channels, data } = picture;
  const gain = GAIN * Math.min(1, amount);
  const luma = Array.from({ length: 5 }, () => new Float32Array(width));
  const smooth = Array.from({ length: 5 }, () => new Float32Array(width));
  const low = Array.from({ length: 5 }, () => new Float32Array(width));
  const high = Array.from({ length: 5 }, () => new Float32Array(width));
  let read = -1;

  /** Luminance, its row-wise blur and row-wise extremes of row y; rows are read before they are written. */
  const readTo = (wanted: number): void => {
    while (read < Math.min(wanted, height - 1)) {
      read++;
      const slot = read % 5;
      luminance(data, read * width * channels, channels, luma[slot]);
      blurRow(luma[slot], smooth[slot]);
      extremes(luma[slot], low[slot], high[slot]);
    }
  };
  const clampRow = (y: number): number => Math.min(height - 1, Math.max(0, y)) % 5;
  for (let y = 0; y < height; y++) {
    readTo(y + 2);
    const [a, b, c, d, e] = [-2, -1, 0, 1, 2].map((k) => smooth[clampRow(y + k)]);
    const [l0, l1, l2] = [-1, 0, 1].map((k) => low[clampRow(y + k)]);
    const [h0, h1, h2] = [-1, 0, 1].map((k) => high[clampRow(y + k)]);
    const own = luma[y % 5];
    for (let x = 0, i = y * width * channels; x < width; x++, i += channels) {
      const v = own[x];
      const blurred = (a[x] + e[x] + 4 * (b[x] + d[x]) + 6 * c[x]) / 16;
      const lowest = Math.min(l0[x], l1[x], l2[x]);
      const highest = Math.max(h0[x], h1[x], h2[x]);
      const room = OVERSHOOT * (highest - lowest);
      const wanted = v + gain * (v - blurred);
      const add = Math.min(highest + room, Math.max(lowest - room, wanted)) - v;
      for (let k = i; k < i + channels; k++) {
        const s = data[k] + add;
        data[k] = s <= 0 ? 0 : s >= 65535 ? 65535 : s + 0.5;
      }
    }
  }
}

function luminance(data: Uint16Array, at: number, channels: number, out: Float32Array): void {
  if (channels === 1) for (let x = 0; x < out.length; x++) out[x] = data[at + x];
  else for (let x = 0, i = at; x < out.length; x++, i += 3) out[x] = (data[i] + 2 * data[i + 1] + data[i + 2]) * 0.25;
}

/** Binomial 1 4 6 4 1; the ends repeat. */
function blurRow(from: Float32Array, to: Float32Array): void {
  const n = from.length;
  const at = (x: number): number => from[Math.min(n - 1, Math.max(0, x))];
  for (let x = 0; x < n; x++)
    to[x] =
      x > 1 && x < n - 2
        ? (from[x - 2] + from[x + 2] + 4 * (from[x - 1] + from[x + 1]) + 6 * from[x]) / 16
        : (at(x - 2) + at(x + 2) + 4 * (at(x - 1) + at(x + 1)) + 6 * at(x)) / 16;
}

function extremes(from: Float32Array, low: Float32Array, high: Float32Array): void {
  const n = from.length;
  for (let x = 0; x < n; x++) {
    const before = from[x > 0 ? x - 1 : 0];
    const after = from[x < n - 1 ? x + 1 : n - 1];
    low[x] = Math.min(before, from[x], after);
    high[x] = Math.max(before, from[x], after);
  }
}
