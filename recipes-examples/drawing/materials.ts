/** Materials of a harbour town. Coordinates are metres along the surface; what a pixel cannot show turns to its mean. */
import { clamp, fbm2, fbm3, kept, mix, noise2, noise3, smoothstep } from "./noise.ts";
import { hash, hash2 } from "./random.ts";
import type { Light } from "./sky.ts";
import { dim, lean, paint, straighten, tint, type Material, type Surface } from "./surface.ts";

/** Even colour with a little life in it. */
export function plain(c: Light, shine = 0, rough = 0.5, life = 0.12): Material {
  return (s) => {
    const k = 1 + life * fbm3(s.x * 2.3, s.y * 2.3, s.z * 2.3, 4, s.foot * 2.3);
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    s.shine = shine;
    s.rough = rough;
  };
}

/** Woven cloth of one colour: worn paler where it bulges, darker in its folds, matt with a little fuzz at its rim. */
export function cloth(c: Light, through = 0): Material {
  return (s) => {
    const worn = fbm3(s.x * 6, s.y * 4, s.z * 6, 4, s.foot * 6);
    const weave = noise3(s.x * 160, s.y * 160, s.z * 160) * kept(1, s.foot * 160);
    const thread = noise3(s.x * 45, s.y * 9, s.z * 45) * kept(1, s.foot * 45);
    const k = 1 + 0.24 * worn + 0.09 * thread + 0.07 * weave;
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    lean(s, 0.1 * thread + 0.06 * weave, 0.1 * worn);
    s.through = through;
  };
}

/** How near a coordinate is to a joint between boards of this width: 1 in the joint. Widens with the pixel. */
function joint(u: number, width: number, gap: number, foot: number): number {
  const d = Math.abs(u / width - Math.round(u / width)) * width;
  const soft = Math.max(foot * 0.7, gap * 0.4);
  return (1 - smoothstep(gap * 0.5, gap * 0.5 + soft, d)) * Math.min(1, gap / soft);
}

export interface BoardSpec {
  readonly colour: Light;
  readonly width?: number;
  /** True when the boards lie level: joints run along u. */
  readonly level?: boolean;
  /** 0 freshly painted … 1 bare and grey. */
  readonly wear?: number;
  readonly gap?: number;
  readonly shine?: number;
}

/** Painted or weathered boards. */
export function boards(spec: BoardSpec): Material {
  const width = spec.width ?? 0.16;
  const wear = spec.wear ?? 0.3;
  const c = spec.colour;
  return (s) => {
    const across = spec.level ? s.v : s.u;
    const along = spec.level ? s.u : s.v;
    const n = Math.floor(across / width + 0.5);
    const fine = kept(width, s.foot);
    const board = (hash(n * 7 + Math.floor(s.own * 4096)) - 0.5) * fine;
    const grain = fbm2(across * 60 + n * 3.1, along * 2.2 + n * 9.7, 3, s.foot * 60);
    const blotch = fbm2(across * 0.7 + s.own * 91, along * 0.7, 4, s.foot * 0.7);
    const k = 1 + 0.2 * board + 0.1 * grain * (0.4 + wear) + 0.12 * blotch;
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    const bare =
      smoothstep(0.55 - wear, 1.1 - wear * 0.7, blotch * 0.6 + grain * 0.5 + board * 0.9 + wear * 0.5) * wear;
    tint(s, 0.26 + 0.05 * grain, 0.235 + 0.05 * grain, 0.205 + 0.05 * grain, bare);
    const j = joint(across - width / 2, width, spec.gap ?? 0.012, s.foot);
    dim(s, 1 - 0.72 * j);
    if (fine > 0) {
      const t = across / width + 0.5 - n;
      // Lapped boards throw their lower edge out; upright ones are a little hollow.
      lean(s, spec.level ? 0 : (t - 0.5) * 0.22 * fine, spec.level ? 0.16 * fine : 0);
    }
    s.shine = (spec.shine ?? 0.03) * (1 - bare);
    s.rough = 0.35 + 0.4 * wear;
  };
}

/** Squared stone in courses. */
export function masonry(c: Light, high = 0.45, long = 0.95, mortar: Light = [0.22, 0.21, 0.19]): Material {
  return (s) => {
    const row = Math.floor(s.v / high);
    const shift = hash(row * 13 + 5) * long;
    const col = Math.floor((s.u + shift) / long);
    const fine = kept(high, s.foot);
    const stone = (hash2(col, row) - 0.5) * fine;
    const warm = (hash2(col + 77, row) - 0.5) * fine;
    const n = fbm2(s.u * 3.1, s.v * 3.1, 5, s.foot * 3.1);
    const g = fbm2(s.u * 31, s.v * 31, 3, s.foot * 31);
    const run = fbm2(s.u * 1.3, s.v * 0.22, 4, s.foot * 1.3);
    const k = 1 + 0.22 * stone + 0.3 * n + 0.2 * g;
    paint(s, c[0] * k * (1 + 0.08 * warm), c[1] * k, c[2] * k * (1 - 0.08 * warm));
    // Rain has run down it, and lichen sits where it stays dry.
    tint(s, c[0] * 0.42, c[1] * 0.42, c[2] * 0.4, 0.6 * smoothstep(0.05, 0.7, run + 0.35 * n));
    tint(s, 0.36, 0.33, 0.2, 0.3 * smoothstep(0.35, 0.7, fbm2(s.u * 4.1 + 7, s.v * 4.1, 4, s.foot * 4.1)));
    const j = Math.max(joint(s.v, high, 0.025, s.foot), joint(s.u + shift, long, 0.025, s.foot));
    tint(s, mortar[0] * 0.6, mortar[1] * 0.6, mortar[2] * 0.6, j * 0.85);
    lean(s, 0.25 * g * kept(0.06, s.foot), 0.25 * n * fine);
    s.shine = 0.02;
    s.rough = 0.6;
  };
}

