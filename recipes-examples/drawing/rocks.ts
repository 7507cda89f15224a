/** Boulders: balls hacked flat by planes and roughened, wet and weedy near the water. */
import type { Builder } from "./mesh.ts";
import { fbm2, fbm3, ridge2, smoothstep } from "./noise.ts";
import { random, between } from "./random.ts";
import { patch } from "./shapes.ts";
import type { Light } from "./sky.ts";
import { lean, paint, tint, type Material } from "./surface.ts";
import { unit, type Vec } from "./vector.ts";

export function boulder(b: Builder, at: Vec, size: Vec, seed: number, sides = 22): void {
  const next = random(seed);
  const cuts = Array.from({ length: 9 }, () => ({
    n: unit([between(next, -1, 1), between(next, -0.8, 1), between(next, -1, 1)]),
    d: between(next, 0.62, 0.92),
  }));
  patch(
    b,
    sides,
    Math.ceil(sides * 0.7),
    (s, t) => {
      const a = -s * 6.28318;
      const e = (t - 0.5) * Math.PI;
      const d: Vec = [Math.cos(a) * Math.cos(e), Math.sin(e), Math.sin(a) * Math.cos(e)];
      let r = 1;
      for (const c of cuts) {
        const k = d[0] * c.n[0] + d[1] * c.n[1] + d[2] * c.n[2];
        if (k > 0.01) r = Math.min(r, c.d / k);
      }
      r *= 1 + 0.1 * fbm3(d[0] * 2.3 + seed, d[1] * 2.3, d[2] * 2.3, 5, 0, 0.62);
      return [at[0] + d[0] * r * size[0], at[1] + d[1] * r * size[1], at[2] + d[2] * r * size[2]];
    },
    { closed: true, uv: (s, t) => [s * size[0] * 6, t * size[1] * 3] },
  );
}

/** Granite; wet and dark below `wet` metres, green with weed near the water. */
export function granite(c: Light, wet = 0.9, weed = 0.35): Material {
  return (s) => {
    const n = fbm3(s.x * 1.3, s.y * 1.3, s.z * 1.3, 5, s.foot * 1.3);
    const g = fbm3(s.x * 21, s.y * 21, s.z * 21, 3, s.foot * 21);
    const crack = ridge2(s.x * 0.8 + s.y * 0.3, s.z * 0.8 - s.y * 0.55, 4, s.foot);
    const k = (1 + 0.34 * n + 0.26 * g) * (1 - 0.55 * smoothstep(0.78, 0.93, crack));
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    tint(
      s,
      0.32,
      0.28,
      0.12,
      0.35 *
        smoothstep(0.25, 0.7, fbm3(s.x * 2.1 + 9, s.y * 2.1, s.z * 2.1, 3, s.foot * 2.1)) *
        smoothstep(wet, wet + 1, s.y),
    );
    const line = wet + 0.35 * n;
    const w = smoothstep(line + 0.3, line - 0.2, s.y);
    tint(s, s.r * 0.4, s.g * 0.42, s.b * 0.42, w);
    tint(
      s,
      0.035,
      0.042,
      0.012,
      0.8 * smoothstep(weed + 0.25, weed - 0.2, s.y + 0.25 * fbm2(s.x * 1.7, s.z * 1.7, 3, s.foot)),
    );
    lean(s, 0.5 * n + 0.35 * g, 0.3 * g);
    s.shine = 0.02 + 0.02 * w;
    s.rough = 0.7 - 0.4 * w;
  };
}
