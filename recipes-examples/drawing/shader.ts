/** What a ray sees: the surface it meets, the light that falls there, what it mirrors, and the air between. */
import { throughAir } from "./air.ts";
import { gloss, under } from "./gloss.ts";
import { dither } from "./dither.ts";
import { mirrored } from "./mirror.ts";
import type { SoftLight } from "./soft-light.ts";
import { surface, type Surface } from "./surface.ts";
import { Tracer } from "./tracer.ts";
import { unit, type Vec } from "./vector.ts";
import type { World } from "./world.ts";

const FAR = 1e5;

export class Shader {
  readonly world: World;
  readonly tracer: Tracer;
  /** The surface met last. */
  readonly s: Surface = surface();
  /** Its geometric normal. */
  gx = 0;
  gy = 0;
  gz = 0;
  private readonly sunward: Vec;
  private readonly side: Vec;
  private readonly rise: Vec;
  private readonly sunSpread: number;
  private readonly other: Surface = surface();
  /** Room for one colour, for those who work on the shader's behalf. */
  readonly seen = new Float64Array(3);
  private readonly rgb = new Float64Array(3);
  private readonly above = new Float64Array(3);

  constructor(world: World, tracer = new Tracer(world.mesh)) {
    this.world = world;
    this.tracer = tracer;
    const l = world.sun?.toward ?? [0, 1, 0];
    this.sunward = l;
    this.side = unit(Math.abs(l[1]) > 0.9 ? [1, 0, 0] : [-l[2], 0, l[0]]);
    this.rise = [
      l[1] * this.side[2] - l[2] * this.side[1],
      l[2] * this.side[0] - l[0] * this.side[2],
      l[0] * this.side[1] - l[1] * this.side[0],
    ];
    this.sunSpread = Math.tan(((world.sun?.size ?? 0.27) * Math.PI) / 180);
  }

  /** Nearest thing on a ray of unit length: its triangle, or −1. `tracer.t`, `.u`, `.v` tell where. */
  meet(o: ArrayLike<number>, d: ArrayLike<number>): number {
    return this.tracer.trace(o[0], o[1], o[2], d[0], d[1], d[2], FAR);
  }

