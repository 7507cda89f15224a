/** A weathered face in a knitted cap, life-size, its middle at the origin, looking towards +z. */
import { egg, grown, limb, skin, type Field } from "./blob.ts";
import type { Builder } from "./mesh.ts";
import { fbm3, noise3, smoothstep } from "./noise.ts";
import { lean, paint, tint, type Material } from "./surface.ts";
import type { Placement, Vec } from "./vector.ts";

/** Takes one shape out of another, its rim rounded over `soft`. */
function without(field: Field, hole: Field, soft: number): Field {
  return (x, y, z) => {
    const d = field(x, y, z);
    const e = -hole(x, y, z);
    const h = Math.max(soft - Math.abs(d - e), 0) / soft;
    return Math.max(d, e) + h * h * soft * 0.25;
  };
}

const both = (make: (s: number) => Field): Field[] => [make(1), make(-1)];

function flesh(): Field {
  const head = grown(
    0.03,
    egg([0, 0.045, -0.012], [0.078, 0.1, 0.098]),
    egg([0, -0.02, 0.03], [0.062, 0.085, 0.068]),
    egg([0, -0.068, 0.042], [0.048, 0.042, 0.048]),
    ...both((s) => egg([s * 0.043, -0.006, 0.066], [0.022, 0.017, 0.024])),
  );
  const brow = grown(
    0.02,
    head,
    limb([-0.042, 0.036, 0.078], [-0.01, 0.034, 0.092], 0.011),
    limb([0.042, 0.036, 0.078], [0.01, 0.034, 0.092], 0.011),
  );
  const sockets = without(
    brow,
    (x, y, z) =>
      Math.min(...both((s) => egg([s * 0.032, 0.016, 0.098], [0.021, 0.0125, 0.017])).map((f) => f(x, y, z))),
    0.016,
  );
  const nose = grown(
    0.014,
    sockets,
    limb([0, 0.03, 0.089], [0, -0.016, 0.117], 0.008, 0.0125),
    ...both((s) => egg([s * 0.0115, -0.021, 0.103], [0.0095, 0.008, 0.0115])),
  );
  const lids = grown(
    0.006,
    nose,
    ...both((s) => limb([s * 0.018, 0.0188, 0.0905], [s * 0.047, 0.0172, 0.0795], 0.0046)),
    ...both((s) => limb([s * 0.02, 0.0092, 0.0885], [s * 0.045, 0.0092, 0.079], 0.0048)),
  );
  const lips = grown(
    0.008,
    lids,
    egg([0, -0.0535, 0.0925], [0.022, 0.0055, 0.009]),
    egg([0, -0.045, 0.0935], [0.021, 0.006, 0.008]),
  );
  const lined = grown(0.01, lips, ...both((s) => egg([s * 0.0815, -0.002, -0.006], [0.011, 0.033, 0.02])));
  return grown(0.03, lined, limb([0, -0.08, -0.01], [0, -0.2, -0.03], 0.056, 0.062));
}

/** Skin by place on the face: redder on nose, cheeks and ears, paler under the cap, finely lined. */
function complexion(inverse: (x: number, y: number, z: number) => Vec): Material {
  return (s) => {
    const [x, y, z] = inverse(s.x, s.y, s.z);
    const n = fbm3(x * 60, y * 60, z * 60, 4, s.foot * 60);
    const pores = noise3(x * 420, y * 420, z * 420) * (s.foot < 0.002 ? 1 : 0);
    paint(s, 0.42 * (1 + 0.08 * n), 0.265 * (1 + 0.1 * n), 0.19 * (1 + 0.1 * n));
    const nose = Math.exp(-((x / 0.02) ** 2 + ((y + 0.016) / 0.02) ** 2) * (z > 0.09 ? 1 : 9));
    const cheek = Math.exp(-(((Math.abs(x) - 0.045) / 0.02) ** 2 + ((y + 0.008) / 0.02) ** 2));
    const ear = smoothstep(0.074, 0.082, Math.abs(x));
    tint(s, 0.44, 0.19, 0.14, 0.45 * Math.min(1, nose + cheek * 0.9 + ear * 0.7));
    const lips = Math.exp(-(((y + 0.0495) / 0.008) ** 2)) * (Math.abs(x) < 0.022 && z > 0.08 ? 1 : 0);
    tint(s, 0.36, 0.15, 0.12, 0.6 * lips);
    // Crow's feet and the lines of the brow.
    const feet =
      smoothstep(0.04, 0.06, Math.abs(x)) *
      Math.exp(-(((y - 0.012) / 0.014) ** 2)) *
      Math.sin((y - 0.012) * 1500 + Math.abs(x) * 300);
    lean(s, 0.05 * pores + 0.06 * n, 0.05 * pores + 0.1 * feet);
    s.shine = 0.028;
    s.rough = 0.42;
  };
}

function eye(inverse: (x: number, y: number, z: number) => Vec, side: number): Material {
  return (s) => {
    const [x, y] = inverse(s.x, s.y, s.z);
    // He looks a little to his right.
    const r = Math.hypot(x - side * 0.0325 + 0.003, y - 0.0142);
    paint(s, 0.5, 0.47, 0.43);
    tint(s, 0.1, 0.16, 0.2, smoothstep(0.0062, 0.0054, r));
    tint(s, 0.01, 0.01, 0.01, smoothstep(0.0028, 0.0022, r));
    s.shine = 0.04;
    s.rough = 0.08;
  };
}

