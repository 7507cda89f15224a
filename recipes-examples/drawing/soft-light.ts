/**
 * Light from the sky, from openings and from neighbouring things: traced at every ninth pixel with a few rays,
 * smoothed along surfaces but never across their edges, and read back at any pixel.
 */
import type { Camera } from "./camera.ts";
import { dither } from "./dither.ts";
import type { Shader } from "./shader.ts";
import type { Opening } from "./world.ts";

export interface SoftLight {
  /** Light of a fully open place, for telling how open another is. */
  readonly brightest: number;
  /** Light at pixel x, y on a surface at p with normal n. */
  at(
    px: number,
    py: number,
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    out: Float64Array,
  ): void;
}

interface Grid {
  readonly width: number;
  readonly height: number;
  /** Per cell: place, normal. A normal of zero length marks the sky. */
  readonly where: Float32Array;
  readonly light: Float32Array;
}

const STEP = 3;

export function softLight(shader: Shader, camera: Camera): SoftLight {
  const grid = traceGrid(shader, camera);
  let from: Float32Array = grid.light;
  let to: Float32Array = new Float32Array(from.length);
  for (const step of [1, 2, 4]) {
    smooth(grid, from, to, step, camera.spread);
    [from, to] = [to, from];
  }
  const rgb = new Float64Array(3);
  shader.world.sky.over(0, 1, 0, rgb);
  return { brightest: Math.max(0.02, rgb[0] + rgb[1] + rgb[2]), at: reader(grid, from, shader) };
}

function traceGrid(shader: Shader, camera: Camera): Grid {
  const { world, tracer, s } = shader;
  const width = Math.ceil(camera.width / STEP);
  const height = Math.ceil(camera.height / STEP);
  const where = new Float32Array(width * height * 6);
  const light = new Float32Array(width * height * 3);
  const d = new Float64Array(3);
  const rgb = new Float64Array(3);
  const rays = world.rays ?? 4;
  const [ex, ey, ez] = camera.eye;
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++) {
      camera.ray((i + 0.5) * STEP, (j + 0.5) * STEP, d);
      const hit = shader.meet(camera.eye, d);
      if (hit < 0) continue;
      // Only its shape and kind matter here: a wide footprint spares the fine texture.
      shader.read(s, hit, ex, ey, ez, d[0], d[1], d[2], camera.spread * 60);
      const { gx, gy, gz } = shader;
      const { x, y, z, through } = s;
      const o = (j * width + i) * 6;
      where[o] = x;
      where[o + 1] = y;
      where[o + 2] = z;
      where[o + 3] = gx;
      where[o + 4] = gy;
      where[o + 5] = gz;
      if (s.mirror && s.r + s.g + s.b < 0.2 && !world.openings) {
        // Dark water gives back so little that the open sky will do.
        world.sky.over(gx, gy, gz, rgb);
        light.set(rgb, (j * width + i) * 3);
        continue;
      }
      // Two directions along the surface (Duff et al. 2017, "Building an orthonormal basis, revisited").
      const sign = gz >= 0 ? 1 : -1;
      const a = -1 / (sign + gz);
      const b = gx * gy * a;
      const e = 1e-3 + 5e-5 * (Math.abs(x) + Math.abs(y) + Math.abs(z));
      let r = 0;
      let g = 0;
      let l = 0;
      for (let k = 0; k < rays; k++) {
        const q = (k + dither(i, j, k * 2)) / rays;
        const phi = (dither(i, j, k * 2 + 1) + k * 0.618034) * 6.2831853;
        const sq = Math.sqrt(q);
        const c1 = Math.cos(phi) * sq;
        const c2 = Math.sin(phi) * sq;
        const c3 = Math.sqrt(1 - q) * (through > 0 && k % 3 === 2 ? -1 : 1);
        const rx = (1 + sign * gx * gx * a) * c1 + b * c2 + gx * c3;
        const ry = sign * b * c1 + (sign + gy * gy * a) * c2 + gy * c3;
        const rz = -sign * gx * c1 - gy * c2 + gz * c3;
        const f = c3 < 0 ? -e : e;
        const met = tracer.trace(x + gx * f, y + gy * f, z + gz * f, rx, ry, rz, 1e5);
        if (met >= 0) shader.glimpse(met, x, y, z, rx, ry, rz, 0.05, dither(i, j, 31 + k), rgb);
        else if (world.openings) continue;
        else world.sky.soft(rx, ry, rz, rgb);
        r += rgb[0];
        g += rgb[1];
        l += rgb[2];
      }
      r /= rays;
      g /= rays;
      l /= rays;
      if (world.openings)
        for (const w of world.openings) {
          opening(shader, w, x + gx * e, y + gy * e, z + gz * e, gx, gy, gz, i, j, rgb);
          r += rgb[0];
          g += rgb[1];
          l += rgb[2];
        }
      const c = (j * width + i) * 3;
      light[c] = r + (world.fill?.[0] ?? 0);
      light[c + 1] = g + (world.fill?.[1] ?? 0);
      light[c + 2] = l + (world.fill?.[2] ?? 0);
    }
  return { width, height, where, light };
}

