/** A kitchen table by a north window: pears, an enamel jug with meadow flowers, a letter just opened. */
import { egg, grown, skin } from "../drawing/blob.ts";
import { finish } from "../drawing/finish.ts";
import { boards, plain, plaster } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, fbm3, noise2, smoothstep } from "../drawing/noise.ts";
import { flower, grassBlade, blade } from "../drawing/plants.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { box, patch, quad, tube } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { dim, lean, paint, tint, type Material } from "../drawing/surface.ts";
import { direction, moved, place, tip, after, type Placement, type Vec } from "../drawing/vector.ts";
import type { Opening, Picture, World } from "../drawing/world.ts";

const enamel: Material = (s) => {
  const n = fbm3(s.x * 9, s.y * 9, s.z * 9, 3);
  paint(s, 0.74 + 0.02 * n, 0.745 + 0.02 * n, 0.73 + 0.02 * n);
  // Chips show dark iron.
  const chip = smoothstep(0.74, 0.78, fbm3(s.x * 31 + 4, s.y * 31, s.z * 31, 3));
  tint(s, 0.03, 0.028, 0.03, chip);
  s.shine = 0.045;
  s.rough = 0.06;
  s.mirror = true;
};
const blueRim: Material = (s) => {
  paint(s, 0.03, 0.06, 0.2);
  s.shine = 0.045;
  s.rough = 0.06;
  s.mirror = true;
};

const pearSkin: Material = (s) => {
  const n = fbm3(s.x * 40, s.y * 40, s.z * 40, 4, s.foot * 40);
  const spots = smoothstep(0.45, 0.6, fbm3(s.x * 420, s.y * 420, s.z * 420, 2, s.foot * 420));
  paint(s, 0.42 + 0.06 * n, 0.36 + 0.03 * n, 0.06);
  tint(s, 0.2, 0.26, 0.05, 0.5 * smoothstep(-0.2, 0.6, fbm3(s.x * 12 + 3, s.y * 12, s.z * 12 + s.own * 9, 3)));
  // A blush on one side and russet about the stalk.
  tint(s, 0.5, 0.13, 0.04, 0.75 * smoothstep(0.1, 0.9, s.nx * 0.75 + s.nz * 0.3 + 0.3 * n + (s.own - 0.5)));
  tint(s, 0.2, 0.11, 0.04, 0.35 * spots);
  s.shine = 0.035;
  s.rough = 0.28;
};

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(1010);
  room(b);
  table(b);
  jug(b, place([-0.1, 0, -0.13], 150));
  bunch(b, [-0.1, 0.235, -0.13], next);
  pear(b, place([0.105, 0, -0.015], 20), 0.2);
  pear(b, place([0.192, 0, -0.085], 130, 0.95), 0.62);
  pear(b, after(place([0.038, 0.0335, 0.085], 215), tip("x", 78)), 0.9);
  letter(b, place([0.27, 0.0006, 0.07], 24));
  const opening: Opening = { corner: [-0.985, 0.16, 0.52], edge1: [0, 0, -0.86], edge2: [0, 1.02, 0], gain: 1 };
  const sky = new Sky({
    sun: direction(160, 40),
    zenith: [4.6, 5.4, 6.6],
    horizon: [6.6, 7.0, 7.3],
    clear: 2,
    ground: [1.1, 1.15, 1.0],
  });
  const world: World = {
    camera: { eye: [0.12, 0.4, 1.12], turn: -4, pitch: -11, focal: 50 },
    mesh: b.done(),
    sky,
    openings: [opening],
    open: 0,
    fill: [0.055, 0.05, 0.045],
    rays: 5,
    mirrorRays: 2,
    exposure: 0.85,
  };
  const picture = render(world, width, height);
  return finish(picture, { glow: 0.04, falloff: 0.5, focus: 1.16, blur: 0.009 });
}