  /** Reads the surface at the last hit into `s`. `spread` is what a pixel covers a metre away. */
  read(
    s: Surface,
    triangle: number,
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    spread: number,
  ): void {
    const { mesh, t, u, v } = this.tracer;
    const w = 1 - u - v;
    const a = mesh.corner[triangle * 3];
    const b = mesh.corner[triangle * 3 + 1];
    const c = mesh.corner[triangle * 3 + 2];
    const p = mesh.point;
    const n = mesh.normal;
    const e1x = p[b * 3] - p[a * 3];
    const e1y = p[b * 3 + 1] - p[a * 3 + 1];
    const e1z = p[b * 3 + 2] - p[a * 3 + 2];
    const e2x = p[c * 3] - p[a * 3];
    const e2y = p[c * 3 + 1] - p[a * 3 + 1];
    const e2z = p[c * 3 + 2] - p[a * 3 + 2];
    let gx = e1y * e2z - e1z * e2y;
    let gy = e1z * e2x - e1x * e2z;
    let gz = e1x * e2y - e1y * e2x;
    let l = 1 / Math.sqrt(gx * gx + gy * gy + gz * gz || 1);
    if (gx * dx + gy * dy + gz * dz > 0) l = -l;
    gx *= l;
    gy *= l;
    gz *= l;
    let nx = n[a * 3] * w + n[b * 3] * u + n[c * 3] * v;
    let ny = n[a * 3 + 1] * w + n[b * 3 + 1] * u + n[c * 3 + 1] * v;
    let nz = n[a * 3 + 2] * w + n[b * 3 + 2] * u + n[c * 3 + 2] * v;
    let m = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz || 1);
    if (nx * gx + ny * gy + nz * gz < 0) m = -m;
    nx *= m;
    ny *= m;
    nz *= m;
    this.gx = gx;
    this.gy = gy;
    this.gz = gz;
    s.x = ox + dx * t;
    s.y = oy + dy * t;
    s.z = oz + dz * t;
    s.nx = nx;
    s.ny = ny;
    s.nz = nz;
    s.u = mesh.uv[a * 2] * w + mesh.uv[b * 2] * u + mesh.uv[c * 2] * v;
    s.v = mesh.uv[a * 2 + 1] * w + mesh.uv[b * 2 + 1] * u + mesh.uv[c * 2 + 1] * v;
    const cos = Math.max(0.04, Math.abs(gx * dx + gy * dy + gz * dz));
    s.foot = (spread * t) / Math.pow(cos, 0.7);
    s.own = mesh.own[triangle];
    s.er = s.eg = s.eb = s.shine = s.through = 0;
    s.rough = 1;
    s.mirror = false;
    mesh.materials[mesh.material[triangle]](s);
  }

  /** Whether the sun reaches a place; `j1`, `j2` (0 … 1) choose a point of its disc. */
  private sunlit(x: number, y: number, z: number, gx: number, gy: number, gz: number, j1: number, j2: number): boolean {
    const r = Math.sqrt(j1) * this.sunSpread;
    const c = Math.cos(j2 * 6.2831853) * r;
    const s = Math.sin(j2 * 6.2831853) * r;
    const { sunward: l, side, rise } = this;
    const e = 1e-4 + 2e-5 * (Math.abs(x) + Math.abs(y) + Math.abs(z));
    const k = gx * l[0] + gy * l[1] + gz * l[2] < 0 ? -e : e;
    return !this.tracer.blocked(
      x + gx * k,
      y + gy * k,
      z + gz * k,
      l[0] + side[0] * c + rise[0] * s,
      l[1] + side[1] * c + rise[1] * s,
      l[2] + side[2] * c + rise[2] * s,
      FAR,
    );
  }

  /** Light that a surface met by a secondary ray sends back: body colour only, one shadow ray, sky light by estimate. */
  glimpse(
    triangle: number,
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    spread: number,
    j: number,
    out: Float64Array,
  ): void {
    const s = this.other;
    const { world, above: rgb } = this;
    const far = this.tracer.t;
    this.read(s, triangle, ox, oy, oz, dx, dy, dz, spread);
    const gx = this.gx;
    const gy = this.gy;
    const gz = this.gz;
    world.sky.over(s.nx, s.ny, s.nz, rgb);
    const open = world.open ?? 0.5;
    const fill = world.fill;
    let r = rgb[0] * open + (fill ? fill[0] : 0);
    let g = rgb[1] * open + (fill ? fill[1] : 0);
    let b = rgb[2] * open + (fill ? fill[2] : 0);
    if (world.sun) {
      const l = this.sunward;
      let cos = s.nx * l[0] + s.ny * l[1] + s.nz * l[2];
      cos = cos > 0 ? cos * (1 - s.through) : -cos * s.through;
      if (cos > 0.001 && this.sunlit(s.x, s.y, s.z, gx, gy, gz, j, 0.37)) {
        r += world.sun.light[0] * cos;
        g += world.sun.light[1] * cos;
        b += world.sun.light[2] * cos;
      }
    }
    if (world.lamps)
      for (const lamp of world.lamps) {
        const lx = lamp.at[0] - s.x;
        const ly = lamp.at[1] - s.y;
        const lz = lamp.at[2] - s.z;
        const d2 = lx * lx + ly * ly + lz * lz;
        const cos = (s.nx * lx + s.ny * ly + s.nz * lz) / Math.sqrt(d2);
        if (cos <= 0) continue;
        const k = (cos * under(lamp.within, ly, d2)) / Math.max(d2, 0.05);
        r += lamp.light[0] * k;
        g += lamp.light[1] * k;
        b += lamp.light[2] * k;
      }
    out[0] = s.r * r + s.er;
    out[1] = s.g * g + s.eg;
    out[2] = s.b * b + s.eb;
    if (world.air) throughAir(world.air, oy, dx, dy, dz, far, out);
  }

  /** Colour of the surface read last into `s`, lit, as seen along d from a place `far` back. */
  colour(
    dx: number,
    dy: number,
    dz: number,
    px: number,
    py: number,
    k: number,
    soft: SoftLight,
    spread: number,
    out: Float64Array,
  ): void {
    const { s, world, gx, gy, gz } = this;
    const { nx, ny, nz } = s;
    const x = s.x;
    const y = s.y;
    const z = s.z;
    soft.at(px, py, x, y, z, gx, gy, gz, out);
    // A normal that leans takes more or less of the light from above.
    const leaned = 1 + 0.5 * (ny - gy);
    let r = out[0] * leaned;
    let g = out[1] * leaned;
    let b = out[2] * leaned;
    const open = (out[0] + out[1] + out[2]) / soft.brightest;
    const through = s.through;
    let sr = 0;
    let sg = 0;
    let sb = 0;
    const m = Math.max(0.02, s.rough);
    const view = Math.max(0.02, -(nx * dx + ny * dy + nz * dz));
    const sun = world.sun;
    if (sun) {
      const l = this.sunward;
      const facing = nx * l[0] + ny * l[1] + nz * l[2];
      const cos = facing > 0 ? facing * (1 - through) : -facing * through;
      if (cos > 0.001 && gx * l[0] + gy * l[1] + gz * l[2] > (through > 0 ? -2 : 0)) {
        if (this.sunlit(x, y, z, gx, gy, gz, dither(px, py, k * 3 + 1), dither(px, py, k * 3 + 2))) {
          r += sun.light[0] * cos;
          g += sun.light[1] * cos;
          b += sun.light[2] * cos;
          if (s.shine > 0 && facing > 0) {
            const q = gloss(nx, ny, nz, dx, dy, dz, l[0], l[1], l[2], m, s.shine, view);
            sr += sun.light[0] * q;
            sg += sun.light[1] * q;
            sb += sun.light[2] * q;
          }
        }
      }
    }
    if (world.lamps)
      for (const lamp of world.lamps) {
        const lx = lamp.at[0] - x;
        const ly = lamp.at[1] - y;
        const lz = lamp.at[2] - z;
        const d2 = lx * lx + ly * ly + lz * lz;
        const d = Math.sqrt(d2);
        const facing = (nx * lx + ny * ly + nz * lz) / d;
        const cos = facing > 0 ? facing * (1 - through) : -facing * through;
        const f = under(lamp.within, ly, d2) / Math.max(d2, 0.02);
        if (cos * f * (lamp.light[0] + lamp.light[1]) < 0.006) continue;
        const e = facing > 0 ? 0.002 : -0.002;
        // A shadow's edge is soft: the ray goes to some point of the ball, and ends before the lamp's own housing.
        const j = dither(px, py, k * 5 + 7) * 6.2831853;
        const w = dither(px, py, k * 5 + 9) * 2 - 1;
        const q = Math.sqrt(1 - w * w) * lamp.radius;
        const reach = 1 - (lamp.radius + 0.55) / d;
        if (
          reach > 0 &&
          this.tracer.blocked(
            x + gx * e,
            y + gy * e,
            z + gz * e,
            lx + Math.cos(j) * q,
            ly + w * lamp.radius,
            lz + Math.sin(j) * q,
            reach,
          )
        )
          continue;
        r += lamp.light[0] * cos * f;
        g += lamp.light[1] * cos * f;
        b += lamp.light[2] * cos * f;
        if (s.shine > 0 && facing > 0) {
          const h =
            gloss(nx, ny, nz, dx, dy, dz, lx / d, ly / d, lz / d, Math.max(m, lamp.radius / d), s.shine, view) * f;
          sr += lamp.light[0] * h;
          sg += lamp.light[1] * h;
          sb += lamp.light[2] * h;
        }
      }
    let fresnel = 0;
    if (s.shine > 0) {
      if (s.mirror) fresnel = mirrored(this, dx, dy, dz, px, py, k, spread, out);
      else {
        fresnel = (s.shine + (1 - s.shine) * Math.pow(1 - view, 5)) * (1 - 0.75 * Math.min(1, m));
        const rx = dx + 2 * view * nx;
        const ry = dy + 2 * view * ny;
        const rz = dz + 2 * view * nz;
        // Indoors the sheen shows the room, of which only the mean light is known.
        if (world.openings) this.rgb.set([r, g, b]);
        else world.sky.soft(rx, ry, rz, this.rgb);
        const o = fresnel * Math.min(1, open * 1.2);
        out[0] = this.rgb[0] * o;
        out[1] = this.rgb[1] * o;
        out[2] = this.rgb[2] * o;
      }
    } else out.fill(0, 0, 3);
    const rest = 1 - fresnel;
    out[0] += s.r * r * rest + sr + s.er;
    out[1] += s.g * g * rest + sg + s.eg;
    out[2] += s.b * b * rest + sb + s.eb;
  }
}