/** Rounded paving stones: gives height of the stone (0 joint … 1 crown) and its number. */
export function stones(x: number, z: number, out: { height: number; id: number; dx: number; dz: number }): void {
  const fx = Math.floor(x);
  const fz = Math.floor(z);
  let best = 9;
  let second = 9;
  for (let j = -1; j <= 1; j++)
    for (let i = -1; i <= 1; i++) {
      const cx = fx + i;
      const cz = fz + j;
      // Courses are staggered and each stone lies a little off.
      const px = cx + 0.5 + (cz & 1 ? 0.5 : 0) - 0.25 + (hash2(cx, cz) - 0.5) * 0.3;
      const pz = cz + 0.5 + (hash2(cx + 31, cz - 17) - 0.5) * 0.24;
      const dx = x - px;
      const dz = z - pz;
      const d = Math.max(Math.abs(dx) * 0.93, Math.abs(dz) * 1.02) * 0.6 + Math.sqrt(dx * dx + dz * dz) * 0.45;
      if (d < best) {
        second = best;
        best = d;
        out.id = hash2(cx + 5, cz + 9);
        out.dx = dx;
        out.dz = dz;
      } else if (d < second) second = d;
    }
  out.height = smoothstep(0, 0.3, second - best);
}

export interface CobbleSpec {
  readonly colour: Light;
  /** Size of a stone, metres. */
  readonly size?: number;
  /** 0 dry … 1 after rain: darker, mirroring, standing water in the joints. */
  readonly wet?: number;
}

export function cobbles(spec: CobbleSpec): Material {
  const size = spec.size ?? 0.18;
  const wet = spec.wet ?? 0;
  const c = spec.colour;
  const stone = { height: 0, id: 0, dx: 0, dz: 0 };
  return (s) => {
    stones(s.x / size, s.z / size, stone);
    const fine = kept(size, s.foot * 1.9);
    const h = mix(0.75, stone.height, fine);
    const n = fbm2(s.x * 1.1, s.z * 1.1, 4, s.foot * 1.1);
    const g = fbm2(s.x * 40, s.z * 40, 2, s.foot * 40);
    const k = (1 + 0.5 * (stone.id - 0.5) * fine + 0.2 * n + 0.15 * g) * (0.35 + 0.65 * h);
    paint(s, c[0] * k * (1 + 0.1 * (stone.id - 0.5)), c[1] * k, c[2] * k);
    const slope = 0.5 * fine * (1 - 0.3 * h);
    const puddle = wet * smoothstep(0.1, 0.5, n + (1 - h) * 0.35 - 0.1);
    const flat = 1 - 0.92 * puddle;
    s.nx += stone.dx * slope * flat + 0.05 * g * flat * kept(0.03, s.foot);
    s.nz += stone.dz * slope * flat;
    straighten(s);
    s.shine = mix(0.02, 0.03, wet);
    s.rough = mix(0.6, mix(0.17, 0.035, puddle), wet) + (1 - fine) * 0.1 * (1 - puddle);
    if (wet > 0) {
      dim(s, 1 - 0.5 * wet);
      s.mirror = true;
    }
  };
}

/** Pantiles or slates in courses up the slope (v). */
export function roof(c: Light, course = 0.28, tile = 0.22): Material {
  return (s) => {
    const row = Math.floor(s.v / course);
    const col = Math.floor(s.u / tile + (row & 1) * 0.5);
    const fine = kept(course, s.foot);
    const id = (hash2(col + Math.floor(s.own * 999), row) - 0.5) * fine;
    const n = fbm2(s.u * 0.6 + s.own * 40, s.v * 0.6, 4, s.foot * 0.6);
    const k = 1 + 0.45 * id + 0.3 * n;
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    // Moss and lichen like the lower courses.
    tint(s, 0.13, 0.14, 0.06, 0.45 * smoothstep(0.1, 0.8, n + 0.2 * id));
    const t = s.v / course - row;
    dim(s, 1 - 0.6 * smoothstep(0.8, 1, t) * fine - 0.25 * joint(s.u + (row & 1 ? tile / 2 : 0), tile, 0.02, s.foot));
    const a = (s.u / tile + (row & 1) * 0.5 - col - 0.5) * 2;
    lean(s, 0.5 * a * fine * kept(tile, s.foot), 0);
    s.shine = 0.012;
    s.rough = 0.5;
  };
}

