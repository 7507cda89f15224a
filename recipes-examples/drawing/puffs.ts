/** Spray, smoke and steam: soft ragged balls of light laid over the picture where nothing nearer hides them. */
import { throughAir } from "./air.ts";
import { Camera } from "./camera.ts";
import { fbm2 } from "./noise.ts";
import type { Light } from "./sky.ts";
import type { Vec } from "./vector.ts";
import type { DeepPicture, World } from "./world.ts";

export interface Puff {
  readonly at: Vec;
  readonly radius: number;
  readonly colour: Light;
  /** How much it hides at its middle, 0 … 1. */
  readonly dense: number;
  /** 0 smooth … 1 torn to drops. */
  readonly ragged: number;
  readonly seed: number;
}

export function drawPuffs(picture: DeepPicture, world: World, puffs: readonly Puff[]): void {
  const camera = new Camera(world.camera, picture.width, picture.height);
  const gain = 2 ** (world.exposure ?? 0);
  const { width, height, data, depth } = picture;
  const rgb = new Float64Array(3);
  for (const p of puffs) {
    const c = camera.project(p.at);
    if (!c) continue;
    const r = p.radius / (c.ahead * camera.spread);
    rgb.set(p.colour);
    const d: Vec = [p.at[0] - camera.eye[0], p.at[1] - camera.eye[1], p.at[2] - camera.eye[2]];
    const far = Math.hypot(...d);
    if (world.air) throughAir(world.air, camera.eye[1], d[0] / far, d[1] / far, d[2] / far, far, rgb);
    const x1 = Math.min(width - 1, Math.ceil(c.x + r));
    const y1 = Math.min(height - 1, Math.ceil(c.y + r));
    const foot = 4 / r;
    for (let y = Math.max(0, Math.floor(c.y - r)); y <= y1; y++)
      for (let x = Math.max(0, Math.floor(c.x - r)); x <= x1; x++) {
        const u = (x + 0.5 - c.x) / r;
        const v = (y + 0.5 - c.y) / r;
        const q = u * u + v * v;
        if (q >= 1) continue;
        const i = y * width + x;
        const room = (depth[i] - c.ahead) / p.radius;
        if (room < -0.5) continue;
        const n = fbm2(u * 2.2 + p.seed * 7.1, v * 2.2 + p.seed * 3.7, 6, foot, 0.6);
        const shape = (1 - q) * (1 - q) + p.ragged * 0.9 * n * (1 - q);
        const a = Math.min(1, Math.max(0, shape * p.dense * 1.3)) * Math.min(1, room + 0.5);
        for (let k = 0; k < 3; k++) data[i * 3 + k] += (rgb[k] * gain - data[i * 3 + k]) * a;
      }
  }
}
