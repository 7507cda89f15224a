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
  const gain = (GAIN * Math.min(1, amount)) / BLUR_SUM;
  const rows = Array.from({ length: 5 }, () => new LumaRow(width));
  let read = -1;
  for (let y = 0; y < height; y++) {
    // Rows are read before they are written: what is added never feeds on itself.
    for (; read < Math.min(y + 2, height - 1); read++)
      rows[(read + 1) % 5].read(data, (read + 1) * width * channels, channels);
    const [a, b, c, d, e] = [-2, -1, 0, 1, 2].map((k) => rows[Math.min(height - 1, Math.max(0, y + k)) % 5]);
    sharpenRow(data, y * width * channels, channels, [a, b, c, d, e], gain);
  }
}

/** Weights of the binomial 1 4 6 4 1, in both directions. */
const BLUR_SUM = 256;
/** Luminance is kept as R + 2G + B, so that everything up to the last step is whole numbers. */
const LUMA_SUM = 4;

/** One row's luminance, its row-wise blur (times 16) and its row-wise extremes over three pixels. */
class LumaRow {
  readonly own: Int32Array;
  readonly blur: Int32Array;
  readonly low: Int32Array;
  readonly high: Int32Array;

  constructor(width: number) {
    this.own = new Int32Array(width);
    this.blur = new Int32Array(width);
    this.low = new Int32Array(width);
    this.high = new Int32Array(width);
  }

  read(data: Uint16Array, at: number, channels: number): void {
    const { own, blur, low, high } = this;
    const n = own.length;
    if (channels === 1) for (let x = 0; x < n; x++) own[x] = data[at + x] * LUMA_SUM;
    else for (let x = 0, i = at; x < n; x++, i += 3) own[x] = data[i] + 2 * data[i + 1] + data[i + 2];
    // Beyond the ends the end pixels repeat.
    let v0 = own[0];
    let v1 = v0;
    let v2 = v0;
    let v3 = own[Math.min(1, n - 1)];
    for (let x = 0; x < n; x++) {
      const v4 = own[x + 2 < n ? x + 2 : n - 1];
      blur[x] = v0 + v4 + 4 * (v1 + v3) + 6 * v2;
      const least = v1 < v3 ? v1 : v3;
      const most = v1 > v3 ? v1 : v3;
      low[x] = least < v2 ? least : v2;
      high[x] = most > v2 ? most : v2;
      v0 = v1;
      v1 = v2;
      v2 = v3;
      v3 = v4;
    }
  }
}

function sharpenRow(data: Uint16Array, at: number, channels: number, rows: readonly LumaRow[], gain: number): void {
  const [a, b, c, d, e] = rows.map((row) => row.blur);
  const [, l0, l1, l2] = rows.map((row) => row.low);
  const [, h0, h1, h2] = rows.map((row) => row.high);
  const { own } = rows[2];
  for (let x = 0, i = at; x < own.length; x++, i += channels) {
    const v = own[x];
    const detail = v * BLUR_SUM - (a[x] + e[x] + 4 * (b[x] + d[x]) + 6 * c[x]);
    let low = l0[x] < l1[x] ? l0[x] : l1[x];
    if (l2[x] < low) low = l2[x];
    let high = h0[x] > h1[x] ? h0[x] : h1[x];
    if (h2[x] > high) high = h2[x];
    const room = OVERSHOOT * (high - low);
    let wanted = v + gain * detail;
    if (wanted > high + room) wanted = high + room;
    else if (wanted < low - room) wanted = low - room;
    // Rounded once, so that the channels move by the same whole number; the shift keeps what is cut off positive.
    const add = (((wanted - v) / LUMA_SUM + 65536.5) | 0) - 65536;
    for (let k = i; k < i + channels; k++) {
      const s = data[k] + add;
      data[k] = s <= 0 ? 0 : s >= 65535 ? 65535 : s;
    }
  }
}
