/** The fish market on a bright morning: boxes of fish on ice under striped awnings, buyers in half shade. */
import { fishingBoat } from "../drawing/boats.ts";
import { cumulus } from "../drawing/clouds.ts";
import { finish } from "../drawing/finish.ts";
import { house } from "../drawing/houses.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, cobbles, plain, roof } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { noise2 } from "../drawing/noise.ts";
import { bending, carrying, person, type Pose, standing, walking } from "../drawing/people.ts";
import { barrel, crate } from "../drawing/props.ts";
import { render } from "../drawing/render.ts";
import { ball, patch, tube } from "../drawing/shapes.ts";
import { type Light, Sky } from "../drawing/sky.ts";
import { stall } from "../drawing/stall.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(-34, 33);

const pointing: Pose = {
  hands: [
    [0.22, 0.86, 0.1],
    [-0.12, 1.16, 0.46],
  ],
  feet: [
    [0.12, 0.06, 0.06],
    [-0.12, 0.06, -0.04],
  ],
  chest: [0, 1.41, 0.03],
};
const holding: Pose = {
  hands: [
    [0.18, 1.08, 0.36],
    [-0.14, 1.12, 0.38],
  ],
  feet: [
    [0.13, 0.06, 0],
    [-0.13, 0.06, 0.05],
  ],
  elbows: 0.1,
};

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const lines: Line[] = [];
  b.use(cobbles({ colour: [0.21, 0.2, 0.19], size: 0.15 }));
  patch(b, 2, 2, (s, t) => [-40 + 80 * s, 0, 8 - 24 * t]);
  b.use(water({ slope: 0.06, longest: 3, body: [0.015, 0.05, 0.06] }));
  patch(b, 2, 2, (s, t) => [-400 + 800 * s, -1.4, -16 - 500 * t]);
  stall(
    b,
    place([0.1, 0, -4.1], 3),
    4.6,
    [0.78, 0.31, 0.05],
    [0.74, 0.68, 0.56],
    ["mackerel", "prawns", "cod", "lemons", "herring", "salmon", "mackerel", "prawns"],
    1,
  );
  stall(
    b,
    place([6.9, 0, -8.6], -16),
    4.4,
    [0.07, 0.17, 0.36],
    [0.7, 0.7, 0.66],
    ["cod", "herring", "mackerel", "herring", "prawns", "cod", "lemons", "salmon"],
    2,
  );
  stall(
    b,
    place([-6.6, 0, -9.6], 14),
    4.2,
    [0.5, 0.1, 0.06],
    [0.7, 0.66, 0.58],
    ["herring", "mackerel", "salmon", "cod", "prawns", "lemons", "cod", "herring"],
    3,
  );
  people(b);
  for (const [x, z] of [
    [3.2, -3.0],
    [3.85, -3.2],
  ])
    barrel(b, place([x, 0, z], x * 60), undefined, x % 1);
  crate(b, place([-2.75, 0, -2.95], 14), [0.62, 0.3, 0.42], [0.09, 0.19, 0.33], 0.2);
  crate(b, place([-2.72, 0.31, -2.95], 8), [0.62, 0.3, 0.42], [0.62, 0.28, 0.06], 0.6);
  crate(b, place([-3.45, 0, -2.7], -12), [0.62, 0.3, 0.42], [0.09, 0.19, 0.33], 0.9);
  for (const [x, z, t, long, c] of [
    [-9, -21, 172, 12, [0.06, 0.13, 0.2]],
    [8.5, -20, 8, 12, [0.34, 0.06, 0.04]],
    [22, -27, 170, 13, [0.4, 0.38, 0.33]],
  ] as const)
    lines.push(
      ...fishingBoat(
        b,
        place([x, -1.38, z], t),
        long,
        { hull: c, stripe: [0.6, 0.57, 0.5], house: [0.58, 0.55, 0.48] },
        x % 1,
      ),
    );
  const fronts: Light[] = [
    [0.42, 0.08, 0.05],
    [0.6, 0.57, 0.5],
    [0.56, 0.38, 0.14],
    [0.2, 0.31, 0.36],
    [0.5, 0.15, 0.08],
    [0.58, 0.56, 0.52],
    [0.32, 0.37, 0.25],
    [0.58, 0.44, 0.22],
    [0.4, 0.08, 0.05],
    [0.6, 0.58, 0.52],
  ];
  fronts.forEach((c, i) =>
    house(b, place([-44 + i * 9.4, -0.3, -72 - (i % 3)]), {
      width: 8.6,
      depth: 9,
      eaves: 5.4 + (i % 2) * 0.9,
      rise: 3.4,
      gable: i % 3 !== 1,
      wall: boards({ colour: c, width: 0.2, level: true, wear: 0.3 }),
      roof: roof(i % 2 ? [0.27, 0.11, 0.07] : [0.14, 0.13, 0.13]),
      storeys: 2,
      bays: 3,
      own: (i * 0.31) % 1,
    }),
  );
  b.use(plain([0.1, 0.13, 0.06]));
  patch(b, 60, 8, (s, t) => [-220 + 440 * s, -1 + 30 * t * (0.7 + 0.5 * noise2(s * 5 + 1, 2)), -86 - 160 * t]);
  // Bunting of lamps between the stalls' poles.
  for (const [p, q] of [
    [
      [2.2, 2.9, -3.3],
      [5.2, 2.9, -7.2],
    ],
    [
      [-2.1, 2.9, -3.2],
      [-4.9, 2.9, -8.4],
    ],
  ] as const)
    lines.push({
      points: [p, [(p[0] + q[0]) / 2, 2.55, (p[2] + q[2]) / 2], q],
      width: 0.016,
      colour: [0.06, 0.06, 0.06],
    });
  const sky = new Sky({
    sun,
    zenith: [0.14, 0.27, 0.54],
    horizon: [0.56, 0.63, 0.7],
    clear: 4,
    glow: [0.5, 0.42, 0.3],
    tight: 4,
    ground: [0.2, 0.18, 0.15],
    clouds: [
      cumulus({
        sun,
        lit: [0.98, 0.9, 0.76],
        shade: [0.34, 0.38, 0.44],
        base: 1300,
        thick: 700,
        size: 1900,
        cover: -0.05,
        seed: 3.3,
        from: -32,
        to: 32,
        top: 30,
        haze: [0.64, 0.68, 0.72],
        far: 12000,
        columns: Math.ceil(width * 0.31),
      }),
    ],
  });
  const world: World = {
    camera: { eye: [-0.6, 1.7, 1.7], turn: 4, focal: 33, pitch: -2, rise: 0 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.7, 1.34, 0.92] },
    rays: 5,
    open: 0.5,
    mirrorRays: 1,
    air: {
      thickness: [0.0016, 0.0019, 0.0024],
      height: 80,
      colour: [0.5, 0.53, 0.56],
      glow: [0.5, 0.4, 0.26],
      tight: 3,
      sun,
    },
    exposure: 0.3,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.04, falloff: 0.4, focus: 4.6, blur: 0.0022 });
}

