/** An open sea with real waves: a fan of triangles from the camera outwards, finer near by, raised by the swell. */
import { fbm2, kept, noise2, smoothstep } from "./noise.ts";
import type { Builder } from "./mesh.ts";
import { patch } from "./shapes.ts";
import type { Light } from "./sky.ts";
import { straighten, type Material } from "./surface.ts";
import { Waves } from "./water.ts";
import type { Vec } from "./vector.ts";

export interface SwellSpec {
  /** Height of the largest waves from trough to crest, metres, and their length. */
  readonly height: number;
  readonly long: number;
  /** Where they run to, degrees from straight ahead (180 = towards the viewer). */
  readonly heading: number;
  /** 0 smooth swell … 1 steep, broken sea. */
  readonly rough: number;
}

/** Height of the sea above its rest at a place. */
export function swell(w: SwellSpec): (x: number, z: number) => number {
  const waves = Array.from({ length: 7 }, (_, i) => {
    const a = ((w.heading + [0, 17, -23, 38, -41, 8, -12][i]) * Math.PI) / 180;
    const long = w.long * [1, 0.71, 0.53, 0.39, 0.29, 0.21, 0.16][i];
    return {
      c: Math.sin(a) / long,
      s: -Math.cos(a) / long,
      high: w.height * [0.36, 0.24, 0.17, 0.12, 0.085, 0.06, 0.045][i],
      at: i * 2.1,
    };
  });
  return (x, z) => {
    const wander = 0.35 * noise2(x / (w.long * 1.7), z / (w.long * 1.7));
    let h = 0;
    for (const q of waves) {
      const p = Math.sin((x * q.c + z * q.s + wander) * 6.2832 + q.at) * 0.5 + 0.5;
      // Crests are narrow, troughs wide.
      h += q.high * (Math.pow(p, 1 + 1.1 * w.rough) * 2 - 0.8);
    }
    const chop = 0.5 * w.rough * w.height;
    return (
      h * (0.75 + 0.5 * noise2(x / (w.long * 3.1) + 7, z / (w.long * 2.3))) +
      chop * 0.22 * fbm2(x / (w.long * 0.12), z / (w.long * 0.12), 4)
    );
  };
}

/** Builds the fan. `turn` and `half` are degrees: where it looks and how far to each side. */
export function sea(
  b: Builder,
  material: Material,
  eye: Vec,
  turn: number,
  half: number,
  near: number,
  far: number,
  height: (x: number, z: number) => number,
  columns = 240,
  rows = 260,
): void {
  b.use(material);
  const k = Math.log(far / near);
  patch(
    b,
    columns,
    rows,
    (s, t) => {
      const a = ((turn + (s - 0.5) * 2 * half) * Math.PI) / 180;
      const r = near * Math.exp(k * t);
      const x = eye[0] + Math.sin(a) * r;
      const z = eye[2] - Math.cos(a) * r;
      // Far out the waves are finer than the fan's rows: they sink into the level there.
      return [x, height(x, z) * smoothstep(far * 0.7, far * 0.06, r), z];
    },
    { uv: (_s, _t, p) => [p[0], p[2]] },
  );
}

export interface SeaSpec {
  readonly body: Light;
  /** Colour of light through a thin crest. */
  readonly crest: Light;
  /** Height above rest at which crests begin to break. */
  readonly breaks: number;
  readonly slope: number;
  /** Foam near rocks: 0 … 1 at a place. */
  readonly surf?: (x: number, z: number) => number;
  /** Streaks of old foam: 0 none … 1 much. */
  readonly streaks?: number;
  readonly heading?: number;
}

/** Sea water with breaking crests and foam. */
export function seaWater(spec: SeaSpec): Material {
  const waves = new Waves({
    slope: spec.slope,
    longest: 2.4,
    octaves: 6,
    body: spec.body,
    heading: spec.heading ?? 70,
  });
  return (s) => {
    waves.at(s.x, s.z, s.foot);
    s.nx -= waves.sx;
    s.nz -= waves.sz;
    straighten(s);
    const up = smoothstep(spec.breaks * 0.1, spec.breaks * 1.6, s.y);
    s.r = spec.body[0] + spec.crest[0] * up;
    s.g = spec.body[1] + spec.crest[1] * up;
    s.b = spec.body[2] + spec.crest[2] * up;
    const surf = spec.surf ? spec.surf(s.x, s.z) : 0;
    const lace = bubbles(s.x, s.z, s.foot);
    const broken = smoothstep(
      spec.breaks * 0.75,
      spec.breaks * 1.5,
      s.y + 0.5 * spec.breaks * fbm2(s.x * 0.35, s.z * 0.35, 4, s.foot * 0.35),
    );
    const old = (spec.streaks ?? 0) * smoothstep(0.15, 0.75, fbm2(s.x * 0.11, s.z * 0.24, 4, s.foot * 0.2));
    // Far out a pixel holds many crests: their share of white, not the one that the fan's corner happened to meet.
    const near = kept(7, s.foot);
    const amount = Math.min(1, (broken + old * 0.6) * near + 0.22 * (1 - near) + surf);
    const foam = smoothstep(1 - amount, 1.35 - amount * 0.9, lace) * Math.min(1, amount * 2.5);
    s.rough = Math.max(0.012, waves.rest) + 0.4 * foam;
    s.shine = 0.02 * (1 - foam);
    s.mirror = foam < 0.7;
    s.r += (0.82 - s.r) * foam;
    s.g += (0.84 - s.g) * foam;
    s.b += (0.85 - s.b) * foam;
  };
}

/** Lace of foam: threads between bubbles, 0 … 1. */
function bubbles(x: number, z: number, foot: number): number {
  const wx = x + 0.5 * noise2(x * 0.9, z * 0.9);
  const wz = z + 0.5 * noise2(x * 0.9 + 40, z * 0.9);
  const thread = (f: number): number =>
    1 - Math.abs(noise2(wx * f, wz * f)) * 2.2 * kept(1 / f, foot) - 0.45 * (1 - kept(1 / f, foot));
  return Math.max(0, Math.min(1, 0.5 * thread(1.1) + 0.32 * thread(2.7) + 0.25 * thread(6.1)));
}
