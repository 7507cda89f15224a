/** Blurs on interleaved rasters. Edges repeat the outermost pixel. */

/** A picture in floating point: `channels` values per pixel, row by row. */
export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly data: Float32Array;
}

/** Gaussian of one sigma in pixels, in place. Below 0.15 px it does nothing. */
export function blurGaussian(p: Plane, sigma: number): void {
  if (sigma < 0.15) return;
  blurSeparable(p, gaussianKernel(sigma));
}

/**
 * Half of a normalised kernel, [centre, next, …], whose variance is sigma²: a sampled bell, or, where a bell would be
 * narrower than the pixels' distance allows, three taps.
 */
export function gaussianKernel(sigma: number): number[] {
  if (sigma < 0.6) return [1 - sigma * sigma, (sigma * sigma) / 2];
  const taps = Array.from({ length: Math.ceil(3.2 * sigma) + 1 }, (_, i) => Math.exp(-0.5 * (i / sigma) ** 2));
  const total = taps[0] + 2 * taps.slice(1).reduce((a, b) => a + b, 0);
  return taps.map((t) => t / total);
}

/** Symmetric separable kernel, in place, with a ring of rows so that no second raster is needed. */
function blurSeparable({ width, height, channels, data }: Plane, half: number[]): void {
  const radius = half.length - 1;
  const stride = width * channels;
  const edge = radius * channels;
  const padded = new Float32Array(stride + 2 * edge);
  const across = Array.from({ length: 2 * radius + 1 }, (_, k) => padded.subarray(k * channels, k * channels + stride));
  for (let y = 0; y < height; y++) {
    const row = data.subarray(y * stride, (y + 1) * stride);
    padRow(row, channels, edge, padded);
    weigh(across, half, row);
  }
  const ring = Array.from({ length: 2 * radius + 1 }, () => new Float32Array(stride));
  const rowOf = (y: number): Float32Array => {
    const clamped = Math.min(height - 1, Math.max(0, y));
    return data.subarray(clamped * stride, (clamped + 1) * stride);
  };
  for (let y = -radius; y < radius; y++) ring[(y + radius) % ring.length].set(rowOf(y));
  for (let y = 0; y < height; y++) {
    ring[(y + 2 * radius) % ring.length].set(rowOf(y + radius));
    const rows = Array.from({ length: 2 * radius + 1 }, (_, k) => ring[(y + k) % ring.length]);
    weigh(rows, half, data.subarray(y * stride, (y + 1) * stride));
  }
}

/**
 * Weighted sum of an odd number of rows, symmetric about the middle one. The sum is rounded to 32 bits after two pairs
 * of neighbours and after each further one; several pairs a pass, since memory is slower than sums.
 */
function weigh(rows: readonly Float32Array[], half: readonly number[], out: Float32Array): void {
  const radius = half.length - 1;
  const [w0, w1, w2, w3] = half;
  const n = out.length;
  const centre = rows[radius];
  const [a, b] = [rows[radius - 1], rows[radius + 1]];
  if (radius === 1) for (let i = 0; i < n; i++) out[i] = w0 * centre[i] + w1 * (a[i] + b[i]);
  if (radius === 1) return;
  const [c, d] = [rows[radius - 2], rows[radius + 2]];
  if (radius === 2) for (let i = 0; i < n; i++) out[i] = w0 * centre[i] + w1 * (a[i] + b[i]) + w2 * (c[i] + d[i]);
  if (radius === 2) return;
  const [e, f] = [rows[radius - 3], rows[radius + 3]];
  for (let i = 0; i < n; i++)
    out[i] = Math.fround(w0 * centre[i] + w1 * (a[i] + b[i]) + w2 * (c[i] + d[i])) + w3 * (e[i] + f[i]);
  let k = 4;
  for (; k < radius; k += 2) addTwoPairs(rows, half, k, out);
  if (k > radius) return;
  const [g, h, w] = [rows[radius - k], rows[radius + k], half[k]];
  for (let i = 0; i < n; i++) out[i] += w * (g[i] + h[i]);
}