function people(b: Builder): void {
  // Behind the table: the fishwife in her oilskin apron; a lad bends for a box.
  person(
    b,
    place([0.35, 0, -5.0], 4),
    holding,
    { coat: [0.09, 0.14, 0.24], legs: [0.06, 0.06, 0.07], apron: [0.66, 0.42, 0.05], hair: [0.28, 0.13, 0.05] },
    0.02,
  );
  fishInHand(b);
  person(
    b,
    place([1.9, 0, -5.1], -25),
    bending,
    { coat: [0.4, 0.12, 0.07], legs: [0.07, 0.07, 0.09], cap: [0.07, 0.08, 0.1] },
    0.02,
  );
  // Before it, from the back: a woman with a basket, a man who points, a child between.
  person(
    b,
    place([-1.15, 0, -2.85], 172),
    holding,
    { coat: [0.3, 0.1, 0.08], legs: [0.09, 0.08, 0.09], hem: 0.4, hair: [0.12, 0.07, 0.035] },
    0.02,
  );
  basket(b, [-1.42, 0.86, -2.72]);
  person(
    b,
    place([1.55, 0, -2.95], 192),
    pointing,
    { coat: [0.1, 0.13, 0.18], legs: [0.1, 0.085, 0.07], cap: [0.16, 0.14, 0.11], hem: 0.7 },
    0.02,
  );
  b.at(place([-0.55, 0, -2.95], 166, 0.68), () =>
    person(
      b,
      place([0, 0, 0]),
      standing,
      { coat: [0.5, 0.36, 0.12], legs: [0.08, 0.1, 0.15], cap: [0.1, 0.16, 0.3] },
      0.026,
    ),
  );
  person(
    b,
    place([6.1, 0, -7.2], 160),
    standing,
    { coat: [0.34, 0.3, 0.24], legs: [0.08, 0.07, 0.07], cap: [0.1, 0.09, 0.08] },
    0.03,
  );
  person(
    b,
    place([7.2, 0, -9.6], -8),
    holding,
    { coat: [0.5, 0.48, 0.42], legs: [0.07, 0.07, 0.08], apron: [0.1, 0.16, 0.28], cap: [0.5, 0.48, 0.42] },
    0.03,
  );
  person(
    b,
    place([4.7, 0, -6.2], -60),
    carrying,
    { coat: [0.12, 0.13, 0.12], legs: [0.1, 0.09, 0.07], cap: [0.08, 0.07, 0.06] },
    0.026,
  );
  crate(b, place([4.33, 0.93, -6.0], -60), [0.5, 0.18, 0.34], [0.1, 0.2, 0.34], 0.4);
  person(
    b,
    place([-5.4, 0, -8.3], 150),
    standing,
    { coat: [0.14, 0.2, 0.13], legs: [0.08, 0.08, 0.09], hem: 0.4, hair: [0.3, 0.2, 0.1] },
    0.03,
  );
  person(
    b,
    place([-6.6, 0, -10.4], 10),
    holding,
    { coat: [0.3, 0.08, 0.06], legs: [0.07, 0.07, 0.08], apron: [0.6, 0.58, 0.52], cap: [0.3, 0.08, 0.06] },
    0.03,
  );
  person(
    b,
    place([-3.0, 0, -12.5], 80),
    walking,
    { coat: [0.1, 0.12, 0.2], legs: [0.06, 0.06, 0.08], cap: [0.06, 0.06, 0.07] },
    0.035,
  );
}

