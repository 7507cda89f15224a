/** What is sold on the quay: fish on ice in shallow boxes, prawns, lemons, and the cards that name their price. */
import type { Builder } from "./mesh.ts";
import { boards, plain } from "./materials.ts";
import { fbm2, noise2, smoothstep } from "./noise.ts";
import { random, between } from "./random.ts";
import { ball, box, patch, quad } from "./shapes.ts";
import type { Light } from "./sky.ts";
import { paint, tint, type Material } from "./surface.ts";
import { after, place, tip, type Placement, type Vec } from "./vector.ts";

/** A round fish `long` metres, lying on its side along x; its back is of this colour. */
export function fish(b: Builder, at: Placement, long: number, back: Light, own: number): void {
  const scales: Material = (s) => {
    const up = s.v;
    const n = noise2(s.u * 60 + own * 40, s.v * 9);
    const bars = 0.5 + 0.5 * Math.sin(s.u * 190 + 3 * noise2(s.u * 20, s.v * 5));
    paint(s, 0.55, 0.56, 0.56);
    tint(
      s,
      back[0] * (0.6 + 0.8 * bars),
      back[1] * (0.6 + 0.8 * bars),
      back[2] * (0.6 + 0.8 * bars),
      smoothstep(0.5, 0.75, up + 0.06 * n),
    );
    tint(s, 0.5, 0.42, 0.34, 0.4 * smoothstep(0.3, 0.05, up));
    s.shine = 0.22;
    s.rough = 0.22;
  };
  b.at(at, () => {
    b.use(scales, own);
    const girth = (t: number): number =>
      0.155 * long * Math.pow(Math.sin(Math.PI * Math.pow(t, 0.72) * 0.97 + 0.03), 0.8);
    patch(
      b,
      10,
      12,
      (s, t) => {
        const a = s * 6.28318;
        const g = girth(t) + 0.012 * long;
        return [(0.5 - t) * long, Math.sin(a) * g * 0.62, Math.cos(a) * g];
      },
      { closed: true, uv: (s, t) => [t * long, 0.5 + 0.5 * Math.cos(s * 6.28318)] },
    );
    const tail = -long * 0.47;
    quad(b, [tail, 0, -0.012], [tail - 0.15 * long, 0.006, -0.13 * long], [tail - 0.11 * long, 0, 0], [tail, 0, 0.012]);
    quad(b, [tail, 0, -0.012], [tail - 0.11 * long, 0, 0], [tail - 0.15 * long, 0.006, 0.13 * long], [tail, 0, 0.012]);
    b.use(plain([0.6, 0.58, 0.5]));
    ball(b, [long * 0.42, 0.06 * long, 0.028 * long], [0.026 * long, 0.016 * long, 0.026 * long], 10);
    b.use(plain([0.02, 0.02, 0.02], 0.05, 0.1));
    ball(b, [long * 0.42, 0.069 * long, 0.028 * long], [0.015 * long, 0.012 * long, 0.015 * long], 8);
  });
}

const ice: Material = (s) => {
  const n = fbm2(s.x * 60, s.z * 60, 3, s.foot * 60);
  const k = 0.72 + 0.16 * n;
  paint(s, k * 0.96, k, k * 1.02);
  s.nx += 0.5 * n;
  s.nz += 0.5 * noise2(s.x * 70 + 9, s.z * 70);
  const l = 1 / Math.sqrt(s.nx * s.nx + s.ny * s.ny + s.nz * s.nz);
  s.nx *= l;
  s.ny *= l;
  s.nz *= l;
  s.shine = 0.03;
  s.rough = 0.2;
};

export type Goods = "mackerel" | "cod" | "prawns" | "salmon" | "lemons" | "herring";

