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
    padded.set(row, edge);
    for (let k = 0; k < edge; k++) {
      padded[k] = row[k % channels];
      padded[stride + edge + k] = row[stride - channels + (k % channels)];
    }
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

/** Weighted sum of an odd number of rows, symmetric about the middle one; the two shortest kernels in one pass. */
function weigh(rows: readonly Float32Array[], half: readonly number[], out: Float32Array): void {
  const radius = half.length - 1;
  const [w0, w1, w2] = half;
  const n = out.length;
  const centre = rows[radius];
  const [a, b] = [rows[radius - 1], rows[radius + 1]];
  if (radius === 1) for (let i = 0; i < n; i++) out[i] = w0 * centre[i] + w1 * (a[i] + b[i]);
  else {
    const [c, d] = [rows[radius - 2], rows[radius + 2]];
    for (let i = 0; i < n; i++) out[i] = w0 * centre[i] + w1 * (a[i] + b[i]) + w2 * (c[i] + d[i]);
  }
  for (let k = 3; k <= radius; k++) {
    const [e, f, w] = [rows[radius - k], rows[radius + k], half[k]];
    for (let i = 0; i < n; i++) out[i] += w * (e[i] + f[i]);
  }
}

/** Averages along a straight stroke of `length` pixels at `angle` degrees (clockwise from the x axis): shake. */
export function blurStroke(p: Plane, length: number, angle: number): Plane {
  if (length <= 0) return p;
  const { width, height, channels } = p;
  const taps = Math.max(3, Math.ceil(length * 2) | 1);
  const out = new Float32Array(p.data.length);
  for (let t = 0; t < taps; t++) {
    const along = (t / (taps - 1) - 0.5) * length;
    const dx = along * Math.cos((angle * Math.PI) / 180);
    const dy = along * Math.sin((angle * Math.PI) / 180);
    const [ix, iy] = [Math.floor(dx), Math.floor(dy)];
    const [fx, fy] = [dx - ix, dy - iy];
    for (let y = 0; y < height; y++) {
      const y0 = Math.min(height - 1, Math.max(0, y + iy)) * width;
      const y1 = Math.min(height - 1, Math.max(0, y + iy + 1)) * width;
      for (let x = 0; x < width; x++) {
        const x0 = Math.min(width - 1, Math.max(0, x + ix));
        const x1 = Math.min(width - 1, Math.max(0, x + ix + 1));
        const o = (y * width + x) * channels;
        for (let c = 0; c < channels; c++) {
          const top = p.data[(y0 + x0) * channels + c] * (1 - fx) + p.data[(y0 + x1) * channels + c] * fx;
          const low = p.data[(y1 + x0) * channels + c] * (1 - fx) + p.data[(y1 + x1) * channels + c] * fx;
          out[o + c] += (top * (1 - fy) + low * fy) / taps;
        }
      }
    }
  }
  return { ...p, data: out };
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