/** Sky light through an opening: four points of it, each seen or hidden. */
function opening(
  shader: Shader,
  w: Opening,
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  i: number,
  j: number,
  out: Float64Array,
): void {
  const { corner: c, edge1: a, edge2: b } = w;
  const wx = a[1] * b[2] - a[2] * b[1];
  const wy = a[2] * b[0] - a[0] * b[2];
  const wz = a[0] * b[1] - a[1] * b[0];
  let r = 0;
  let g = 0;
  let l = 0;
  const n = 4;
  for (let k = 0; k < n; k++) {
    const p = ((k & 1) + dither(i, j, 41 + k * 2)) / 2;
    const q = ((k >> 1) + dither(i, j, 42 + k * 2)) / 2;
    const dx = c[0] + a[0] * p + b[0] * q - x;
    const dy = c[1] + a[1] * p + b[1] * q - y;
    const dz = c[2] + a[2] * p + b[2] * q - z;
    const d2 = dx * dx + dy * dy + dz * dz;
    const here = nx * dx + ny * dy + nz * dz;
    const there = -(wx * dx + wy * dy + wz * dz);
    if (here <= 0 || there <= 0) continue;
    if (shader.tracer.blocked(x, y, z, dx, dy, dz, 1)) continue;
    const f = Math.min((here * there) / (d2 * d2 * Math.PI), 1) * (w.gain ?? 1);
    const m = 1 / Math.sqrt(d2);
    shader.world.sky.soft(dx * m, dy * m, dz * m, out);
    r += out[0] * f;
    g += out[1] * f;
    l += out[2] * f;
  }
  out[0] = r / n;
  out[1] = g / n;
  out[2] = l / n;
}

/** One pass of smoothing over 3 × 3 cells `step` apart, along the surface only. */
function smooth(grid: Grid, from: Float32Array, to: Float32Array, step: number, spread: number): void {
  const { width, height, where } = grid;
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++) {
      const o = (j * width + i) * 6;
      const c = (j * width + i) * 3;
      const nx = where[o + 3];
      const ny = where[o + 4];
      const nz = where[o + 5];
      if (nx === 0 && ny === 0 && nz === 0) continue;
      const x = where[o];
      const y = where[o + 1];
      const z = where[o + 2];
      let sum = 0.25;
      let r = from[c] * 0.25;
      let g = from[c + 1] * 0.25;
      let b = from[c + 2] * 0.25;
      const near = 1 / (1e-4 + spread * 6 * step * Math.abs(where[o] - x + 1));
      for (let v = -step; v <= step; v += step) {
        const jj = j + v;
        if (jj < 0 || jj >= height) continue;
        for (let h = -step; h <= step; h += step) {
          const ii = i + h;
          if ((h === 0 && v === 0) || ii < 0 || ii >= width) continue;
          const q = (jj * width + ii) * 6;
          const facing = nx * where[q + 3] + ny * where[q + 4] + nz * where[q + 5];
          if (facing < 0.7) continue;
          const dx = where[q] - x;
          const dy = where[q + 1] - y;
          const dz = where[q + 2] - z;
          const off = Math.abs(nx * dx + ny * dy + nz * dz);
          const along = Math.sqrt(dx * dx + dy * dy + dz * dz);
          // A neighbour on the same smooth surface lies near its plane, compared with how far along it lies.
          if (off > 0.25 * along + (1 / near) * 0.01) continue;
          const k = (h === 0 || v === 0 ? 0.125 : 0.0625) * (facing * 3.33 - 2.33);
          const e = (jj * width + ii) * 3;
          sum += k;
          r += from[e] * k;
          g += from[e + 1] * k;
          b += from[e + 2] * k;
        }
      }
      to[c] = r / sum;
      to[c + 1] = g / sum;
      to[c + 2] = b / sum;
    }
}

function reader(grid: Grid, light: Float32Array, shader: Shader): SoftLight["at"] {
  const { width, height, where } = grid;
  const sky = shader.world.sky;
  const indoors = shader.world.openings !== undefined;
  return (px, py, x, y, z, nx, ny, nz, out) => {
    const fx = px / STEP - 0.5;
    const fy = py / STEP - 0.5;
    const i0 = Math.max(0, Math.min(width - 2, Math.floor(fx)));
    const j0 = Math.max(0, Math.min(height - 2, Math.floor(fy)));
    const tx = Math.max(0, Math.min(1, fx - i0));
    const ty = Math.max(0, Math.min(1, fy - j0));
    let sum = 0;
    let r = 0;
    let g = 0;
    let b = 0;
    for (let k = 0; k < 4; k++) {
      const at = (j0 + (k >> 1)) * width + i0 + (k & 1);
      const q = at * 6;
      const facing = nx * where[q + 3] + ny * where[q + 4] + nz * where[q + 5];
      if (facing < 0.2) continue;
      const dx = where[q] - x;
      const dy = where[q + 1] - y;
      const dz = where[q + 2] - z;
      const off = Math.abs(nx * dx + ny * dy + nz * dz);
      const along = Math.sqrt(dx * dx + dy * dy + dz * dz) + 1e-4;
      const f = facing * facing;
      const w =
        (0.01 + (k & 1 ? tx : 1 - tx) * (k >> 1 ? ty : 1 - ty)) * f * f * Math.max(0.0005, 1 - (off / along) * 3);
      sum += w;
      r += light[at * 3] * w;
      g += light[at * 3 + 1] * w;
      b += light[at * 3 + 2] * w;
    }
    if (sum > 1e-4) {
      out[0] = r / sum;
      out[1] = g / sum;
      out[2] = b / sum;
    } else if (indoors) out.fill(0.05, 0, 3);
    else {
      // A sliver that no cell saw: half of what the open sky gives.
      sky.over(nx, ny, nz, out);
      for (let c = 0; c < 3; c++) out[c] *= 0.5;
    }
  };
}
