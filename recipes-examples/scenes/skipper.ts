/** The skipper on deck in evening light, the coast out of focus behind him. */
import { fishingBoat } from "../drawing/boats.ts";
import { egg, grown, limb, skin, type Field } from "../drawing/blob.ts";
import { face } from "../drawing/face.ts";
import { finish } from "../drawing/finish.ts";
import { house } from "../drawing/houses.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, plain, rope } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, fbm3, noise3, smoothstep } from "../drawing/noise.ts";
import { render } from "../drawing/render.ts";
import { ball, hang, patch, tube } from "../drawing/shapes.ts";
import { Sky, type CloudLayer, type Light } from "../drawing/sky.ts";
import { lean, paint, tint, type Material } from "../drawing/surface.ts";
import { after, direction, place, tip } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(-118, 17);

const veil: CloudLayer = (dx, dy, dz, out, fine) => {
  const x = dx / (dy + 0.15);
  const z = dz / (dy + 0.15);
  const n = fbm2(x * 0.5 + 2, z * 1.1 + 1, fine ? 5 : 2);
  const cover = smoothstep(-0.1, 0.7, n) * 0.5;
  for (let k = 0; k < 3; k++) out[k] += ([0.78, 0.66, 0.56][k] - out[k]) * cover;
};

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const lines: Line[] = [];
  b.use(water({ slope: 0.09, longest: 5, octaves: 6, body: [0.012, 0.04, 0.05], heading: 70 }));
  patch(b, 2, 2, (s, t) => [(s - 0.5) * 9000, -1.6, 3 - t * 9000]);
  coast(b, lines);
  figure(b);
  // The boat's own shrouds and rail, close by.
  b.use(rope([0.34, 0.27, 0.17], 0.011));
  tube(
    b,
    [
      [0.78, -0.2, -1.5],
      [0.62, 1.4, -1.5],
      [0.5, 2.6, -1.5],
    ],
    0.011,
    8,
  );
  tube(
    b,
    [
      [1.05, -0.2, -1.55],
      [0.83, 1.4, -1.55],
      [0.66, 2.6, -1.55],
    ],
    0.011,
    8,
  );
  tube(b, hang([-1.2, 0.98, -1.62], [1.3, 0.98, -1.62], 0.03, 6), 0.014, 8);
  const sky = new Sky({
    sun,
    zenith: [0.13, 0.23, 0.44],
    horizon: [0.62, 0.56, 0.5],
    clear: 4.5,
    glow: [0.5, 0.34, 0.18],
    tight: 4,
    ground: [0.07, 0.1, 0.12],
    clouds: [veil],
  });
  const world: World = {
    camera: { eye: [-0.16, 1.58, 0.62], turn: 2.5, pitch: -1.5, focal: 62 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.45, 1.06, 0.66], size: 0.6 },
    air: { thickness: [0.0007, 0.0008, 0.001], height: 120, colour: [0.5, 0.5, 0.52] },
    rays: 5,
    mirrorRays: 1,
    open: 0.5,
    exposure: 0.25,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.045, falloff: 0.5, focus: 1.98, blur: 0.0095 });
}

