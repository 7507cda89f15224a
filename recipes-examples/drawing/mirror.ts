/** What water, wet stone, glass and enamel mirror. */
import { dither, scatter } from "./dither.ts";
import type { Shader } from "./shader.ts";

/** Traces what a mirroring surface shows; returns how much of the light it mirrors. */
export function mirrored(
  shader: Shader,
  dx: number,
  dy: number,
  dz: number,
  px: number,
  py: number,
  k: number,
  spread: number,
  out: Float64Array,
): number {
  const { s, world, gx, gy, gz, seen } = shader;
  const rays = world.mirrorRays ?? 1;
  if (rays === 0) return sheen(shader, dx, dy, dz, out);
  // The further looks at an edge pixel are averaged anyway: one ray each will do.
  const n = k > 0 ? 1 : rays;
  const x = s.x + gx * 1e-3;
  const y = s.y + gy * 1e-3;
  const z = s.z + gz * 1e-3;
  const { nx: mx, ny: my, nz: mz, rough, shine } = s;
  let r = 0;
  let g = 0;
  let b = 0;
  let mean = 0;
  for (let i = 0; i < n; i++) {
    const a = scatter(px, py, 11 + k * 4 + i) * 6.2831853;
    // Two rays share the spread between them: one from its inner half, one from its outer.
    const q = Math.sqrt(-Math.log(1 - (0.985 * (i + scatter(px, py, 57 + k * 4 + i))) / n)) * rough;
    let nx = mx + Math.cos(a) * q * (1 - 0.9 * mx * mx);
    let ny = my + Math.sin(a) * q * (my > 0.8 ? 0 : 1);
    let nz = mz + Math.sin(a) * q * (1 - 0.9 * mz * mz);
    const l = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz);
    nx *= l;
    ny *= l;
    nz *= l;
    const c = Math.max(0.01, -(nx * dx + ny * dy + nz * dz));
    const f = shine + (1 - shine) * Math.pow(1 - c, 5);
    let rx = dx + 2 * c * nx;
    let ry = dy + 2 * c * ny;
    let rz = dz + 2 * c * nz;
    // A wave's face that would mirror what is below it is hidden by the next wave.
    const below = rx * gx + ry * gy + rz * gz;
    if (below < 0.004) {
      rx += gx * (0.008 - 2 * below);
      ry += gy * (0.008 - 2 * below);
      rz += gz * (0.008 - 2 * below);
      const m = 1 / Math.sqrt(rx * rx + ry * ry + rz * rz);
      rx *= m;
      ry *= m;
      rz *= m;
    }
    const hit = shader.tracer.trace(x, y, z, rx, ry, rz, 1e5);
    if (hit < 0) world.sky.plain(rx, Math.max(ry, 0.005), rz, seen);
    else shader.glimpse(hit, x, y, z, rx, ry, rz, spread * 3 + rough * 0.2, dither(px, py, 17 + i), seen);
    r += Math.min(seen[0], 40) * f;
    g += Math.min(seen[1], 40) * f;
    b += Math.min(seen[2], 40) * f;
    mean += f;
  }
  shader.gx = gx;
  shader.gy = gy;
  shader.gz = gz;
  out[0] = r / n;
  out[1] = g / n;
  out[2] = b / n;
  return mean / n;
}

/** An open sea's mirror: the sky alone, without a ray. Rough water is seen by its higher faces, so it shows higher sky. */
function sheen(shader: Shader, dx: number, dy: number, dz: number, out: Float64Array): number {
  const { s, world } = shader;
  const { rough } = s;
  const c = Math.max(0.03, -(s.nx * dx + s.ny * dy + s.nz * dz) + 0.55 * rough);
  const f = s.shine + (1 - s.shine) * Math.pow(1 - Math.min(1, c), 5) * (1 - 0.55 * Math.min(1, rough * 2.5));
  const ry = Math.max(0.02, Math.abs(dy + 2 * c * s.ny)) + 0.5 * rough;
  const rx = dx + 2 * c * s.nx;
  const rz = dz + 2 * c * s.nz;
  const l = 1 / Math.sqrt(rx * rx + ry * ry + rz * rz);
  world.sky.soft(rx * l, ry * l, rz * l, out);
  for (let k = 0; k < 3; k++) out[k] *= f;
  return f;
}
