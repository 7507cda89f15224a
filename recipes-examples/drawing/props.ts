/** Things that stand about a harbour: barrels, crates, fish boxes, bollards, net racks, street lamps, coils of rope. */
import { boards, cloth, plain, rope } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import { fbm3, noise2 } from "./noise.ts";
import { hash, between, random } from "./random.ts";
import { ball, beam, box, hang, patch, tube, turned } from "./shapes.ts";
import type { Light } from "./sky.ts";
import type { Line } from "./lines.ts";
import type { Material } from "./surface.ts";
import { moved, place, type Placement, type Vec } from "./vector.ts";

const oak = boards({ colour: [0.24, 0.15, 0.08], width: 0.1, wear: 0.5 });
const hoop = plain([0.09, 0.075, 0.065], 0.08, 0.4);
const castIron = plain([0.05, 0.05, 0.052], 0.06, 0.4);
const hemp = rope([0.42, 0.33, 0.2], 0.018);

export function barrel(b: Builder, at: Placement, staves: Material = oak, own = 0): void {
  b.at(at, () => {
    b.use(staves, own);
    turned(
      b,
      Array.from(
        { length: 11 },
        (_, i) => [0.27 + 0.065 * Math.sin((i / 10) * Math.PI), (i / 10) * 0.86] as [number, number],
      ),
      22,
    );
    turned(
      b,
      [
        [0.25, 0.82],
        [0, 0.82],
      ],
      22,
    );
    b.use(hoop, own);
    for (const y of [0.06, 0.22, 0.6, 0.77]) {
      const r = 0.277 + 0.065 * Math.sin((y / 0.86) * Math.PI);
      turned(
        b,
        [
          [r - 0.01, y - 0.005],
          [r + 0.004, y],
          [r + 0.006, y + 0.045],
          [r - 0.01, y + 0.05],
        ],
        22,
      );
    }
  });
}

/** A slatted crate, open at the top. */
export function crate(b: Builder, at: Placement, size: Vec, c: Light, own = 0): void {
  const wood = boards({ colour: c, width: 0.5, wear: 0.5, level: true });
  const [w, h, d] = size;
  b.at(at, () => {
    b.use(wood, own);
    const t = 0.016;
    const rows = Math.max(2, Math.round(h / 0.11));
    for (let i = 0; i < rows; i++) {
      const y0 = (i / rows) * h + 0.008;
      const y1 = ((i + 1) / rows) * h - 0.008;
      b.use(wood, hash(i + own * 100));
      box(b, [-w / 2, y0, d / 2 - t], [w / 2, y1, d / 2]);
      box(b, [-w / 2, y0, -d / 2], [w / 2, y1, -d / 2 + t]);
      box(b, [-w / 2, y0, -d / 2], [-w / 2 + t, y1, d / 2]);
      box(b, [w / 2 - t, y0, -d / 2], [w / 2, y1, d / 2]);
    }
    for (const x of [-1, 1])
      for (const z of [-1, 1])
        box(
          b,
          [x * (w / 2 - 0.04) - 0.02, 0, z * (d / 2 - 0.04) - 0.02],
          [x * (w / 2 - 0.04) + 0.02, h, z * (d / 2 - 0.04) + 0.02],
        );
    box(b, [-w / 2, 0, -d / 2], [w / 2, 0.02, d / 2]);
  });
}

/** A mooring post of cast iron, 0.75 m high. */
export function bollard(b: Builder, at: Placement): void {
  b.at(at, () => {
    b.use(castIron);
    turned(
      b,
      [
        [0.34, 0],
        [0.34, 0.05],
        [0.2, 0.09],
        [0.17, 0.3],
        [0.17, 0.5],
        [0.22, 0.58],
        [0.27, 0.62],
        [0.27, 0.68],
        [0.2, 0.74],
        [0, 0.76],
      ],
      26,
    );
  });
}

/** Rope laid down in a flat coil. */
export function coil(b: Builder, at: Placement, radius: number, turns: number, thick = 0.018): void {
  b.at(at, () => {
    b.use(thick === 0.018 ? hemp : rope([0.42, 0.33, 0.2], thick));
    const n = turns * 22;
    const path = Array.from({ length: n + 1 }, (_, i): Vec => {
      const t = i / n;
      const a = t * turns * 6.2832;
      const layer = Math.floor(t * 2.999);
      const r =
        radius * (layer % 2 ? 0.45 + 0.55 * ((t * 3) % 1) : 1 - 0.55 * ((t * 3) % 1)) * (1 + 0.03 * noise2(a * 0.8, 2));
      return [Math.cos(a) * r, thick * (1 + layer * 1.8) + 0.01 * noise2(a, 5), Math.sin(a) * r];
    });
    tube(b, path, thick, 7);
  });
}