/** Walls with a window in the left one; the window's sill stands a hand above the table. */
function room(b: Builder): void {
  const wall: Material = (s) => {
    plaster([0.3, 0.36, 0.37], 0.25, -1)(s);
    lean(s, 0.05 * fbm2(s.u * 14, s.v * 14, 3), 0.05 * fbm2(s.u * 9, s.v * 9, 3));
  };
  b.use(wall);
  quad(b, [-1, -0.8, -0.62], [1.6, -0.8, -0.62], [1.6, 1.7, -0.62], [-1, 1.7, -0.62]);
  quad(b, [1.6, -0.8, -0.62], [1.6, -0.8, 2.2], [1.6, 1.7, 2.2], [1.6, 1.7, -0.62]);
  quad(b, [-1, 1.7, -0.62], [1.6, 1.7, -0.62], [1.6, 1.7, 2.2], [-1, 1.7, 2.2]);
  quad(b, [-1, -0.8, 2.2], [1.6, -0.8, 2.2], [1.6, -0.8, -0.62], [-1, -0.8, -0.62]);
  quad(b, [1.6, -0.8, 2.2], [-1, -0.8, 2.2], [-1, 1.7, 2.2], [1.6, 1.7, 2.2]);
  // Left wall in four pieces about the window.
  const side = (y0: number, y1: number, z0: number, z1: number): void =>
    quad(b, [-1, y0, z1], [-1, y0, z0], [-1, y1, z0], [-1, y1, z1]);
  side(-0.8, 0.14, -0.62, 2.2);
  side(1.2, 1.7, -0.62, 2.2);
  side(0.14, 1.2, -0.62, -0.36);
  side(0.14, 1.2, 0.54, 2.2);
  b.use(plain([0.66, 0.65, 0.6], 0.03, 0.4));
  box(b, [-1.14, 0.1, -0.4], [-0.9, 0.14, 0.58]);
  for (const z of [-0.36, 0.09, 0.52]) box(b, [-1.06, 0.14, z - 0.025], [-0.99, 1.2, z + 0.025]);
  for (const y of [0.16, 0.52, 0.86, 1.18]) box(b, [-1.05, y - 0.018, -0.36], [-1.0, y + 0.018, 0.54]);
  // A rail of hooks on the back wall, a towel on one of them.
  b.use(boards({ colour: [0.34, 0.4, 0.4], width: 0.3, wear: 0.3 }));
  box(b, [0.12, 0.46, -0.62], [0.9, 0.52, -0.6]);
  b.use(plain([0.12, 0.1, 0.08], 0.06));
  for (const x of [0.24, 0.46, 0.68])
    tube(
      b,
      [
        [x, 0.49, -0.6],
        [x, 0.48, -0.56],
        [x, 0.52, -0.55],
      ],
      0.006,
      6,
    );
  b.use((s) => {
    paint(s, 0.56, 0.53, 0.47);
    if (Math.abs(((s.v * 100) % 9) - 4.5) < 0.5 || Math.abs(((s.v * 100) % 9) - 6) < 0.25) paint(s, 0.36, 0.09, 0.06);
  });
  patch(
    b,
    30,
    20,
    (s, t) => {
      const w = 0.05 + 0.11 * smoothstep(0, 0.7, t);
      const f = 0.02 * Math.sin(s * 17 + noise2(s * 3, t * 2) * 2) * (0.4 + t);
      return [0.46 + (s - 0.5) * w * 2 * (0.5 + 0.5 * t), 0.5 - 0.44 * t, -0.545 + f];
    },
    { flip: true, uv: (s, t) => [s * 0.3, t * 0.44] },
  );
}

function table(b: Builder): void {
  const top = boards({ colour: [0.3, 0.2, 0.11], width: 0.19, level: true, wear: 0.35, gap: 0.004 });
  b.use((s) => {
    top(s);
    const g = fbm2(s.x * 3, s.z * 55, 4, s.foot * 55);
    dim(s, 1 + 0.3 * g);
    // Rings where cups stood, and scrubbed places.
    const d = Math.hypot(s.x + 0.32, s.z - 0.12);
    dim(s, 1 - 0.3 * smoothstep(0.006, 0.002, Math.abs(d - 0.042)));
    s.shine = 0.03;
    s.rough = 0.25 + 0.1 * g;
    s.ny = 1;
    s.nx = 0.02 * g;
    s.nz = 0.04 * g;
    lean(s, 0, 0);
    s.mirror = true;
  });
  quad(b, [-0.9, 0, 0.34], [0.95, 0, 0.34], [0.95, 0, -0.46], [-0.9, 0, -0.46], -0.9, -0.34);
  b.use(boards({ colour: [0.26, 0.17, 0.1], width: 0.3, wear: 0.3 }));
  quad(b, [-0.9, -0.035, 0.34], [0.95, -0.035, 0.34], [0.95, 0, 0.34], [-0.9, 0, 0.34]);
  // A linen cloth over the corner.
  b.use((s) => {
    const weave = 0.06 * noise2(s.u * 900, s.v * 900) * (s.foot < 0.0008 ? 1 : 0);
    paint(s, 0.6 + weave, 0.59 + weave, 0.55 + weave);
    const line = Math.abs(s.v - 0.028) < 0.0035 || Math.abs(s.v - 0.04) < 0.0015;
    if (line) paint(s, 0.1, 0.16, 0.32);
    s.through = 0.1;
  });
  patch(
    b,
    60,
    40,
    (s, t) => {
      const x = -0.46 + 0.5 * s - 0.1 * t;
      const z = 0.16 + 0.24 * t + 0.05 * s;
      const fold = 0.006 * (1 + noise2(x * 16 + 2, z * 7)) + 0.005 * (1 + noise2(x * 34, z * 21 + 5));
      const over = z - 0.34;
      return over > 0 ? [x, 0.002 + fold * 0.3 - over * 1.3, 0.345 + fold * 2 + over * 0.15] : [x, 0.001 + fold, z];
    },
    { flip: true, uv: (s, t) => [s * 0.5, (1 - t) * 0.26] },
  );
}

