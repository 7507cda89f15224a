/** Boats of Varnhaven: open rowing boats and decked fishing boats with wheelhouse, mast and rigging. Bow towards +x. */
import { boards, pane, plain } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import { box, patch, quad, tube, turned } from "./shapes.ts";
import type { Light } from "./sky.ts";
import type { Line } from "./lines.ts";
import { noise2, smoothstep } from "./noise.ts";
import type { Material } from "./surface.ts";
import { person, type Pose } from "./people.ts";
import { paint, tint } from "./surface.ts";
import { moved, place, type Placement, type Vec } from "./vector.ts";

export interface HullSpec {
  readonly long: number;
  readonly beam: number;
  /** Height of the side amidships above the water, and how much the ends rise above that. */
  readonly side: number;
  readonly sheer: number;
  readonly draught: number;
}

/** Half breadth and heights of the hull at s (0 stern … 1 bow). */
function lines(h: HullSpec, s: number): { half: number; rail: number; keel: number } {
  const full = Math.pow(Math.sin(Math.PI * Math.min(1, 0.22 + s * 0.78)), 0.72);
  const rail =
    h.side + h.sheer * (Math.pow(Math.max(0, s - 0.35) / 0.65, 2.1) + 0.35 * Math.pow(Math.max(0, 0.35 - s) / 0.35, 2));
  return { half: (h.beam / 2) * Math.max(0.012, full), rail, keel: -h.draught * (1 - 0.75 * smoothstep(0.75, 1, s)) };
}

/** Planked hull; `paintOf` colours it by height above the water, `inside` is the inner skin. */
export function hull(b: Builder, h: HullSpec, outside: Material, inside: Material, rail: Material): void {
  const at = (s: number, t: number, shrink: number): Vec => {
    const l = lines(h, s);
    const y = l.keel + (l.rail - l.keel) * t;
    const round = Math.pow(t, 0.42 + 0.5 * s * s);
    // The stem rakes forward, the stern a little aft.
    const rake = smoothstep(0.7, 1, s) * 0.28 * h.side * (t - 0.5) * 2;
    return [(s - 0.5) * h.long + rake, y, (l.half - shrink) * round];
  };
  // Strakes follow the sheer: heights on the skin are counted as amidships.
  const metres = (s: number, t: number): [number, number] => [s * h.long, -h.draught + t * (h.side + h.draught)];
  for (const side of [1, -1]) {
    b.use(outside);
    patch(
      b,
      28,
      10,
      (s, t) => {
        const p = at(s, t, 0);
        return [p[0], p[1], p[2] * side];
      },
      { flip: side < 0, uv: metres },
    );
    b.use(inside);
    patch(
      b,
      28,
      6,
      (s, t) => {
        const p = at(s, t, 0.06);
        return [p[0], p[1] + 0.02, Math.max(0, p[2]) * side];
      },
      { flip: side > 0, uv: metres },
    );
    b.use(rail);
    tube(
      b,
      Array.from({ length: 25 }, (_, i) => {
        const p = at(i / 24, 1, 0.02);
        return [p[0], p[1], p[2] * side] as Vec;
      }),
      0.05 + h.long * 0.002,
      6,
    );
  }
  b.use(outside);
  patch(
    b,
    6,
    6,
    (s, t) => {
      const p = at(0, t, 0);
      return [p[0], p[1], p[2] * (s * 2 - 1)];
    },
    { flip: true, uv: (s, t) => [s * h.beam, metres(0, t)[1]] },
  );
}

/** Topsides with a boot-top line at the water and a stripe below the rail, which lies `side` above the water amidships. */
export function topsides(c: Light, stripe: Light, side: number): Material {
  const wood = boards({ colour: c, width: 0.14, level: true, wear: 0.18, gap: 0.008, shine: 0.04 });
  return (s) => {
    wood(s);
    if (s.y < 0.12) paint(s, 0.16, 0.035, 0.025);
    else if (s.y < 0.18) paint(s, 0.6, 0.58, 0.52);
    else if (s.v > side * 0.76 && s.v < side * 0.88) paint(s, stripe[0], stripe[1], stripe[2]);
    // Rust and weed streak down towards the water.
    const streak = smoothstep(0.25, 0.8, noise2(s.u * 2.6, s.v * 0.4)) * smoothstep(side, 0, s.y);
    tint(s, 0.13, 0.085, 0.05, 0.5 * streak);
    s.rough = 0.25;
  };
}

