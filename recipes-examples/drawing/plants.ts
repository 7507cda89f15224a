/** Grass, flowers, bushes, and the sheep that eat them. */
import { egg, grown, limb, skin } from "./blob.ts";
import { cloth, plain } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import { fbm3, noise2 } from "./noise.ts";
import { between, random } from "./random.ts";
import { patch } from "./shapes.ts";
import type { Light } from "./sky.ts";
import { paint, straighten, type Material } from "./surface.ts";
import { add, type Placement, type Vec } from "./vector.ts";

/** Leaf of grass: lit from behind it glows. `s.v` runs from root (0) to tip (1). */
export function blade(root: Light, tip: Light): Material {
  return (s) => {
    const k = 0.75 + 0.5 * s.own;
    const t = s.v;
    paint(
      s,
      (root[0] + (tip[0] - root[0]) * t) * k,
      (root[1] + (tip[1] - root[1]) * t) * k,
      (root[2] + (tip[2] - root[2]) * t) * k,
    );
    s.through = 0.45;
    s.shine = 0.02;
    s.rough = 0.5;
  };
}

/** One bent blade of two or four triangles. */
export function grassBlade(b: Builder, at: Vec, high: number, wide: number, turn: number, bend: number): void {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const n: Vec = [-s * 0.6, 0.8, c * 0.6];
  const point = (t: number, side: number): Vec => {
    const out = bend * t * t * high;
    const w = (wide / 2) * side * (1 - t * t);
    return [at[0] + c * w - s * out, at[1] + high * t * (1 - 0.25 * bend * t), at[2] + s * w + c * out];
  };
  const a = b.vertex(point(0, -1), n, 0, 0);
  const d = b.vertex(point(0, 1), n, 1, 0);
  const e = b.vertex(point(0.55, 1), n, 1, 0.55);
  const f = b.vertex(point(0.55, -1), n, 0, 0.55);
  const g = b.vertex(point(1, 0), n, 0.5, 1);
  b.triangle(a, d, e);
  b.triangle(a, e, f);
  b.triangle(f, e, g);
}

/** A flower head of petals round an eye, tipped towards `up`. */
export function flower(b: Builder, at: Vec, size: number, up: Vec, petal: Material, eye: Material, petals = 7): void {
  const u: Vec = [1 - up[0] * up[0], -up[0] * up[1], -up[0] * up[2]];
  const v: Vec = [up[1] * u[2] - up[2] * u[1], up[2] * u[0] - up[0] * u[2], up[0] * u[1] - up[1] * u[0]];
  const spot = (a: number, r: number, h: number): Vec => [
    at[0] + (u[0] * Math.cos(a) + v[0] * Math.sin(a)) * r + up[0] * h,
    at[1] + (u[1] * Math.cos(a) + v[1] * Math.sin(a)) * r + up[1] * h,
    at[2] + (u[2] * Math.cos(a) + v[2] * Math.sin(a)) * r + up[2] * h,
  ];
  b.use(petal);
  for (let i = 0; i < petals; i++) {
    const a = (i / petals) * 6.2832;
    const w = 3.1 / petals;
    const p = [
      spot(a, size * 0.12, 0),
      spot(a + w * 0.8, size * 0.72, size * 0.14),
      spot(a, size, size * 0.2),
      spot(a - w * 0.8, size * 0.72, size * 0.14),
    ].map((q) => b.vertex(q, up, 0, 0));
    b.triangle(p[0], p[1], p[2]);
    b.triangle(p[0], p[2], p[3]);
  }
  b.use(eye);
  const c = b.vertex(spot(0, 0, size * 0.18), up, 0, 0);
  for (let i = 0; i < 6; i++)
    b.triangle(
      c,
      b.vertex(spot((i / 6) * 6.2832, size * 0.26, size * 0.08), up, 0, 0),
      b.vertex(spot(((i + 1) / 6) * 6.2832, size * 0.26, size * 0.08), up, 0, 0),
    );
}