/** She holds one up for the buyer. */
function fishInHand(b: Builder): void {
  b.use(plain([0.5, 0.52, 0.54], 0.2, 0.2));
  tube(
    b,
    [
      [0.2, 1.22, -4.58],
      [0.33, 1.2, -4.57],
      [0.47, 1.19, -4.58],
    ],
    (t) => 0.01 + 0.035 * Math.sin(Math.PI * Math.min(1, t + 0.1)),
    10,
  );
}

function basket(b: Builder, at: Vec): void {
  b.use(boards({ colour: [0.42, 0.3, 0.15], width: 0.03, level: true, wear: 0.2, gap: 0.006 }));
  b.at(place(at), () => {
    patch(
      b,
      20,
      6,
      (s, t) => [Math.cos(-s * 6.2832) * (0.13 + 0.05 * t), 0.16 * t, Math.sin(-s * 6.2832) * (0.1 + 0.04 * t)],
      { closed: true, uv: (s, t) => [s * 0.9, t * 0.17] },
    );
    tube(
      b,
      Array.from({ length: 13 }, (_, i): Vec => [
        Math.cos((i / 12) * Math.PI) * 0.17,
        0.16 + Math.sin((i / 12) * Math.PI) * 0.16,
        0,
      ]),
      0.01,
      6,
    );
    b.use(plain([0.1, 0.17, 0.05]));
    ball(b, [0.02, 0.17, 0], [0.12, 0.05, 0.09], 10);
  });
}