/** Grey hair: strands run down, light and dark. */
const beardHair: Material = (s) => {
  const strand = 0.6 * noise3(s.x * 330, s.y * 38, s.z * 330) + 0.5 * noise3(s.x * 760, s.y * 70, s.z * 760);
  const lock = fbm3(s.x * 70, s.y * 16, s.z * 70, 3);
  const k = 0.25 * (1 + 0.5 * strand + 0.5 * lock);
  paint(s, k * 1.02, k * 0.97, k * 0.9);
  lean(s, 0.75 * strand, 0.2 * lock);
  s.shine = 0.03;
  s.rough = 0.5;
};

/** Ribs of knitting that run up from the brim. */
function knit(c: readonly [number, number, number], inverse: (x: number, y: number, z: number) => Vec): Material {
  return (s) => {
    const [x, y, z] = inverse(s.x, s.y, s.z);
    const around = Math.atan2(x, z) * 26;
    const rib = Math.sin(around);
    const stitch = Math.sin(y * 820 + Math.abs(rib) * 2.2);
    const n = fbm3(x * 50, y * 50, z * 50, 3);
    const k = (0.72 + 0.22 * rib + 0.12 * stitch) * (1 + 0.2 * n);
    paint(s, c[0] * k, c[1] * k, c[2] * k);
    lean(s, 0.35 * Math.cos(around), 0.14 * stitch);
  };
}

/** Builds the head where `at` puts it; `whole` is the same place seen from the scene, not from the thing it sits on. */
export function face(b: Builder, at: Placement, whole: Placement, cap: readonly [number, number, number]): void {
  const inverse = undo(whole);
  b.at(at, () => {
    const head = flesh();
    const hide = complexion(inverse);
    skin(b, head, [-0.11, -0.2, -0.13], [0.11, 0.12, 0.145], 0.0046, () => hide);
    for (const s of [1, -1])
      skin(
        b,
        egg([s * 0.0325, 0.014, 0.0765], [0.0133, 0.0133, 0.0133]),
        [s * 0.0325 - 0.016, -0.004, 0.058],
        [s * 0.0325 + 0.016, 0.032, 0.094],
        0.0022,
        () => eye(inverse, s),
      );
    for (const s of [1, -1]) {
      const brow = limb([s * 0.018, 0.037, 0.0985], [s * 0.05, 0.041, 0.08], 0.0065, 0.004);
      skin(
        b,
        (x, y, z) => brow(x, y, z) - 0.0025 * noise3(x * 300, y * 160, z * 300),
        [s > 0 ? 0 : -0.07, 0.02, 0.06],
        [s > 0 ? 0.07 : 0, 0.06, 0.12],
        0.0024,
        () => beardHair,
      );
    }
    const beard = grown(
      0.03,
      egg([0, -0.092, 0.05], [0.058, 0.052, 0.052]),
      egg([0, -0.12, 0.05], [0.04, 0.045, 0.04]),
      ...both((s) => limb([s * 0.074, 0.015, 0.004], [s * 0.062, -0.055, 0.024], 0.011, 0.017)),
      ...both((s) => limb([s * 0.062, -0.055, 0.024], [s * 0.034, -0.088, 0.06], 0.018, 0.02)),
      ...both((s) => limb([s * 0.006, -0.0335, 0.1075], [s * 0.04, -0.052, 0.081], 0.0085, 0.0075)),
    );
    const curly = (x: number, y: number, z: number): number => {
      const d = without(beard, egg([0, -0.05, 0.1], [0.02, 0.006, 0.02]), 0.008)(x, y, z);
      return Math.abs(d) > 0.03
        ? d
        : d - 0.003 * noise3(x * 70, y * 26, z * 70) - 0.0022 * noise3(x * 190, y * 50, z * 190);
    };
    skin(b, curly, [-0.11, -0.2, -0.03], [0.11, 0.04, 0.13], 0.0042, () => beardHair);
    const nape: Field = (x, y, z) =>
      Math.max(
        egg([0, 0.02, -0.03], [0.083, 0.105, 0.088])(x, y, z) - 0.004 * noise3(x * 90, y * 40, z * 90),
        z - 0.012,
        y - 0.06,
      );
    skin(b, nape, [-0.11, -0.12, -0.14], [0.11, 0.08, 0.03], 0.006, () => beardHair);
    const wool = knit(cap, inverse);
    const dome: Field = (x, y, z) =>
      Math.max(egg([0, 0.072, -0.016], [0.089, 0.1, 0.108])(x, y, z), 0.052 - y - z * 0.06);
    const slouch = grown(0.03, dome, egg([0.004, 0.165, -0.035], [0.04, 0.022, 0.045]));
    skin(b, slouch, [-0.12, 0.02, -0.15], [0.12, 0.21, 0.12], 0.006, () => wool);
    const brim: Field = (x, y, z) => {
      const r = Math.sqrt((x / 0.088) ** 2 + ((z + 0.014) / 0.107) ** 2);
      const u = (r - 1) * 0.095;
      const v = y - 0.062 - z * 0.03;
      return Math.sqrt((u / 0.0115) ** 2 + (v / 0.021) ** 2) * 0.0115 - 0.0115;
    };
    skin(b, brim, [-0.12, 0.02, -0.15], [0.12, 0.11, 0.12], 0.006, () => wool);
  });
}

/** From the scene back to the thing's own coordinates; the placement turns and moves, and does not stretch. */
function undo(at: Placement): (x: number, y: number, z: number) => Vec {
  return (x, y, z) => {
    const dx = x - at[3];
    const dy = y - at[7];
    const dz = z - at[11];
    return [
      at[0] * dx + at[4] * dy + at[8] * dz,
      at[1] * dx + at[5] * dy + at[9] * dz,
      at[2] * dx + at[6] * dy + at[10] * dz,
    ];
  };
}