/** A round bush or a tree's crown: a lumpy ball that darkens inwards. */
export function crown(b: Builder, at: Vec, size: Vec, c: Light, seed: number, sides = 28): void {
  b.use((s) => {
    const n = fbm3(s.x * 3.1, s.y * 3.1, s.z * 3.1, 5, s.foot * 3.1);
    const k = 0.75 + 0.75 * n;
    paint(s, c[0] * k * (1 + 0.3 * n), c[1] * k, c[2] * k);
    s.through = 0.12;
    s.nx += 0.8 * n;
    s.nz += 0.6 * fbm3(s.x * 4 + 9, s.y * 4, s.z * 4, 3, s.foot * 4);
    straighten(s);
  });
  patch(
    b,
    sides,
    Math.ceil(sides * 0.7),
    (s, t) => {
      const a = -s * 6.28318;
      const e = (t - 0.5) * Math.PI;
      const d: Vec = [Math.cos(a) * Math.cos(e), Math.sin(e), Math.sin(a) * Math.cos(e)];
      const r = 1 + 0.42 * fbm3(d[0] * 1.9 + seed, d[1] * 1.9, d[2] * 1.9 + seed, 5, 0, 0.62);
      return [at[0] + d[0] * r * size[0], at[1] + d[1] * r * size[1], at[2] + d[2] * r * size[2]];
    },
    { closed: true },
  );
}

/** A sheep, grazing or looking up, nose towards +z. */
export function sheep(b: Builder, at: Placement, grazing: boolean, seed: number): void {
  const next = random(seed);
  const wool = cloth([0.62, 0.58, 0.5]);
  const dark = plain([0.1, 0.085, 0.075]);
  b.at(at, () => {
    const body = grown(
      0.12,
      egg([0, 0.62, 0], [0.27, 0.27, 0.46]),
      egg([0, 0.68, 0.26], [0.22, 0.23, 0.26]),
      egg([0, 0.6, -0.3], [0.25, 0.25, 0.24]),
    );
    const fleece = (x: number, y: number, z: number): number =>
      body(x, y, z) - 0.035 * fbm3(x * 9 + seed, y * 9, z * 9, 3);
    skin(b, fleece, [-0.42, 0.2, -0.66], [0.42, 1.08, 0.66], 0.055, () => wool);
    const head: Vec = grazing ? [between(next, -0.08, 0.08), 0.28, 0.74] : [between(next, -0.12, 0.12), 0.92, 0.66];
    const nose = add(head, grazing ? [0, -0.13, 0.08] : [0, -0.07, 0.17]);
    const neck = limb([0, 0.7, 0.36], head, 0.15, 0.1);
    skin(
      b,
      (x, y, z) => neck(x, y, z) - 0.02 * noise2(x * 20, y * 20 + z * 20),
      [-0.32, 0.1, 0.1],
      [0.32, 1.1, 0.95],
      0.04,
      () => wool,
    );
    skin(
      b,
      grown(
        0.03,
        limb(head, nose, 0.085, 0.055),
        limb(add(head, [0.05, 0.05, -0.02]), add(head, [0.15, 0.03, -0.05]), 0.03, 0.02),
        limb(add(head, [-0.05, 0.05, -0.02]), add(head, [-0.15, 0.03, -0.05]), 0.03, 0.02),
      ),
      add(nose, [-0.24, -0.2, -0.34]),
      add(head, [0.24, 0.22, 0.34]),
      0.028,
      () => dark,
    );
    for (const [x, z] of [
      [0.14, 0.3],
      [-0.14, 0.3],
      [0.14, -0.32],
      [-0.14, -0.32],
    ])
      skin(
        b,
        limb([x, 0.45, z], [x + between(next, -0.03, 0.03), 0.02, z + between(next, -0.06, 0.06)], 0.055, 0.035),
        [x - 0.12, -0.02, z - 0.14],
        [x + 0.12, 0.5, z + 0.14],
        0.035,
        () => dark,
      );
  });
}

/** Puts things by chance inside a wedge before the camera, denser near by. Gives place and distance. */
export function scatterWedge(
  seed: number,
  count: number,
  turn: number,
  half: number,
  near: number,
  far: number,
  put: (x: number, z: number, far: number, next: () => number) => void,
): void {
  const next = random(seed);
  for (let i = 0; i < count; i++) {
    const a = ((turn + (next() * 2 - 1) * half) * Math.PI) / 180;
    const r = near * Math.pow(far / near, next());
    put(Math.sin(a) * r, -Math.cos(a) * r, r, next);
  }
}
