/** Beams of sun in dusty air: how much of each line of sight lies in the sun, looked up at every ninth pixel. */
import { Camera } from "./camera.ts";
import { dither } from "./dither.ts";
import { Tracer } from "./tracer.ts";
import type { Light } from "./sky.ts";
import type { DeepPicture, World } from "./world.ts";

export interface ShaftSpec {
  /** Light scattered towards the viewer by a metre of sunlit air. */
  readonly light: Light;
  /** Metres of each line of sight that are looked at. */
  readonly near: number;
  readonly far: number;
  readonly steps?: number;
}

const STEP = 3;

export function drawShafts(picture: DeepPicture, world: World, spec: ShaftSpec): void {
  const sun = world.sun?.toward;
  if (!sun) return;
  const { width, height, data, depth } = picture;
  const camera = new Camera(world.camera, width, height);
  const tracer = new Tracer(world.mesh);
  const [ex, ey, ez] = camera.eye;
  const w = Math.ceil(width / STEP);
  const h = Math.ceil(height / STEP);
  const beam = new Float32Array(w * h);
  const d = new Float64Array(3);
  const n = spec.steps ?? 14;
  for (let j = 0; j < h; j++)
    for (let i = 0; i < w; i++) {
      const x = Math.min(width - 1, i * STEP + 1);
      const y = Math.min(height - 1, j * STEP + 1);
      camera.ray(x + 0.5, y + 0.5, d);
      const end = Math.min(depth[y * width + x], spec.far);
      const step = (end - spec.near) / n;
      if (step <= 0) continue;
      let lit = 0;
      for (let k = 0; k < n; k++) {
        const t = spec.near + (k + dither(i, j, k)) * step;
        if (!tracer.blocked(ex + d[0] * t, ey + d[1] * t, ez + d[2] * t, sun[0], sun[1], sun[2], 1e5)) lit++;
      }
      beam[j * w + i] = lit * step;
    }
  const soft = smooth(smooth(beam, w, h), w, h);
  const gain = 2 ** (world.exposure ?? 0);
  for (let y = 0, o = 0; y < height; y++)
    for (let x = 0; x < width; x++, o += 3) {
      const u = Math.max(0, Math.min(w - 1.001, (x - 1) / STEP));
      const v = Math.max(0, Math.min(h - 1.001, (y - 1) / STEP));
      const a = Math.floor(v) * w + Math.floor(u);
      const tu = u - Math.floor(u);
      const tv = v - Math.floor(v);
      const k =
        (soft[a] * (1 - tu) + soft[a + 1] * tu) * (1 - tv) + (soft[a + w] * (1 - tu) + soft[a + w + 1] * tu) * tv;
      for (let c = 0; c < 3; c++) data[o + c] += spec.light[c] * k * gain;
    }
}

/** A bell over 5 × 5 cells. */
function smooth(from: Float32Array, w: number, h: number): Float32Array {
  const bell = [1, 4, 6, 4, 1];
  const pass = (src: Float32Array, dx: number, dy: number): Float32Array => {
    const out = new Float32Array(src.length);
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++) {
        let s = 0;
        for (let k = -2; k <= 2; k++) {
          const u = Math.max(0, Math.min(w - 1, x + dx * k));
          const v = Math.max(0, Math.min(h - 1, y + dy * k));
          s += src[v * w + u] * bell[k + 2];
        }
        out[y * w + x] = s / 16;
      }
    return out;
  };
  return pass(pass(from, 1, 0), 0, 1);
}
