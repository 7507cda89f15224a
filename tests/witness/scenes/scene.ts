/** What stood before the taking camera. */
import type { Spectrum } from "../spectra/spectrum.ts";

/** Linear Rec.709 (D65 white), interleaved RGB, 0.18 = mid-grey; highlights may exceed 1, nothing is negative. */
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
  /** Places whose reflectance is known as a spectrum: the film sees that, and `data` is only what the eye would. */
  readonly patches?: readonly Patch[];
}

/** Rectangle in fractions of the scene. */
export interface SceneBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface Patch {
  readonly name: string;
  readonly box: SceneBox;
  readonly reflectance: Spectrum;
}

/** An even field of one colour. */
export function evenScene(width: number, height: number, rgb: readonly [number, number, number]): Scene {
  const data = new Float32Array(width * height * 3);
  for (let i = 0; i < data.length; i++) data[i] = rgb[i % 3];
  return { width, height, data };
}

/** Puts a colour into a rectangle given in fractions of the scene; its edges are area-exact. */
export function paint(scene: Scene, box: SceneBox, rgb: readonly [number, number, number]): void {
  const x0 = box.left * scene.width;
  const y0 = box.top * scene.height;
  const x1 = x0 + box.width * scene.width;
  const y1 = y0 + box.height * scene.height;
  const inside = (i: number, from: number, to: number): number => Math.max(0, Math.min(i + 1, to) - Math.max(i, from));
  for (let y = Math.max(0, Math.floor(y0)); y < Math.min(scene.height, Math.ceil(y1)); y++)
    for (let x = Math.max(0, Math.floor(x0)); x < Math.min(scene.width, Math.ceil(x1)); x++) {
      const cover = inside(x, x0, x1) * inside(y, y0, y1);
      for (let c = 0; c < 3; c++) {
        const i = (y * scene.width + x) * 3 + c;
        scene.data[i] += cover * (rgb[c] - scene.data[i]);
      }
    }
}

/** The scene at another size: bilinear when enlarged, box means when reduced. */
export function resized(scene: Scene, width: number, height: number): Scene {
  if (width === scene.width && height === scene.height) return scene;
  const across = resample(scene.data, scene.width, scene.height, width, 3, scene.width * 3);
  const turned = resample(across, scene.height, width, height, width * 3, 3);
  const data = new Float32Array(width * height * 3);
  // `turned` runs column by column.
  for (let x = 0; x < width; x++)
    for (let y = 0; y < height; y++)
      for (let c = 0; c < 3; c++) data[(y * width + x) * 3 + c] = turned[(x * height + y) * 3 + c];
  return { ...scene, width, height, data };
}

/** Resamples lines of `from` RGB pixels (`step` apart; lines `line` apart) to `to`; output is packed line by line. */
function resample(
  data: Float32Array,
  from: number,
  lines: number,
  to: number,
  step: number,
  line: number,
): Float32Array {
  const out = new Float32Array(lines * to * 3);
  const ratio = from / to;
  const reach = Math.max(1, ratio);
  for (let i = 0; i < to; i++) {
    const centre = (i + 0.5) * ratio - 0.5;
    const first = Math.ceil(centre - reach);
    const last = Math.floor(centre + reach);
    const weights: [number, number][] = [];
    let total = 0;
    for (let k = first; k <= last; k++) {
      const w = 1 - Math.abs(k - centre) / reach;
      if (w <= 0) continue;
      weights.push([Math.min(from - 1, Math.max(0, k)), w]);
      total += w;
    }
    for (let l = 0; l < lines; l++)
      for (let c = 0; c < 3; c++) {
        let s = 0;
        for (const [k, w] of weights) s += w * data[l * line + k * step + c];
        out[(l * to + i) * 3 + c] = s / total;
      }
  }
  return out;
}