/** A shallow box of goods, 0.56 × 0.4 m, its front edge towards +z. */
export function fishBox(b: Builder, at: Placement, c: Light, goods: Goods, seed: number): void {
  const next = random(seed);
  b.at(at, () => {
    b.use(boards({ colour: c, width: 0.5, wear: 0.25, level: true }), (seed % 10) / 10);
    const [w, d, h] = [0.28, 0.2, 0.1];
    box(b, [-w, 0, d - 0.014], [w, h, d]);
    box(b, [-w, 0, -d], [w, h, -d + 0.014]);
    box(b, [-w, 0, -d], [-w + 0.014, h, d]);
    box(b, [w - 0.014, 0, -d], [w, h, d]);
    b.use(ice);
    const heap = (x: number, z: number): number =>
      0.075 + 0.018 * noise2(x * 12 + seed, z * 12) + 0.006 * noise2(x * 60, z * 60 + seed);
    patch(b, 36, 26, (s, t) => {
      const x = (s - 0.5) * (2 * w - 0.03);
      const z = (0.5 - t) * (2 * d - 0.03);
      return [x, heap(x, z), z];
    });
    const lay = (x: number, z: number, turn: number, long: number, back: Light): void => {
      const roll = after(place([x, heap(x, z) + 0.02, z], turn), tip("x", between(next, -12, 12)));
      fish(b, roll, long, back, next());
    };
    if (goods === "mackerel")
      for (let i = 0; i < 6; i++)
        lay(-0.2 + i * 0.08, between(next, -0.015, 0.015), 82 + between(next, -8, 8), 0.31, [0.03, 0.12, 0.13]);
    else if (goods === "herring")
      for (let i = 0; i < 14; i++)
        lay(-0.21 + (i % 7) * 0.07, i < 7 ? -0.08 : 0.08, 80 + between(next, -14, 14), 0.2, [0.08, 0.11, 0.15]);
    else if (goods === "cod")
      for (let i = 0; i < 3; i++)
        lay(0, -0.11 + i * 0.105, between(next, -5, 5) + (i % 2) * 180, 0.46, [0.2, 0.17, 0.09]);
    else round(b, goods, heap, next);
  });
}

/** Prawns, slices and lemons. */
function round(b: Builder, goods: Goods, heap: (x: number, z: number) => number, next: () => number): void {
  const n = goods === "lemons" ? 16 : goods === "salmon" ? 6 : 52;
  for (let i = 0; i < n; i++) {
    const x = between(next, -0.22, 0.22);
    const z = between(next, -0.145, 0.145);
    if (goods === "lemons") {
      b.use(plain([0.72, 0.5, 0.035], 0.04, 0.35));
      const [u, v] = [-0.2 + (i % 6) * 0.08, -0.1 + Math.floor(i / 6) * 0.095];
      b.at(place([u + between(next, -0.01, 0.01), 0.1, v], next() * 180), () =>
        ball(b, [0, 0, 0], [0.044, 0.033, 0.033], 14),
      );
    } else if (goods === "salmon") {
      b.use((s) => {
        const stripe = Math.sin(s.u * 130 + 2 * noise2(s.u * 20, s.v * 20));
        paint(s, 0.66, 0.21 + 0.05 * stripe, 0.1 + 0.04 * stripe);
        s.shine = 0.04;
        s.rough = 0.25;
      });
      b.at(place([-0.18 + (i % 3) * 0.18, 0.085, i < 3 ? -0.07 : 0.09], between(next, -10, 10)), () =>
        box(b, [-0.075, 0, -0.05], [0.075, 0.04, 0.055]),
      );
    } else {
      b.use(plain([0.62, 0.17 + 0.08 * next(), 0.09], 0.04, 0.3), next());
      const a = next() * 6.28;
      const curl: Vec[] = Array.from({ length: 3 }, (_, k): Vec => {
        const t = a + k * 0.9;
        return [x + Math.cos(t) * 0.024, heap(x, z) + 0.012 + 0.02 * next(), z + Math.sin(t) * 0.024];
      });
      for (const p of curl) ball(b, p, [0.013, 0.01, 0.013], 5);
    }
  }
}

/** A price card on a stick, written in chalk. */
export function card(b: Builder, at: Placement, own: number): void {
  b.at(at, () => {
    b.use((s) => {
      paint(s, 0.03, 0.034, 0.03);
      const line = Math.floor(s.v / 0.035);
      const stroke = 0.012 * Math.sin(s.u * 240 + own * 60 + line * 9);
      const inside = s.u > 0.014 && s.u < 0.125 - line * 0.03 && s.v > 0.014 && s.v < 0.085;
      if (inside && Math.abs((s.v % 0.035) - 0.018 - stroke) < 0.004) paint(s, 0.6, 0.6, 0.56);
    }, own);
    quad(b, [-0.07, 0.12, 0], [0.07, 0.12, 0], [0.07, 0.22, -0.015], [-0.07, 0.22, -0.015]);
    b.use(plain([0.3, 0.22, 0.13]));
    box(b, [-0.006, -0.02, -0.012], [0.006, 0.2, -0.004]);
  });
}
