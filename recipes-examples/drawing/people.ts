/** People of Varnhaven, life-size, facing +z, feet on y = 0: a few joints, clothes as soft shapes over them. */
import { egg, grown, limb, skin, type Field } from "./blob.ts";
import { noise3 } from "./noise.ts";
import { cloth, plain } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import type { Light } from "./sky.ts";
import type { Material } from "./surface.ts";
import { add, lerp, type Placement, type Vec } from "./vector.ts";

export interface Pose {
  /** Hands and feet, metres, seen from the person: x to their left. Left first. */
  readonly hands: readonly [Vec, Vec];
  readonly feet: readonly [Vec, Vec];
  /** Hips' middle; 0.92 high when standing. */
  readonly hips?: Vec;
  /** Shoulders' middle; 1.42 high when standing. */
  readonly chest?: Vec;
  /** Where the head's middle lies from the shoulders' middle. */
  readonly head?: Vec;
  /** How far elbows go out and back. */
  readonly elbows?: number;
}

export interface Clothes {
  readonly coat: Light;
  readonly legs: Light;
  readonly cap?: Light;
  readonly hair?: Light;
  readonly boots?: Light;
  readonly skin?: Light;
  /** A long coat or a skirt to this height; 0.75 a jacket. */
  readonly hem?: number;
  /** 0 slim … 1 heavy clothes. */
  readonly bulk?: number;
  readonly apron?: Light;
}

export const standing: Pose = {
  hands: [
    [0.25, 0.8, 0.06],
    [-0.25, 0.81, 0.04],
  ],
  feet: [
    [0.12, 0.06, 0.03],
    [-0.12, 0.06, -0.03],
  ],
};
export const walking: Pose = {
  hands: [
    [0.27, 0.86, 0.24],
    [-0.28, 0.86, -0.2],
  ],
  feet: [
    [0.09, 0.09, -0.34],
    [-0.1, 0.06, 0.36],
  ],
  hips: [0, 0.9, 0.02],
  chest: [0, 1.4, 0.07],
};
export const carrying: Pose = {
  hands: [
    [0.2, 1.0, 0.42],
    [-0.2, 1.0, 0.42],
  ],
  feet: [
    [0.11, 0.06, 0.16],
    [-0.11, 0.07, -0.18],
  ],
  chest: [0, 1.41, -0.03],
};
export const bending: Pose = {
  hands: [
    [0.16, 0.72, 0.62],
    [-0.18, 0.66, 0.58],
  ],
  feet: [
    [0.14, 0.06, 0.04],
    [-0.16, 0.06, -0.12],
  ],
  hips: [0, 0.9, -0.12],
  chest: [0, 1.24, 0.26],
  head: [0, 0.2, 0.16],
};
export const sitting: Pose = {
  hands: [
    [0.2, 0.72, 0.42],
    [-0.16, 0.78, 0.4],
  ],
  feet: [
    [0.17, 0.06, 0.46],
    [-0.17, 0.06, 0.4],
  ],
  hips: [0, 0.52, 0],
  chest: [0, 0.98, 0.1],
  head: [0, 0.22, 0.1],
};

const boots = cloth([0.04, 0.036, 0.032]);

