/** The meadow above the town: flowers near, sheep on the slope, roofs, masts and the sea in the haze below. */
import { fishingBoat } from "../drawing/boats.ts";
import { cumulus } from "../drawing/clouds.ts";
import { finish } from "../drawing/finish.ts";
import { town } from "../drawing/houses.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, masonry, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, mix, noise2, smoothstep } from "../drawing/noise.ts";
import { person, walking } from "../drawing/people.ts";
import { blade, crown, flower, grassBlade, scatterWedge, sheep } from "../drawing/plants.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { beam, box, patch, turned } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { lean, paint, type Material } from "../drawing/surface.ts";
import { direction, place } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(-66, 34);

/** Height of the land: a meadow that falls towards the shore, steep at first, level where the town stands. */
function land(x: number, z: number): number {
  const d = Math.max(-6, -z - x * 0.1);
  const fall = 66 * (1 - Math.exp(-Math.max(0, d - 2) / 132));
  const shore = 5.5 * smoothstep(250, 345, d) + 9 * smoothstep(335, 420, d);
  const roll = 1.6 * fbm2(x / 46 + 2, z / 46, 3) * smoothstep(-14, -60, z) * (1 - 0.7 * smoothstep(150, 260, d));
  const spur = 30 * smoothstep(80, 200, x - z * 0.05) * smoothstep(-60, -170, z) * (1 - smoothstep(-360, -520, z));
  return 70 - fall - shore + roll + spur;
}