function jug(b: Builder, at: Placement): void {
  const profile: [number, number][] = [
    [0, 0.001],
    [0.064, 0.001],
    [0.069, 0.006],
    [0.079, 0.04],
    [0.083, 0.075],
    [0.079, 0.115],
    [0.064, 0.155],
    [0.052, 0.185],
    [0.051, 0.205],
    [0.057, 0.228],
  ];
  b.at(at, () => {
    const shell =
      (inset: number) =>
      (s: number, t: number): Vec => {
        const [radius, y] = between4(profile, t);
        const r = radius - inset;
        const a = -s * 6.28318;
        // The lip is drawn out to a spout.
        const spout =
          0.026 * smoothstep(0.17, 0.228, y) * Math.exp(-((Math.atan2(Math.sin(a), Math.cos(a)) / 0.36) ** 2));
        return [Math.cos(a) * (r + spout), y + spout * 0.35, Math.sin(a) * (r + spout)];
      };
    b.use(enamel);
    patch(b, 56, 54, shell(0), { closed: true });
    patch(b, 56, 40, shell(0.003), { closed: true, flip: true });
    b.use(blueRim);
    const rim = shell(0.0015);
    tube(
      b,
      Array.from({ length: 57 }, (_, i) => rim(i / 56, 1)),
      0.0034,
      8,
    );
    tube(
      b,
      Array.from({ length: 19 }, (_, i): Vec => {
        const t = i / 18;
        const a = t * Math.PI;
        return [-0.05 - 0.058 * Math.sin(a) - 0.02 * t, 0.206 - 0.14 * t + 0.016 * Math.sin(a), 0];
      }),
      (t) => 0.0075 + 0.002 * Math.cos(t * 6.28),
      12,
    );
  });
}

/** A smooth way through points (Catmull and Rom's), at t from 0 to 1. */
function between4(p: readonly (readonly [number, number])[], t: number): [number, number] {
  const i = Math.min(p.length - 2, Math.floor(t * (p.length - 1)));
  const f = t * (p.length - 1) - i;
  const a = p[Math.max(0, i - 1)];
  const d = p[Math.min(p.length - 1, i + 2)];
  const at = (k: 0 | 1): number => {
    const [w, x, y, z] = [a[k], p[i][k], p[i + 1][k], d[k]];
    return x + 0.5 * f * (y - w + f * (2 * w - 5 * x + 4 * y - z + f * (3 * (x - y) + z - w)));
  };
  return [at(0), at(1)];
}

function bunch(b: Builder, at: Vec, next: () => number): void {
  const green = blade([0.05, 0.09, 0.025], [0.12, 0.17, 0.05]);
  const white: Material = (s) => {
    paint(s, 0.72, 0.71, 0.66);
    s.through = 0.3;
  };
  const blue: Material = (s) => {
    paint(s, 0.14, 0.17, 0.48);
    s.through = 0.25;
  };
  const yellow = plain([0.55, 0.36, 0.03]);
  for (let i = 0; i < 19; i++) {
    const a = next() * 6.28;
    const lean2 = 0.1 + 0.5 * next();
    const high = between(next, 0.09, 0.21);
    const foot: Vec = [at[0] + 0.02 * Math.cos(a), at[1] - 0.05, at[2] + 0.02 * Math.sin(a)];
    const head: Vec = [foot[0] + Math.cos(a) * lean2 * high, foot[1] + high, foot[2] + Math.sin(a) * lean2 * high];
    const mid: Vec = [(foot[0] + head[0]) / 2 - Math.cos(a) * 0.012, (foot[1] + head[1]) / 2, (foot[2] + head[2]) / 2];
    b.use(green, next());
    tube(b, [foot, mid, head], 0.0013, 5);
    const up: Vec = [Math.cos(a) * Math.sin(lean2), Math.cos(lean2), Math.sin(a) * Math.sin(lean2) + 0.25];
    const l = Math.hypot(...up);
    flower(
      b,
      head,
      i % 3 === 1 ? 0.017 : 0.023,
      [up[0] / l, up[1] / l, up[2] / l],
      i % 3 === 1 ? blue : white,
      i % 3 === 1 ? blue : yellow,
      11,
    );
    b.use(green, next());
    for (let k = 0; k < 2; k++) grassBlade(b, mid, between(next, 0.05, 0.1), 0.008, next() * 6.28, 0.7);
  }
}

