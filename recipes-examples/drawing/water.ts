/** The sea's skin: waves from many directions as slopes of the normal; what is finer than a pixel widens the shine. */
import { kept, noise2 } from "./noise.ts";
import type { Light } from "./sky.ts";
import type { Material } from "./surface.ts";

export interface WaterSpec {
  /** Slope of the ripples: 0.02 a calm morning, 0.15 a breeze. */
  readonly slope: number;
  /** Longest wave drawn in the normal, metres. */
  readonly longest: number;
  readonly octaves?: number;
  /** Direction the waves run, degrees. */
  readonly heading?: number;
  /** Light that comes back out of the water, as reflectance. */
  readonly body: Light;
  /** Patches of calm, metres; 0 none. */
  readonly calm?: number;
}

/** Slope of the waves at a place, and what was left out as too fine (as a width of the shine). */
export class Waves {
  sx = 0;
  sz = 0;
  rest = 0;
  private readonly spec: WaterSpec;
  private readonly turns: [number, number][];

  constructor(spec: WaterSpec) {
    this.spec = spec;
    const n = spec.octaves ?? 6;
    this.turns = Array.from({ length: n }, (_, i) => {
      const a = (((spec.heading ?? 20) + (i % 2 ? 1 : -1) * (12 + i * 9)) * Math.PI) / 180;
      return [Math.cos(a), Math.sin(a)];
    });
  }

  at(x: number, z: number, foot: number): void {
    const { slope, longest, calm } = this.spec;
    let k = slope;
    if (calm) {
      const c = noise2(x / calm, z / (calm * 0.35)) + 0.5 * noise2(x / (calm * 0.4) + 9, z / (calm * 0.13));
      k *= 0.25 + 0.75 * Math.min(1, Math.max(0, 0.6 + 1.1 * c));
    }
    let sx = 0;
    let sz = 0;
    let lost = 0;
    let w = longest;
    let amp = k * 0.8;
    for (let i = 0; i < this.turns.length; i++) {
      const [c, s] = this.turns[i];
      const f = kept(w, foot);
      lost += amp * amp * (1 - f * f);
      if (f > 0) {
        // Crests are longer than they are apart.
        const p = (x * c + z * s) / w + i * 13.7;
        const q = ((z * c - x * s) / w) * 0.45 + i * 5.1;
        const e = 0.12;
        const d = ((noise2(p + e, q) - noise2(p - e, q)) / (2 * e)) * amp * f;
        const g = ((noise2(p, q + e) - noise2(p, q - e)) / (2 * e)) * amp * f * 0.45;
        sx += d * c - g * s;
        sz += d * s + g * c;
      }
      w *= 0.49;
      amp *= 0.86;
    }
    this.sx = sx;
    this.sz = sz;
    this.rest = Math.sqrt(lost * 2 + 0.00003);
  }
}

export function water(spec: WaterSpec): Material {
  const waves = new Waves(spec);
  return (s) => {
    waves.at(s.x, s.z, s.foot);
    const l = 1 / Math.sqrt(1 + waves.sx * waves.sx + waves.sz * waves.sz);
    s.nx = -waves.sx * l;
    s.ny = l;
    s.nz = -waves.sz * l;
    s.rough = waves.rest;
    s.shine = 0.02;
    s.mirror = true;
    s.r = spec.body[0];
    s.g = spec.body[1];
    s.b = spec.body[2];
  };
}