/** Builds a figure; `cell` is the fineness of its skin in metres (0.03 far, 0.012 near). */
export function person(b: Builder, at: Placement, pose: Pose, c: Clothes, cell = 0.025): void {
  const bulk = 1 + 0.22 * (c.bulk ?? 0.5);
  const hips = pose.hips ?? [0, 0.92, 0];
  const chest = pose.chest ?? [0, 1.42, 0];
  const head = add(chest, pose.head ?? [0, 0.225, 0.045]);
  const face = plain(c.skin ?? [0.4, 0.265, 0.195], 0.02, 0.5, 0.08);
  const coat = cloth(c.coat);
  b.at(at, () => {
    const shoulder = (s: number): Vec => add(chest, [s * 0.175 * bulk, -0.03, 0]);
    const sleeves: Field[] = [];
    pose.hands.forEach((hand, i) => {
      const s = i === 0 ? 1 : -1;
      const k = pose.elbows ?? 0.06;
      const mid = lerp(shoulder(s), hand, 0.5);
      const elbow = add(mid, [s * k * 0.8, -0.03, -k]);
      const cuff = lerp(elbow, hand, 0.86);
      sleeves.push(limb(shoulder(s), elbow, 0.078 * bulk, 0.062 * bulk), limb(elbow, cuff, 0.06 * bulk, 0.048 * bulk));
      part(
        b,
        grown(0.03, limb(cuff, hand, 0.036, 0.042), egg(add(hand, [0, -0.02, 0.03]), [0.04, 0.05, 0.05])),
        hand,
        0.2,
        cell * 0.85,
        face,
      );
    });
    const waist = lerp(hips, chest, 0.42);
    const trunk = grown(
      0.09,
      egg(add(lerp(hips, chest, 0.74), [0, 0, -0.005]), [0.205 * bulk, 0.27, 0.135 * bulk]),
      egg(waist, [0.165 * bulk, 0.24, 0.125 * bulk]),
      limb(add(hips, [0.06, -0.02, 0]), add(hips, [-0.06, -0.02, 0]), 0.145 * bulk),
      limb(shoulder(0.8), add(chest, [0.02, 0.06, -0.02]), 0.07, 0.075),
      limb(shoulder(-0.8), add(chest, [-0.02, 0.06, -0.02]), 0.07, 0.075),
      limb(add(chest, [0, 0.05, -0.01]), add(chest, [0, 0.1, 0]), 0.08, 0.068),
      ...sleeves,
    );
    const hem = Math.min(c.hem ?? 0.78, hips[1] - 0.13);
    const skirt: Field =
      hem < 0.7 && hips[1] > 0.7
        ? grown(0.08, trunk, limb(hips, [hips[0], hem + 0.06, hips[2] + 0.02], 0.17 * bulk, 0.23 * bulk))
        : trunk;
    const cut: Field = (x, y, z) => Math.max(skirt(x, y, z), hem - y, y - chest[1] - 0.125);
    body(b, creased(cut, 0.011), hips, chest, pose, hem, cell, coat);
    legs(b, pose, hips, c, cell);
    // Head: skull, jaw and nose; then cap or hair.
    const skull = grown(
      0.04,
      egg(add(head, [0, 0.045, -0.012]), [0.078, 0.1, 0.098]),
      egg(add(head, [0, -0.045, 0.028]), [0.055, 0.07, 0.062]),
      limb(add(head, [0, 0.01, 0.098]), add(head, [0, -0.025, 0.108]), 0.012, 0.016),
      limb(add(chest, [0, 0.03, -0.01]), add(head, [0, -0.05, -0.02]), 0.058, 0.054),
      egg(add(head, [0.082, 0.005, -0.01]), [0.014, 0.032, 0.022]),
      egg(add(head, [-0.082, 0.005, -0.01]), [0.014, 0.032, 0.022]),
    );
    part(b, skull, head, 0.24, cell * 0.85, face);
    if (c.cap) {
      const top = add(head, [0, 0.085, -0.012]);
      const cap: Field = (x, y, z) => Math.max(egg(top, [0.098, 0.088, 0.115])(x, y, z), head[1] + 0.055 - y);
      const brim = egg(add(head, [0, 0.07, 0.1]), [0.085, 0.014, 0.07]);
      part(b, grown(0.01, cap, brim), top, 0.2, cell * 0.85, cloth(c.cap));
    } else {
      const h = c.hair ?? [0.07, 0.045, 0.03];
      const hair: Field = (x, y, z) => {
        const wisp = 0.008 * noise3(x * 38, y * 16, z * 38) + 0.006 * noise3(x * 90, y * 40, z * 90);
        const d = wisp + egg(add(head, [0, 0.045, -0.026]), [0.094, 0.118, 0.106])(x, y, z);
        // Cut away before the face: below the brow in front, and below the ears.
        return Math.max(d, z - head[2] - 0.02 - Math.max(0, y - head[1] - 0.05) * 1.4, head[1] - 0.07 - y);
      };
      part(b, hair, add(head, [0, 0.05, -0.03]), 0.2, cell * 0.85, cloth(h));
    }
    if (c.apron) {
      const front = grown(0.05, trunk, limb(hips, [hips[0], 0.5, hips[2] + 0.05], 0.17 * bulk, 0.2 * bulk));
      const sheet: Field = (x, y, z) =>
        Math.max(
          front(x, y, z) - 0.018,
          0.46 - y,
          y - chest[1] + 0.14,
          hips[2] + 0.02 - z,
          Math.abs(x - hips[0]) - 0.17,
        );
      body(b, sheet, hips, chest, pose, 0.44, cell, cloth(c.apron));
    }
  });
}