function pear(b: Builder, at: Placement, own: number): void {
  b.at(at, () => {
    const f = grown(
      0.045,
      egg([0, 0.037, 0], [0.0385, 0.037, 0.0385]),
      egg([0.002, 0.075, 0.001], [0.021, 0.026, 0.021]),
    );
    const dent = (x: number, y: number, z: number): number =>
      f(x, y, z) +
      0.0016 * noise2(x * 60 + own * 9, y * 60 + z * 40) +
      0.006 * Math.exp(-((x * x + z * z + (y - 0.103) ** 2) / 0.00006));
    skin(b, dent, [-0.05, -0.01, -0.05], [0.05, 0.115, 0.05], 0.0032, () => pearSkin, own);
    b.use(plain([0.1, 0.06, 0.03]));
    tube(
      b,
      [
        [0.002, 0.094, 0.001],
        [0.004, 0.11, 0.002],
        [0.009, 0.124, 0.001],
      ],
      (t) => 0.0018 + 0.0009 * t,
      7,
    );
  });
}

/** A sheet folded in three and lying open, its envelope below it. Lines of handwriting that say nothing. */
function letter(b: Builder, at: Placement): void {
  const ink: Material = (s) => {
    paint(s, 0.62, 0.6, 0.53);
    const row = Math.floor(s.v / 0.0085);
    const y = s.v / 0.0085 - row - 0.5;
    const end = 0.135 - 0.05 * Math.abs(noise2(row * 3.7, 1.2)) * (row % 6 === 5 ? 2 : 0.3);
    const word = noise2(s.u * 85 + row * 19.3, row * 5.1) > -0.28;
    const stroke = 0.24 * Math.sin(s.u * 2900 + 3 * noise2(s.u * 300, row)) + 0.12 * noise2(s.u * 700, row * 3);
    if (s.u > 0.012 && s.u < end && s.v > 0.022 && s.v < 0.185 && word && Math.abs(y - stroke) < 0.17)
      tint(s, 0.04, 0.05, 0.13, 0.75);
    s.through = 0.12;
  };
  b.at(at, () => {
    b.use((s) => {
      paint(s, 0.52, 0.47, 0.38);
      if (s.u > 0.125 && s.u < 0.147 && s.v > 0.075 && s.v < 0.101) paint(s, 0.42, 0.12, 0.07);
      if (s.u > 0.1275 && s.u < 0.1445 && s.v > 0.0775 && s.v < 0.0985) paint(s, 0.45, 0.2, 0.12);
    });
    const e = after(place([-0.01, 0.0008, 0.045], -38), place([0, 0, 0]));
    const c = (
      [
        [-0.08, 0, 0.055],
        [0.08, 0, 0.055],
        [0.08, 0.002, -0.055],
        [-0.08, 0.002, -0.055],
      ] as const
    ).map((p) => moved(e, p));
    quad(b, c[0], c[1], c[2], c[3]);
    b.use(ink);
    patch(
      b,
      16,
      48,
      (s, t) => {
        const x = (s - 0.5) * 0.148;
        const z = (0.5 - t) * 0.2;
        const rise =
          0.006 + 0.02 * Math.pow(Math.abs(((t * 3) % 1) - 0.5) * 2, 1.3) * (t > 0.66 ? 1.3 : t < 0.33 ? 0.55 : 0.75);
        return [x, rise + 0.004 * s * t, z * (t > 0.66 ? 0.97 : 1)];
      },
      { uv: (s, t) => [s * 0.148, (1 - t) * 0.2] },
    );
  });
}