/** Nets thrown down in a heap, floats and all; about 2 m across and knee-high. */
export function netHeap(b: Builder, at: Placement, c: Light, seed: number): void {
  const next = random(seed);
  const heap = (x: number, z: number): number => {
    const r = Math.sqrt(x * x * 0.8 + z * z * 1.4);
    return Math.max(
      0,
      0.5 * (1 - r * r * 0.9) + 0.1 * noise2(x * 3 + seed, z * 3) + 0.05 * noise2(x * 9, z * 9 + seed),
    );
  };
  b.at(at, () => {
    b.use((s) => {
      const cord =
        Math.abs(noise2(s.x * 34 + s.y * 20, s.z * 34)) + 0.5 * Math.abs(noise2(s.x * 80, s.z * 80 + s.y * 50));
      const k = 0.45 + 0.9 * Math.min(1, cord);
      s.r = c[0] * k;
      s.g = c[1] * k;
      s.b = c[2] * k;
    });
    patch(b, 70, 70, (s, t) => {
      const x = (s - 0.5) * 2.6;
      const z = (0.5 - t) * 2;
      return [x, heap(x, z) - 0.01, z];
    });
    b.use(plain([0.62, 0.22, 0.04], 0.04, 0.35));
    for (let i = 0; i < 26; i++) {
      const a = next() * 6.28;
      const r = 0.35 + 0.75 * next();
      const x = Math.cos(a) * r;
      const z = Math.sin(a) * r * 0.75;
      b.at(place([x, heap(x, z) + 0.035, z], next() * 180), () => ball(b, [0, 0, 0], [0.085, 0.05, 0.05], 10));
    }
  });
}

/** A rack of poles with nets hung over it: the net is a sagging sheet of fine holes, seen here as its cord. */
export function netRack(b: Builder, at: Placement, long: number, high: number, net: Light, seed: number): Line[] {
  const next = random(seed);
  const out: Line[] = [];
  const posts = Math.max(2, Math.round(long / 2.4) + 1);
  b.at(at, () => {
    b.use(boards({ colour: [0.2, 0.16, 0.11], width: 0.3, wear: 0.7 }));
    for (let i = 0; i < posts; i++) {
      const x = (i / (posts - 1) - 0.5) * long;
      beam(b, [x, 0, 0.02], [x + between(next, -0.04, 0.04), high + 0.15, 0], 0.09);
    }
    tube(b, hang([-long / 2 - 0.3, high, 0], [long / 2 + 0.3, high, 0], 0.03, 8), 0.045, 7);
    b.use(cloth(net, 0.3));
    // The net's folds: a bunched mass along the bar, thinner towards its ragged foot.
    const drop = high * 0.72;
    patch(b, 90, 14, (s, t) => {
      const x = (s - 0.5) * long * 0.94;
      const fold = 0.09 * noise2(x * 5.1 + seed, t * 0.8) + 0.05 * noise2(x * 13 + seed, t * 1.4);
      const foot = high - drop * (0.75 + 0.3 * noise2(x * 0.8 + seed * 3, 1.7)) * t;
      return [x + 0.03 * fbm3(x, t, seed, 3), foot + 0.05, 0.06 + fold * (0.4 + t) + 0.05 * t];
    });
    patch(b, 60, 8, (s, t) => {
      const x = (s - 0.5) * long * 0.9;
      return [x, high + 0.05 - high * 0.45 * t, -0.07 - 0.1 * t * (1 + noise2(x * 4, seed))];
    });
  });
  // Head ropes with floats, hanging in a curve.
  for (let k = 0; k < 3; k++) {
    const pts = hang(
      [-long / 2, high * between(next, 0.6, 0.95), 0.2],
      [long / 2, high * between(next, 0.6, 0.95), 0.2],
      high * 0.14,
      14,
    ).map((p) => moved(at, p));
    out.push({ points: pts, width: 0.02, colour: [0.3, 0.22, 0.12] });
  }
  return out;
}

/** A cast-iron street lamp; the lantern's middle is 3.6 m up. Returns nothing: the light itself is set in the scene. */
export function streetLamp(b: Builder, at: Placement, glass: Material): void {
  b.at(at, () => {
    b.use(castIron);
    turned(
      b,
      [
        [0.2, 0],
        [0.2, 0.12],
        [0.12, 0.22],
        [0.11, 0.7],
        [0.065, 0.8],
        [0.05, 3],
        [0.1, 3.05],
        [0.06, 3.12],
        [0.1, 3.3],
      ],
      14,
    );
    b.use(glass);
    turned(
      b,
      [
        [0.1, 3.32],
        [0.19, 3.8],
      ],
      6,
    );
    b.use(castIron);
    turned(
      b,
      [
        [0.24, 3.8],
        [0.22, 3.86],
        [0.1, 4],
        [0.03, 4.12],
        [0, 4.16],
      ],
      6,
    );
    for (let i = 0; i < 6; i++) {
      const a = (-i / 6) * 6.2832;
      beam(b, [Math.cos(a) * 0.1, 3.32, Math.sin(a) * 0.1], [Math.cos(a) * 0.19, 3.8, Math.sin(a) * 0.19], 0.018);
    }
  });
}