export interface BoatColours {
  readonly hull: Light;
  readonly stripe: Light;
  readonly house: Light;
  readonly roof?: Light;
}

const bareWood = boards({ colour: [0.3, 0.2, 0.11], width: 0.12, wear: 0.4 });
const deckWood = boards({ colour: [0.27, 0.22, 0.16], width: 0.11, wear: 0.7 });
const mastWood = plain([0.32, 0.19, 0.09], 0.04, 0.3);
const dark = plain([0.03, 0.03, 0.032]);
const glass = pane();
const iron = plain([0.07, 0.06, 0.055], 0.05, 0.4);

/** An open boat; its oars lie shipped, unless someone rows it. */
export function rowingBoat(b: Builder, at: Placement, c: Light, rowed = false): void {
  const h: HullSpec = { long: 4.4, beam: 1.6, side: 0.45, sheer: 0.35, draught: 0.2 };
  b.at(at, () => {
    hull(b, h, topsides(c, c, h.side), bareWood, bareWood);
    b.use(bareWood);
    for (const x of [-1.35, -0.3, 0.75]) {
      const z = lines(h, x / h.long + 0.5).half * 0.84 - 0.05;
      box(b, [x - 0.13, 0.27, -z], [x + 0.13, 0.305, z]);
    }
    box(b, [-1.6, -0.02, -0.3], [1.1, 0.02, 0.3]);
    if (rowed) return rower(b);
    for (const z of [-0.25, 0.25]) {
      const blade: Vec = [-1.5, 0.4, z];
      tube(b, [blade, [1.0, 0.42, z * 0.8]], 0.025, 6);
      box(b, [-1.95, 0.38, z - 0.07], [-1.45, 0.415, z + 0.07]);
    }
  });
}

/** A man on the middle thwart, his back to the bow, at the end of a stroke. */
function rower(b: Builder): void {
  const pose: Pose = {
    hands: [
      [0.22, 0.78, 0.3],
      [-0.22, 0.78, 0.3],
    ],
    feet: [
      [0.15, 0.08, 0.62],
      [-0.15, 0.08, 0.62],
    ],
    hips: [0, 0.5, 0],
    chest: [0, 0.97, -0.08],
    elbows: 0.12,
  };
  person(b, place([-0.3, 0, 0], -90), pose, {
    coat: [0.08, 0.1, 0.15],
    legs: [0.07, 0.065, 0.06],
    cap: [0.05, 0.05, 0.055],
  });
  b.use(bareWood);
  for (const s of [-1, 1]) {
    const grip: Vec = [-0.6, 0.78, s * 0.2];
    const tip: Vec = [0.05, 0.04, s * 2.5];
    tube(b, [grip, [-0.38, 0.52, s * 0.8], tip], 0.024, 6);
    box(b, [tip[0] - 0.05, -0.06, tip[2] - (s > 0 ? 0.1 : 0.45)], [tip[0] + 0.08, 0.07, tip[2] + (s > 0 ? 0.45 : 0.1)]);
  }
}