/** Adds the weighted rows at distances k and k + 1 from the middle. */
function addTwoPairs(rows: readonly Float32Array[], half: readonly number[], k: number, out: Float32Array): void {
  const radius = half.length - 1;
  const n = out.length;
  const [a, b, w] = [rows[radius - k], rows[radius + k], half[k]];
  const [c, d, v] = [rows[radius - k - 1], rows[radius + k + 1], half[k + 1]];
  for (let i = 0; i < n; i++) out[i] = Math.fround(out[i] + w * (a[i] + b[i])) + v * (c[i] + d[i]);
}

/** Averages along a straight stroke of `length` pixels at `angle` degrees (clockwise from the x axis): shake. */
export function blurStroke(p: Plane, length: number, angle: number): Plane {
  if (length <= 0) return p;
  const { width, height, channels } = p;
  const taps = Math.max(3, Math.ceil(length * 2) | 1);
  const steps = Array.from({ length: taps }, (_, t) => {
    const along = (t / (taps - 1) - 0.5) * length;
    return [along * Math.cos((angle * Math.PI) / 180), along * Math.sin((angle * Math.PI) / 180)] as const;
  });
  const edge = (Math.ceil(length / 2) + 1) * channels;
  const stride = width * channels;
  const rows = Array.from({ length: height }, (_, y) => {
    const padded = new Float32Array(stride + 2 * edge);
    padRow(p.data.subarray(y * stride, (y + 1) * stride), channels, edge, padded);
    return padded;
  });
  const out = new Float32Array(p.data.length);
  // All taps of a row before the next one: the row stays in the processor's nearest memory.
  for (let y = 0; y < height; y++)
    for (const [dx, dy] of steps) {
      const [ix, iy] = [Math.floor(dx), Math.floor(dy)];
      const above = rows[Math.min(height - 1, Math.max(0, y + iy))];
      const below = rows[Math.min(height - 1, Math.max(0, y + iy + 1))];
      const part = out.subarray(y * stride, (y + 1) * stride);
      addBetween(above, below, edge + ix * channels, channels, dx - ix, dy - iy, taps, part);
    }
  return { ...p, data: out };
}

/** Adds a row between two rows, from `at` on, bilinear between pixels and divided by `taps`. */
function addBetween(
  above: Float32Array,
  below: Float32Array,
  at: number,
  channels: number,
  fx: number,
  fy: number,
  taps: number,
  out: Float32Array,
): void {
  const next = at + channels;
  for (let i = 0; i < out.length; i++) {
    const top = above[at + i] * (1 - fx) + above[next + i] * fx;
    const low = below[at + i] * (1 - fx) + below[next + i] * fx;
    out[i] += (top * (1 - fy) + low * fy) / taps;
  }
}

/** A row with its outermost pixels repeated over `edge` values on either side. */
function padRow(row: Float32Array, channels: number, edge: number, out: Float32Array): void {
  out.set(row, edge);
  for (let k = 0; k < edge; k++) {
    out[k] = row[k % channels];
    out[edge + row.length + k] = row[row.length - channels + (k % channels)];
  }
}

/** Gaussian blur whose sigma in pixels depends on place: `sigmaAt` of the pixel's x and y in fractions of the raster. */
export function blurVarying(p: Plane, sigmaAt: (u: number, v: number) => number, greatest: number): Plane {
  const levels = [0, 0.35, 0.6, 0.9, 1.3, 1.9, 2.8, 4, 6, 9].filter((_, i, all) => i === 0 || all[i - 1] < greatest);
  const versions = levels.map((sigma) => {
    const copy = { ...p, data: Float32Array.from(p.data) };
    blurGaussian(copy, sigma);
    return copy.data;
  });
  const { width, height, channels } = p;
  const out = new Float32Array(p.data.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const sigma = Math.min(levels[levels.length - 1], sigmaAt((x + 0.5) / width, (y + 0.5) / height));
      let k = 0;
      while (k < levels.length - 2 && levels[k + 1] < sigma) k++;
      // Mixing two blurs mixes their variances.
      const f = Math.max(0, (sigma ** 2 - levels[k] ** 2) / (levels[k + 1] ** 2 - levels[k] ** 2));
      const o = (y * width + x) * channels;
      for (let c = 0; c < channels; c++) out[o + c] = versions[k][o + c] * (1 - f) + versions[k + 1][o + c] * f;
    }
  return { ...p, data: out };
}