/** Head and shoulders: a jersey with a rolled collar under an oilskin coat. */
function figure(b: Builder): void {
  const at = place([0.06, 0.02, -1.32], -50);
  b.at(at, () => {
    const jersey: Material = (s) => {
      // Knitted in the round: columns of stitches, each a little v.
      const around = Math.atan2(s.x - at[3], s.z - at[11]) * 34;
      const rib = Math.sin(around);
      const stitch = Math.sin(s.y * 760 + 2.4 * Math.abs(rib));
      const n = fbm3(s.x * 26, s.y * 26, s.z * 26, 4);
      const k = (0.8 + 0.13 * rib + 0.1 * stitch) * (1 + 0.25 * n);
      paint(s, 0.04 * k, 0.062 * k, 0.12 * k);
      lean(s, 0.28 * Math.cos(around), 0.12 * stitch);
    };
    const collar: Field = (x, y, z) => {
      const r = Math.sqrt(x * x + (z + 0.012) ** 2);
      const u = r - 0.079 - 0.006 * noise3(x * 9, y * 9, z * 9);
      const v = y - 1.475 - 0.2 * z;
      return Math.sqrt((u / 0.021) ** 2 + (v / 0.036) ** 2) * 0.021 - 0.021;
    };
    skin(
      b,
      grown(0.03, collar, egg([0, 1.3, 0.02], [0.16, 0.17, 0.115])),
      [-0.2, 1.05, -0.16],
      [0.2, 1.56, 0.18],
      0.012,
      () => jersey,
    );
    const oilskin: Material = (s) => {
      const n = fbm3(s.x * 7, s.y * 5, s.z * 7, 4, s.foot * 7);
      const g = fbm3(s.x * 60, s.y * 60, s.z * 60, 3, s.foot * 60);
      paint(s, 0.5 * (1 + 0.14 * n), 0.31 * (1 + 0.16 * n), 0.045 * (1 + 0.2 * n));
      tint(s, 0.2, 0.13, 0.05, 0.5 * smoothstep(0.15, 0.7, n + 0.3 * g));
      lean(s, 0.08 * g, 0.1 * n);
      s.shine = 0.04;
      s.rough = 0.33;
    };
    const trunk = grown(
      0.07,
      egg([0, 1.2, -0.02], [0.215, 0.3, 0.15]),
      limb([0.16, 1.37, -0.03], [0.06, 1.435, -0.035], 0.085, 0.075),
      limb([-0.16, 1.37, -0.03], [-0.06, 1.435, -0.035], 0.085, 0.075),
      limb([0.19, 1.34, -0.02], [0.28, 1.04, -0.06], 0.092, 0.08),
      limb([0.28, 1.04, -0.06], [0.23, 0.85, 0.15], 0.085, 0.07),
      limb([-0.19, 1.34, -0.02], [-0.28, 1.04, -0.05], 0.092, 0.08),
      limb([-0.28, 1.04, -0.05], [-0.22, 0.86, 0.18], 0.085, 0.07),
      egg([0, 0.95, -0.01], [0.21, 0.3, 0.16]),
    );
    // The coat hangs open in front; its collar stands.
    const openTo = (y: number): number => 0.052 + 0.075 * smoothstep(1.18, 1.44, y);
    const coat: Field = (x, y, z) => {
      const d = trunk(x, y, z);
      if (d > 0.06) return d;
      const bend = 0.5 * noise3(x * 5, y * 4, z * 5);
      const folds =
        0.012 * noise3(x * 13 + bend * 4, y * 6 + x * 3, z * 13) + 0.006 * noise3(x * 27, y * 13 + bend * 8, z * 27);
      const shell = Math.abs(d - folds + 0.002) - 0.01;
      const front = z > 0 ? openTo(y) - Math.abs(x + 0.012) : -1;
      return Math.max(shell, front, y - 1.47);
    };
    skin(b, coat, [-0.5, 0.72, -0.3], [0.5, 1.55, 0.34], 0.0095, () => oilskin);
    const stand: Field = (x, y, z) => {
      const r = Math.sqrt(x * x * 0.92 + (z + 0.02) ** 2);
      const flare = 0.112 + 0.34 * Math.max(0, y - 1.43) ** 1.1 + 0.004 * noise3(x * 20, y * 20, z * 20);
      const gap = z > 0.02 ? 0.062 - Math.abs(x) + (z - 0.02) * 0.1 : -1;
      return Math.max(Math.abs(r - flare) - 0.006, 1.4 - y, y - 1.5 + z * 0.18, gap);
    };
    skin(b, stand, [-0.2, 1.36, -0.2], [0.2, 1.54, 0.2], 0.006, () => oilskin);
    b.use(plain([0.28, 0.2, 0.08], 0.3, 0.25));
    for (let i = 0; i < 4; i++)
      ball(b, [-0.088 - 0.01 * i, 1.28 - i * 0.12, 0.158 + 0.012 * i - 0.004 * i * i], [0.011, 0.011, 0.006], 10);
    const head = after(place([0, 1.617, 0.03], 6, 1), tip("x", 3));
    face(b, head, after(at, head), [0.06, 0.085, 0.1]);
  });
}

/** The far shore: a hill, the town's houses, two boats at anchor, all soft. */
function coast(b: Builder, lines: Line[]): void {
  b.use(plain([0.1, 0.11, 0.065]));
  const shore = (x: number, t: number): number =>
    -3 + 9 * smoothstep(0, 0.03, t) + t * (46 + 52 * fbm2(x / 300 + 3, 1.5, 5)) * smoothstep(420, 120, x);
  patch(b, 80, 20, (s, t) => [-700 + 1500 * s, shore(-700 + 1500 * s, t), -340 - 300 * t]);
  patch(b, 80, 8, (s, t) => [-1800 + 4200 * s, -3 + t * 150 * (0.5 + 0.5 * fbm2(s * 5 + 8, 2.5, 5)), -2600 - 300 * t]);
  const fronts: Light[] = [
    [0.44, 0.08, 0.05],
    [0.64, 0.6, 0.53],
    [0.58, 0.4, 0.15],
    [0.22, 0.33, 0.38],
    [0.6, 0.58, 0.54],
    [0.5, 0.16, 0.08],
  ];
  for (let i = 0; i < 22; i++) {
    const x = -190 + i * 12.4 + ((i * 7) % 5);
    house(b, place([x, shore(x, 0.05 + 0.045 * ((i * 13) % 4)) - 1, -355 - 13.5 * ((i * 13) % 4)], 12), {
      width: 9,
      depth: 8,
      eaves: 5.2,
      rise: 3.6,
      gable: i % 2 === 0,
      wall: boards({ colour: fronts[i % 6], width: 0.2 }),
      roof: plain(i % 3 ? [0.26, 0.11, 0.07] : [0.13, 0.12, 0.12]),
      own: (i * 0.37) % 1,
      bays: 3,
    });
  }
  lines.push(
    ...fishingBoat(
      b,
      place([-15, -1.6, -42], 158),
      12,
      { hull: [0.07, 0.16, 0.22], stripe: [0.6, 0.56, 0.48], house: [0.62, 0.58, 0.5] },
      0.3,
    ),
  );
  lines.push(
    ...fishingBoat(
      b,
      place([17, -1.6, -78], 20),
      12,
      { hull: [0.4, 0.07, 0.045], stripe: [0.6, 0.56, 0.48], house: [0.62, 0.58, 0.5] },
      0.7,
    ),
  );
}