/** Cloth falls in folds: the skin is pushed in and out a little, along lines that run down rather than across. */
function creased(f: Field, amount: number): Field {
  return (x, y, z) => {
    const d = f(x, y, z);
    if (Math.abs(d) > 0.06) return d;
    const bend = 0.5 * noise3(x * 4, y * 3, z * 4);
    return (
      d -
      amount * (noise3(x * 13 + bend * 3, y * 5.5 + x * 3, z * 13) + 0.55 * noise3(x * 27, y * 12 + bend * 9, z * 27))
    );
  };
}

function part(b: Builder, f: Field, at: Vec, reach: number, cell: number, m: Material): void {
  skin(b, f, add(at, [-reach, -reach, -reach]), add(at, [reach, reach, reach]), cell, () => m);
}

function body(b: Builder, f: Field, hips: Vec, chest: Vec, pose: Pose, hem: number, cell: number, m: Material): void {
  const xs = [hips[0], chest[0], pose.hands[0][0], pose.hands[1][0]];
  const zs = [hips[2], chest[2], pose.hands[0][2], pose.hands[1][2]];
  const ys = [hem, pose.hands[0][1], pose.hands[1][1]];
  const low: Vec = [Math.min(...xs) - 0.34, Math.min(...ys) - 0.06, Math.min(...zs) - 0.32];
  const high: Vec = [
    Math.max(...xs) + 0.34,
    Math.max(chest[1] + 0.16, ...pose.hands.map((h) => h[1] + 0.14)),
    Math.max(...zs) + 0.3,
  ];
  skin(b, f, low, high, cell, () => m);
}

function legs(b: Builder, pose: Pose, hips: Vec, c: Clothes, cell: number): void {
  const sitting2 = hips[1] < 0.7;
  const trousers: Field[] = [];
  pose.feet.forEach((foot, i) => {
    const s = i === 0 ? 1 : -1;
    const hip = add(hips, [s * 0.085, -0.02, 0]);
    const mid = lerp(hip, foot, 0.48);
    const knee = sitting2
      ? ([hip[0] + (foot[0] - hip[0]) * 0.8, hips[1] + 0.02, foot[2] - 0.04] as Vec)
      : add(mid, [0, 0, 0.05]);
    const ankle = add(foot, [0, 0.1, -0.03]);
    trousers.push(limb(hip, knee, 0.098, 0.07), limb(knee, ankle, 0.068, 0.055));
    const shoe = grown(
      0.05,
      limb(add(foot, [0, 0.16, -0.03]), add(foot, [0, 0, -0.03]), 0.062, 0.055),
      limb(add(foot, [0, -0.01, -0.03]), add(foot, [s * 0.02, -0.02, 0.12]), 0.05, 0.044),
    );
    skin(b, shoe, add(foot, [-0.12, -0.1, -0.14]), add(foot, [0.14, 0.26, 0.22]), cell, () =>
      c.boots ? cloth(c.boots as Light) : boots,
    );
  });
  const f = creased(grown(0.04, ...trousers), 0.008);
  const zs = [hips[2], pose.feet[0][2], pose.feet[1][2]];
  const xs = [pose.feet[0][0], pose.feet[1][0]];
  skin(
    b,
    f,
    [Math.min(...xs) - 0.18, 0.06, Math.min(...zs) - 0.18],
    [Math.max(...xs) + 0.18, hips[1] + 0.12, Math.max(...zs) + 0.18],
    cell,
    () => cloth(c.legs),
  );
}