/** Limewash or render over stone, stained from above and splashed from below. */
export function plaster(c: Light, stain = 0.4, foot = 0): Material {
  return (s) => {
    const n = fbm2(s.u * 0.5 + s.own * 70, s.v * 0.5, 5, s.foot * 0.5);
    const drip = fbm2(s.u * 3.3 + s.own * 20, s.v * 0.25, 3, s.foot * 3.3);
    const g = fbm2(s.u * 25, s.v * 25, 3, s.foot * 25);
    const k = 1 + 0.1 * n + 0.05 * g;
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    tint(s, 0.3, 0.27, 0.2, stain * 0.5 * smoothstep(0.1, 0.8, drip * 0.7 + n * 0.6));
    tint(s, 0.16, 0.16, 0.13, stain * (1 - smoothstep(0.1, 1.3 + 0.6 * n, s.y - foot)));
    lean(s, 0.06 * g, 0.06 * n);
  };
}

/** Canvas in stripes along u, letting light through. */
export function stripes(a: Light, b: Light, width: number, through = 0.35): Material {
  return (s) => {
    const t = Math.abs(((s.u / width) % 2) - 1);
    const e = Math.max(0.02, s.foot / width);
    const k = smoothstep(0.5 - e, 0.5 + e, t);
    const n = 1 + 0.1 * fbm2(s.u * 1.7, s.v * 1.7, 4, s.foot * 1.7);
    paint(s, mix(a[0], b[0], k) * n, mix(a[1], b[1], k) * n, mix(a[2], b[2], k) * n);
    s.through = through;
  };
}

/** Laid rope: strands wind about it. `thick` is its radius. */
export function rope(c: Light, thick: number): Material {
  return (s) => {
    const turn = s.u / (thick * 6.2832);
    const t = turn * 3 + s.v / (thick * 3.2);
    const f = t - Math.floor(t);
    const fine = kept(thick, s.foot);
    const groove = Math.abs(f - 0.5) * 2;
    const fibre = (noise2(t * 9, s.v / thick) + 0.7 * noise2(t * 23, (s.v / thick) * 0.6)) * kept(thick * 0.12, s.foot);
    const n = fbm3(s.x * 3, s.y * 3, s.z * 3, 3, s.foot * 3);
    const k = (1 - 0.6 * groove * groove * groove * fine) * (1 + 0.24 * fibre + 0.2 * n);
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    const l = (f - 0.5) * 0.9 * fine;
    s.ny -= l * 0.8;
    s.nx += l * 0.5;
    straighten(s);
  };
}

/** A window pane: dark room behind, the sky in front; `lit` is the lamp inside; `wide` and `high` (metres) hang curtains. */
export function pane(lit: Light = [0, 0, 0], wide = 0, high = 1.4): Material {
  return (s) => {
    const n = noise2(s.u * 1.3 + s.own * 50, s.v * 1.3);
    paint(s, 0.02, 0.022, 0.025);
    // Curtains behind some panes: gathered at both sides, or drawn half across.
    if (wide > 0 && s.own > 0.25) {
      const side = Math.min(s.u, wide - s.u) / wide;
      const fold = noise2(s.u * 34 + s.own * 77, s.v * 0.9);
      const cover = smoothstep(0.01, -0.01, side - (0.13 + 0.12 * s.own + 0.05 * (high - s.v)));
      const k = 0.17 * (1 + 0.35 * fold) * (0.4 + 0.6 * s.own);
      tint(s, k, k * 0.97, k * 0.88, cover);
    }
    // Old glass is a little wavy.
    lean(s, 0.012 * n, 0.012 * noise2(s.u * 1.1, s.v * 1.1 + s.own * 31));
    s.shine = 0.05;
    s.rough = 0.003;
    s.mirror = true;
    // Lamplight is brighter low in the room and broken by curtains and things on the sill.
    const k = clamp(0.75 + 0.5 * noise2(s.u * 2.1 + s.own * 9, s.v * 2.7) - 0.25 * s.v, 0.15, 1.4);
    s.er = lit[0] * k;
    s.eg = lit[1] * k;
    s.eb = lit[2] * k;
  };
}

/** Rough ground of two colours. */
export function ground(a: Light, b: Light, size: number, bump = 0.1): Material {
  return (s: Surface) => {
    const n = fbm2(s.x / size, s.z / size, 6, s.foot / size);
    const t = smoothstep(-0.5, 0.5, n);
    const g = fbm2((s.x * 9) / size, (s.z * 9) / size, 4, (s.foot * 9) / size);
    const k = 1 + 0.25 * g;
    paint(s, mix(a[0], b[0], t) * k, mix(a[1], b[1], t) * k, mix(a[2], b[2], t) * k);
    lean(s, bump * g, bump * n);
  };
}
