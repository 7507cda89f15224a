/** What the taking lens adds: light that spreads about bright places, fall-off to the corners, and things out of focus. */
import { blurGaussian } from "../../tests/witness/blur.ts";
import { defocus } from "./defocus.ts";
import type { DeepPicture, Picture } from "./world.ts";

export interface LensSpec {
  /** Part of the light that spreads; 0.02 clean, 0.08 misty. */
  readonly glow?: number;
  /** Stops lost in the corners. */
  readonly falloff?: number;
  /** Distance in focus, metres, and the blur of infinity as a part of the picture's width. */
  readonly focus?: number;
  readonly blur?: number;
}

export function finish(picture: DeepPicture, spec: LensSpec): Picture {
  if (spec.focus !== undefined && spec.blur) defocus(picture, spec.focus, spec.blur * picture.width);
  if (spec.glow) spread(picture, spec.glow);
  if (spec.falloff) falloff(picture, spec.falloff);
  return { width: picture.width, height: picture.height, data: picture.data };
}

/** Spread light: three blurs of a quarter-size copy, wide ones weaker. */
function spread({ width, height, data }: Picture, amount: number): void {
  const w = Math.ceil(width / 4);
  const h = Math.ceil(height / 4);
  const small = new Float32Array(w * h * 3);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++)
      for (let c = 0; c < 3; c++) {
        let s = 0;
        let n = 0;
        for (let v = y * 4; v < Math.min(height, y * 4 + 4); v++)
          for (let u = x * 4; u < Math.min(width, x * 4 + 4); u++, n++)
            s += Math.min(60, data[(v * width + u) * 3 + c]);
        small[(y * w + x) * 3 + c] = s / n;
      }
  const sum = new Float32Array(small.length);
  let done = 0;
  for (const [part, weight] of [
    [0.002, 0.5],
    [0.008, 0.3],
    [0.03, 0.2],
  ]) {
    // Blurs of blurs: only the difference of the squares is still to do.
    const sigma = part * w;
    blurGaussian({ width: w, height: h, channels: 3, data: small }, Math.sqrt(sigma * sigma - done * done));
    done = sigma;
    for (let i = 0; i < sum.length; i++) sum[i] += small[i] * weight;
  }
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const fx = Math.max(0, Math.min(w - 1.001, (x + 0.5) / 4 - 0.5));
      const fy = Math.max(0, Math.min(h - 1.001, (y + 0.5) / 4 - 0.5));
      const i = (Math.floor(fy) * w + Math.floor(fx)) * 3;
      const tx = fx - Math.floor(fx);
      const ty = fy - Math.floor(fy);
      const o = (y * width + x) * 3;
      for (let c = 0; c < 3; c++) {
        const a = sum[i + c] + (sum[i + 3 + c] - sum[i + c]) * tx;
        const b = sum[i + w * 3 + c] + (sum[i + w * 3 + 3 + c] - sum[i + w * 3 + c]) * tx;
        data[o + c] += (a + (b - a) * ty - data[o + c]) * amount;
      }
    }
}

function falloff({ width, height, data }: Picture, stops: number): void {
  const r2 = (width * width + height * height) / 4;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const d = ((x - width / 2) ** 2 + (y - height / 2) ** 2) / r2;
      const k = 2 ** (-stops * d * (0.4 + 0.6 * d));
      const o = (y * width + x) * 3;
      data[o] *= k;
      data[o + 1] *= k;
      data[o + 2] *= k;
    }
}