const turf: Material = (s) => {
  const n = fbm2(s.x / 17, s.z / 17, 6, s.foot / 17);
  const g = fbm2(s.x * 1.7, s.z * 1.7, 5, s.foot * 1.7, 0.6);
  const tuft = fbm2(s.x / 2.3 + 40, s.z / 2.3, 5, s.foot / 2.3, 0.6);
  const dry = smoothstep(-0.35, 0.75, n + 0.3 * g + 0.25 * tuft);
  const k = (1 + 0.3 * g) * (1 + 0.35 * tuft);
  paint(s, mix(0.07, 0.19, dry) * k, mix(0.1, 0.155, dry) * k, mix(0.03, 0.062, dry) * k);
  // Patches of flowers, seen as a tint from afar; sheep paths where the turf is worn.
  const bloom = smoothstep(0.3, 0.8, fbm2(s.x / 9 + 31, s.z / 9, 5, s.foot / 9)) * 0.4;
  s.r = mix(s.r, 0.34, bloom);
  s.g = mix(s.g, 0.29, bloom);
  s.b = mix(s.b, 0.16, bloom);
  const path = Math.abs(noise2(s.x / 34 + 3, s.z / 60 + 0.4 * noise2(s.x / 12, s.z / 12)));
  const worn = smoothstep(0.022, 0.006, path) * 0.3;
  s.r = mix(s.r, 0.24 * k, worn);
  s.g = mix(s.g, 0.2 * k, worn);
  s.b = mix(s.b, 0.13 * k, worn);
  lean(s, 0.4 * g + 0.3 * tuft, 0.35 * n);
};

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(606);
  const lines: Line[] = [];
  const eye = [0, land(0, 0) + 1.5, 0] as const;
  b.use(turf);
  patch(
    b,
    150,
    200,
    (s, t) => {
      const z = 4 - 520 * Math.pow(t, 2.2);
      const x = (s - 0.5) * (30 + 760 * Math.pow(t, 1.6));
      return [x, land(x, z), z];
    },
    { flip: false },
  );
  b.use(water({ slope: 0.07, longest: 16, octaves: 5, body: [0.012, 0.045, 0.065], calm: 260 }));
  patch(b, 2, 2, (s, t) => [(s - 0.5) * 30000, 0, -250 - t * 24000]);
  b.use(plain([0.07, 0.08, 0.06]));
  for (const [z, h, from, to, seed] of [
    [-2600, 170, 200, 2600, 3],
    [-3600, 240, -3600, -500, 7],
    [-6500, 420, -4200, 5200, 5],
  ])
    patch(b, 160, 8, (s, t) => [
      from + (to - from) * s,
      -2 + h * t * smoothstep(0, 0.2, s) * smoothstep(1, 0.8, s) * (0.55 + 0.6 * fbm2(s * 6 + seed, seed, 5)),
      z - 500 * t,
    ]);
  const spots: [number, number][] = [];
  for (let i = 0; i < 80; i++) {
    const x = between(next, -115, 72);
    const z = -262 + between(next, -34, 40) - x * 0.1;
    if (spots.every(([u, v]) => Math.hypot(u - x, v - z) > 9.5)) spots.push([x, z]);
  }
  town(
    b,
    spots,
    land,
    [
      [0.4, 0.08, 0.05],
      [0.62, 0.6, 0.54],
      [0.5, 0.34, 0.13],
      [0.22, 0.3, 0.36],
      [0.6, 0.58, 0.55],
    ],
    [
      [0.3, 0.12, 0.07],
      [0.15, 0.14, 0.14],
      [0.26, 0.11, 0.07],
    ],
    -14,
  );
  b.use(plain([0.62, 0.6, 0.56]));
  b.at(place([-34, land(-34, -250), -250], 160), () => {
    box(b, [-5, -1, -10], [5, 8, 10]);
    box(b, [-3, 0, 10], [3, 17, 16]);
    b.use(plain([0.1, 0.12, 0.115]));
    patch(
      b,
      4,
      1,
      (s, t) => [
        Math.cos((s + 0.125) * 6.2832) * 4.4 * (1 - t),
        17 + t * 15,
        13 + Math.sin((s + 0.125) * 6.2832) * 4.4 * (1 - t),
      ],
      { closed: true, flip: true },
    );
    patch(b, 2, 2, (s, t) => [(s - 0.5) * 11, 8 + 5 * (1 - Math.abs(s - 0.5) * 2), 10 - 20 * t]);
  });
  b.use(masonry([0.3, 0.29, 0.27], 0.8, 1.6));
  box(b, [-170, -2, -448], [-52, 3, -440]);
  b.use(plain([0.7, 0.68, 0.64]));
  b.at(place([-54, 3, -444]), () =>
    turned(
      b,
      [
        [2.3, 0],
        [1.7, 9],
        [1.2, 9],
        [1.2, 11],
        [0, 12.5],
      ],
      16,
    ),
  );
  for (const [x, z, t] of [
    [-46, -372, 30],
    [-8, -382, 150],
    [22, -368, 80],
    [58, -410, 160],
    [-88, -400, 20],
    [6, -415, 170],
  ])
    lines.push(
      ...fishingBoat(
        b,
        place([x, 0, z], t),
        12,
        { hull: x > 0 ? [0.4, 0.06, 0.04] : [0.07, 0.14, 0.2], stripe: [0.6, 0.6, 0.55], house: [0.6, 0.58, 0.52] },
        0.5,
      ),
    );
  for (const [x, z] of [
    [180, -1300],
    [-240, -1700],
    [90, -2100],
  ]) {
    b.use(plain([0.75, 0.73, 0.68]));
    patch(b, 4, 4, (s, t) => [x + 9 * (1 - t) * s, 1 + 15 * t, z + 1.2 * Math.sin(s * 3)]);
  }
  // Bushes and a few wind-bent trees; a fence; sheep.
  for (const [x, z, r] of [
    [21, -52, 2.1],
    [24.5, -54, 1.6],
    [-31, -88, 2.6],
    [-36, -92, 2.0],
    [44, -120, 3.4],
    [52, -128, 2.9],
    [-64, -150, 3.2],
    [18, -170, 2.6],
    [-18, -205, 3],
    [70, -175, 4],
    [-95, -210, 3.6],
    [38, -215, 3],
  ])
    crown(b, [x, land(x, z) + r * 0.6, z], [r * 1.25, r, r * 1.1], [0.085, 0.12, 0.04], x, 30);
  b.use(boards({ colour: [0.2, 0.17, 0.13], width: 0.3, wear: 0.9 }));
  for (let i = 0; i < 26; i++) {
    const x = -26 + i * 2.3;
    const z = -27 - i * 0.85 + 3 * Math.sin(i * 0.4);
    beam(b, [x, land(x, z) - 0.2, z], [x + 0.03, land(x, z) + 1.08, z], 0.11);
    const x2 = x + 2.3;
    const z2 = -27 - (i + 1) * 0.85 + 3 * Math.sin((i + 1) * 0.4);
    for (const h of [0.5, 0.92])
      beam(b, [x, land(x, z) + h, z], [x2, land(x2, z2) + h + between(next, -0.04, 0.04), z2], 0.04, 0.1);
  }
  for (const [x, z, t, g] of [
    [-6.5, -16.5, 60, 1],
    [-4.6, -18.4, 200, 0],
    [-8.8, -20, 110, 1],
    [6.8, -22.5, -70, 1],
    [-13, -24, 20, 1],
    [-14, -44, 300, 1],
    [-9, -48, 90, 1],
    [4, -52, 140, 1],
    [12, -47, 250, 0],
    [28, -72, 10, 1],
    [33, -76, 120, 1],
    [-26, -70, 220, 1],
    [-20, -64, 80, 1],
  ])
    sheep(b, place([x, land(x, z) - 0.04, z], t, 1.05), g === 1, Math.abs(x * 13 + z));
  person(b, place([-1.2, land(-1.2, -34), -34], 150), walking, {
    coat: [0.4, 0.34, 0.26],
    legs: [0.09, 0.1, 0.14],
    hem: 0.4,
    cap: [0.5, 0.4, 0.2],
  });
  growth(b);
  const sky = new Sky({
    sun,
    zenith: [0.1, 0.21, 0.47],
    horizon: [0.6, 0.67, 0.74],
    clear: 4.4,
    glow: [0.6, 0.54, 0.4],
    tight: 4,
    ground: [0.09, 0.11, 0.06],
    clouds: [
      cumulus({
        sun,
        lit: [1.05, 0.99, 0.88],
        shade: [0.36, 0.4, 0.48],
        base: 1150,
        thick: 900,
        size: 2100,
        cover: -0.12,
        seed: 27.7,
        from: -38,
        to: 38,
        top: 34,
        haze: [0.68, 0.73, 0.78],
        far: 15000,
        columns: Math.ceil(width * 0.31),
      }),
    ],
  });
  const world: World = {
    camera: { eye, turn: 0, pitch: -13, focal: 33 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.4, 1.24, 0.98] },
    air: {
      thickness: [0.00052, 0.00064, 0.0008],
      height: 150,
      colour: [0.52, 0.61, 0.72],
      glow: [0.3, 0.26, 0.18],
      tight: 2,
      sun,
    },
    rays: 3,
    open: 0.55,
    mirrorRays: 0,
    exposure: -0.1,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.035, falloff: 0.35 });
}