/** A decked fishing boat of `long` metres. Rigging is returned as thin lines in scene coordinates. */
export function fishingBoat(b: Builder, at: Placement, long: number, c: BoatColours, own = 0): Line[] {
  const rig: Line[] = [];
  const k = long / 11;
  const h: HullSpec = { long, beam: 3.5 * k, side: 0.95 * k, sheer: 1.0 * k, draught: 0.7 * k };
  const rope = (from: Vec, to: Vec, wide = 0.012): void => {
    rig.push({ points: [moved(at, from), moved(at, to)], width: wide, colour: [0.035, 0.03, 0.026] });
  };
  b.at(at, () => {
    b.use(bareWood, own);
    hull(b, h, topsides(c.hull, c.stripe, h.side), deckWood, bareWood);
    // Deck a hand below the rail.
    b.use(deckWood);
    patch(
      b,
      20,
      2,
      (s, t) => {
        const l = lines(h, 0.02 + s * 0.95);
        return [(0.02 + s * 0.95 - 0.5) * long, l.rail - 0.38 * k, (l.half * 0.86 - 0.05) * (1 - t * 2)];
      },
      { uv: (_s, _t, p) => [p[2], p[0]] },
    );
    wheelhouse(b, k, h, c);
    // Mast forward, boom aft over the hold.
    const foot: Vec = [long * 0.14, h.side * 0.7, 0];
    const head: Vec = [long * 0.13, h.side + 6.6 * k, 0];
    b.use(mastWood);
    tube(b, [foot, head], (t) => (0.11 - 0.05 * t) * k, 8);
    tube(
      b,
      [
        [long * 0.12, h.side + 1.5 * k, 0],
        [-long * 0.14, h.side + 3.6 * k, 0.3 * k],
      ],
      0.06 * k,
      6,
    );
    const aft: Vec = [-long * 0.42, h.side + 3.1 * k, 0];
    tube(b, [[-long * 0.42, h.side * 0.8, 0], aft], 0.05 * k, 6);
    b.use(dark);
    for (let i = 0; i < 3; i++)
      tube(
        b,
        [
          [long * 0.02 - i * 0.5 * k, h.side + 0.05, -0.5 * k],
          [long * 0.02 - i * 0.5 * k, h.side + 0.05, 0.5 * k],
        ],
        0.16 * k,
        7,
      );
    b.use(plain([0.28, 0.1, 0.03], 0.02));
    for (let i = 0; i < 3; i++)
      box(
        b,
        [-0.6 * k - i * 0.1, h.side * 0.75 + i * 0.24 * k, 0.5 * k],
        [0.2 * k, h.side * 0.75 + (i + 1) * 0.22 * k, 1.1 * k],
      );
    b.use(iron);
    turned(
      b,
      [
        [0.2 * k, h.side * 0.7],
        [0.13 * k, h.side * 0.95],
        [0.13 * k, h.side * 1.15],
        [0.22 * k, h.side * 1.3],
        [0, h.side * 1.32],
      ],
      10,
    );
    rope(head, [long * 0.5, h.side + h.sheer * 0.98, 0]);
    for (const z of [-1, 1]) {
      rope(head, [long * 0.02, h.side * 1.1, z * h.beam * 0.44]);
      rope(head, [long * 0.1, h.side * 1.1, z * h.beam * 0.46]);
    }
    rope(head, aft);
    rope(head, [-long * 0.14, h.side + 3.6 * k, 0.3 * k]);
    rope(aft, [-long * 0.49, h.side, 0]);
    rope([long * 0.136, h.side + 4.8 * k, 0], [-long * 0.2, h.side + 2.6 * k, 0], 0.01);
  });
  return rig;
}

function wheelhouse(b: Builder, k: number, h: HullSpec, c: BoatColours): void {
  const x0 = -h.long * 0.34;
  const x1 = x0 + 2.1 * k;
  const z = h.beam * 0.3;
  const y0 = h.side * 0.7;
  const y1 = y0 + 2.1 * k;
  b.use(boards({ colour: c.house, width: 0.12, wear: 0.1, shine: 0.04 }));
  box(b, [x0, y0, -z], [x1, y1, z]);
  b.use(plain(c.roof ?? [0.5, 0.48, 0.42], 0.03));
  box(b, [x0 - 0.15 * k, y1, -z - 0.14 * k], [x1 + 0.25 * k, y1 + 0.09 * k, z + 0.14 * k]);
  b.use(glass);
  const wy0 = y0 + 1.25 * k;
  const wy1 = y0 + 1.85 * k;
  const e = 0.012;
  for (let i = 0; i < 3; i++) {
    const a = -z + 0.1 * k + (i * (2 * z - 0.1 * k)) / 3;
    const d = a + (2 * z - 0.4 * k) / 3;
    quad(b, [x1 + e, wy0, d], [x1 + e, wy0, a], [x1 + e, wy1, a], [x1 + e, wy1, d]);
  }
  for (const s of [1, -1])
    for (const [a, d] of [
      [x0 + 0.25 * k, x0 + 0.85 * k],
      [x0 + 1.15 * k, x0 + 1.85 * k],
    ]) {
      const p: Vec[] = [
        [a, wy0, s * (z + e)],
        [d, wy0, s * (z + e)],
        [d, wy1, s * (z + e)],
        [a, wy1, s * (z + e)],
      ];
      if (s > 0) quad(b, p[0], p[1], p[2], p[3]);
      else quad(b, p[1], p[0], p[3], p[2]);
    }
  b.use(iron);
  b.at(place([x0 + 0.5 * k, y1, z * 0.4]), () =>
    turned(
      b,
      [
        [0.1 * k, 0],
        [0.1 * k, 1.1 * k],
        [0.14 * k, 1.1 * k],
        [0.14 * k, 1.2 * k],
        [0.08 * k, 1.2 * k],
      ],
      8,
    ),
  );
}
