/** Thin things (rigging, wires, rails, gulls' wings) drawn over the finished pixels by how much of each they cover. */
import { throughAir } from "./air.ts";
import { Camera } from "./camera.ts";
import type { Light } from "./sky.ts";
import type { Vec } from "./vector.ts";
import type { DeepPicture, World } from "./world.ts";

export interface Line {
  readonly points: readonly Vec[];
  /** Metres; or, for tapering lines, one width a point. */
  readonly width: number | readonly number[];
  readonly colour: Light;
}

/** Draws lines where nothing nearer stands before them. */
export function drawLines(picture: DeepPicture, world: World, lines: readonly Line[]): void {
  const camera = new Camera(world.camera, picture.width, picture.height);
  const gain = 2 ** (world.exposure ?? 0);
  const rgb = new Float64Array(3);
  for (const line of lines)
    for (let i = 0; i + 1 < line.points.length; i++) {
      const a = camera.project(line.points[i]);
      const b = camera.project(line.points[i + 1]);
      if (!a || !b) continue;
      rgb.set(line.colour);
      const mid = line.points[i];
      if (world.air) {
        const d: Vec = [mid[0] - camera.eye[0], mid[1] - camera.eye[1], mid[2] - camera.eye[2]];
        const far = Math.hypot(...d);
        throughAir(world.air, camera.eye[1], d[0] / far, d[1] / far, d[2] / far, far, rgb);
      }
      for (let c = 0; c < 3; c++) rgb[c] *= gain;
      const w = typeof line.width === "number" ? [line.width, line.width] : [line.width[i], line.width[i + 1]];
      stroke(picture, a, b, w[0] / (a.ahead * camera.spread), w[1] / (b.ahead * camera.spread), rgb);
    }
}

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly ahead: number;
}

function stroke(p: DeepPicture, a: Spot, b: Spot, wa: number, wb: number, rgb: Float64Array): void {
  const room = Math.max(wa, wb) / 2 + 1.2;
  const x0 = Math.max(0, Math.floor(Math.min(a.x, b.x) - room));
  const x1 = Math.min(p.width - 1, Math.ceil(Math.max(a.x, b.x) + room));
  const y0 = Math.max(0, Math.floor(Math.min(a.y, b.y) - room));
  const y1 = Math.min(p.height - 1, Math.ceil(Math.max(a.y, b.y) + room));
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const l2 = dx * dx + dy * dy || 1;
  const steep = Math.abs(dy) > Math.abs(dx);
  for (let y = y0; y <= y1; y++) {
    let from = x0;
    let to = x1;
    if (steep) {
      const at = a.x + (dx * (y + 0.5 - a.y)) / dy;
      const reach = room * 2 + Math.abs(dx / dy);
      from = Math.max(x0, Math.floor(at - reach));
      to = Math.min(x1, Math.ceil(at + reach));
    }
    for (let x = from; x <= to; x++) {
      const px = x + 0.5 - a.x;
      const py = y + 0.5 - a.y;
      const t = (px * dx + py * dy) / l2;
      if (t < -1e-6 || t >= 1) continue;
      const ex = px - dx * t;
      const ey = py - dy * t;
      const d = Math.sqrt(ex * ex + ey * ey);
      const w = wa + (wb - wa) * t;
      // A line thinner than a pixel covers only its own width of it.
      const cover = Math.min(1, w) * Math.max(0, Math.min(1, Math.max(w, 1) / 2 + 0.5 - d));
      if (cover <= 0) continue;
      const i = y * p.width + x;
      const ahead = 1 / ((1 - t) / a.ahead + t / b.ahead);
      if (p.depth[i] < ahead * 0.998) continue;
      for (let c = 0; c < 3; c++) p.data[i * 3 + c] += (rgb[c] - p.data[i * 3 + c]) * cover;
    }
  }
}