/** Blades and flower heads in the foreground, fewer and larger the farther away. */
function growth(b: Builder): void {
  const green = blade([0.035, 0.075, 0.016], [0.13, 0.19, 0.045]);
  const straw = blade([0.09, 0.1, 0.03], [0.36, 0.3, 0.13]);
  scatterWedge(61, 15000, 0, 33, 1.0, 20, (x, z, far, next) => {
    const tuft = fbm2(x / 2.2, z / 2.2, 3);
    b.use(next() > 0.8 ? straw : green, next());
    grassBlade(
      b,
      [x, land(x, z) - 0.02, z],
      (0.13 + 0.17 * next() + 0.12 * tuft) * (1 + far * 0.01),
      0.009 + far * 0.0026,
      next() * 6.28,
      0.2 + 0.6 * next(),
    );
  });
  const petals = (
    [
      [0.75, 0.72, 0.66],
      [0.7, 0.45, 0.03],
      [0.46, 0.06, 0.035],
      [0.3, 0.2, 0.55],
      [0.66, 0.32, 0.42],
    ] as const
  ).map((c) => (s: Parameters<Material>[0]): void => {
    paint(s, c[0], c[1], c[2]);
    s.through = 0.35;
  });
  const eye: Material = plain([0.5, 0.33, 0.03]);
  const stem = blade([0.04, 0.08, 0.02], [0.08, 0.13, 0.03]);
  scatterWedge(62, 2000, 0, 33, 1.3, 24, (x, z, far, next) => {
    const where = fbm2(x / 3.1 + 50, z / 3.1, 3);
    const kind = where > 0.22 ? 0 : where < -0.34 ? 2 : next() > 0.55 ? 1 : next() > 0.5 ? 3 : 4;
    if (next() > 0.25 + Math.abs(where) * 1.6) return;
    const high = (kind === 2 ? 0.3 : 0.2) + 0.16 * next();
    const y = land(x, z);
    b.use(stem, next());
    grassBlade(b, [x, y, z], high, 0.007 + far * 0.0008, next() * 6.28, 0.06);
    const size = (kind === 2 ? 0.034 : kind === 0 ? 0.026 : 0.02) * (1 + far * 0.02);
    const a = next() * 6.28;
    const t = 0.15 + 0.5 * next();
    flower(
      b,
      [x, y + high * 0.98, z],
      size,
      [Math.sin(t) * Math.cos(a), Math.cos(t), Math.sin(t) * Math.sin(a)],
      petals[kind],
      kind === 2 ? plain([0.03, 0.03, 0.03]) : eye,
      kind === 2 ? 6 : 8,
    );
  });
}
