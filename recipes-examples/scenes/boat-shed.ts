/** The boat shed: a new hull on the stocks, morning sun through one window, the builder at his bench in the dust. */
import { hull } from "../drawing/boats.ts";
import { finish } from "../drawing/finish.ts";
import { boards, cloth, pane, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, noise2 } from "../drawing/noise.ts";
import { person, type Pose } from "../drawing/people.ts";
import { barrel, coil } from "../drawing/props.ts";
import { between, random, type Random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { drawShafts } from "../drawing/shafts.ts";
import { beam, box, hang, patch, quad, tube } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { paint, type Material } from "../drawing/surface.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import type { Opening, Picture, World } from "../drawing/world.ts";

/** The sun stands to the left and shines in through the wall's window. */
const sun = direction(-64, 31);

const LEFT = -4.2;
const RIGHT = 4.4;
const BACK = -9.2;
const window1 = { z0: -6.3, z1: -4.5, y0: 1.25, y1: 2.65 };

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(707);
  shell(b);
  boat(b);
  bench(b, next);
  const pose: Pose = {
    hands: [
      [0.2, 1.03, 0.46],
      [-0.16, 1.04, 0.62],
    ],
    feet: [
      [0.16, 0.06, -0.2],
      [-0.14, 0.06, 0.26],
    ],
    hips: [0, 0.9, -0.02],
    chest: [0, 1.33, 0.22],
    head: [0, 0.2, 0.13],
    elbows: 0.12,
  };
  person(
    b,
    place([-2.35, 0, -5.75], -90),
    pose,
    { coat: [0.5, 0.47, 0.4], legs: [0.11, 0.13, 0.17], cap: [0.1, 0.09, 0.08], apron: [0.24, 0.17, 0.1], bulk: 0.35 },
    0.016,
  );
  clutter(b, next);
  const sky = new Sky({
    sun,
    zenith: [2.6, 3.3, 4.6],
    horizon: [4.6, 4.7, 4.6],
    clear: 2.5,
    glow: [3, 2.4, 1.5],
    tight: 3,
    ground: [0.4, 0.36, 0.28],
  });
  const openings: Opening[] = [
    {
      corner: [LEFT + 0.02, window1.y0, window1.z1],
      edge1: [0, 0, window1.z0 - window1.z1],
      edge2: [0, window1.y1 - window1.y0, 0],
    },
    { corner: [0.95, 0, BACK + 0.02], edge1: [0.62, 0, 0], edge2: [0, 2.9, 0], gain: 0.9 },
  ];
  const world: World = {
    camera: { eye: [2.5, 1.62, 0.6], turn: -27, focal: 34, rise: 0.8 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [5.2, 4.0, 2.5] },
    openings,
    open: 0.05,
    fill: [0.075, 0.066, 0.056],
    rays: 6,
    mirrorRays: 1,
    exposure: 1.35,
  };
  const picture = render(world, width, height);
  drawShafts(picture, world, { light: [0.05, 0.041, 0.029], near: 2.2, far: 11, steps: 18 });
  return finish(picture, { glow: 0.08, falloff: 0.6 });
}

const plank = boards({ colour: [0.2, 0.145, 0.095], width: 0.2, wear: 0.55, gap: 0.008 });
const timber = boards({ colour: [0.22, 0.155, 0.1], width: 0.6, wear: 0.4, gap: 0.004 });
const fresh = boards({ colour: [0.46, 0.32, 0.17], width: 0.115, level: true, wear: 0.05, gap: 0.01, shine: 0.03 });

/** Walls of upright boards, a window left, a door ajar at the back, rafters and a roof. */
function shell(b: Builder): void {
  b.use(plank);
  const side = (y0: number, y1: number, z0: number, z1: number): void =>
    quad(b, [LEFT, y0, z1], [LEFT, y0, z0], [LEFT, y1, z0], [LEFT, y1, z1], z1, y0);
  side(0, window1.y0, BACK, 2);
  side(window1.y1, 3.4, BACK, 2);
  side(window1.y0, window1.y1, BACK, window1.z0);
  side(window1.y0, window1.y1, window1.z1, 2);
  quad(b, [RIGHT, 0, BACK], [RIGHT, 0, 2], [RIGHT, 3.4, 2], [RIGHT, 3.4, BACK]);
  quad(b, [LEFT, 0, BACK], [0.95, 0, BACK], [0.95, 3.4, BACK], [LEFT, 3.4, BACK]);
  quad(b, [1.57, 0, BACK], [RIGHT, 0, BACK], [RIGHT, 3.4, BACK], [1.57, 3.4, BACK]);
  quad(b, [0.95, 2.9, BACK], [1.57, 2.9, BACK], [1.57, 3.4, BACK], [0.95, 3.4, BACK]);
  quad(b, [RIGHT, 0, 2], [LEFT, 0, 2], [LEFT, 4.6, 2], [RIGHT, 4.6, 2]);
  const ridge = 5.3;
  quad(b, [0.1, ridge, BACK], [0.1, ridge, 2], [RIGHT + 0.2, 3.3, 2], [RIGHT + 0.2, 3.3, BACK]);
  quad(b, [LEFT - 0.2, 3.3, BACK], [LEFT - 0.2, 3.3, 2], [0.1, ridge, 2], [0.1, ridge, BACK]);
  quad(b, [LEFT, 3.4, BACK], [RIGHT, 3.4, BACK], [0.1, ridge, BACK], [0.1, ridge, BACK]);
  b.use(timber);
  for (const z of [-8.2, -6.4, -4.6, -2.8, -1]) {
    beam(b, [LEFT, 3.2, z], [RIGHT, 3.2, z], 0.16, 0.2);
    beam(b, [LEFT + 0.1, 3.25, z], [0.1, ridge - 0.1, z], 0.1, 0.16);
    beam(b, [RIGHT - 0.1, 3.25, z], [0.1, ridge - 0.1, z], 0.1, 0.16);
    beam(b, [LEFT + 0.08, 0, z + 0.05], [LEFT + 0.08, 3.2, z + 0.05], 0.14);
    beam(b, [RIGHT - 0.08, 0, z], [RIGHT - 0.08, 3.2, z], 0.14);
  }
  // Window bars.
  const { z0, z1, y0, y1 } = window1;
  b.use(plain([0.3, 0.28, 0.24]));
  for (let i = 0; i <= 3; i++)
    box(b, [LEFT - 0.03, y0, z0 + ((z1 - z0) * i) / 3 - 0.022], [LEFT + 0.03, y1, z0 + ((z1 - z0) * i) / 3 + 0.022]);
  for (let i = 0; i <= 3; i++)
    box(b, [LEFT - 0.03, y0 + ((y1 - y0) * i) / 3 - 0.018, z0], [LEFT + 0.03, y0 + ((y1 - y0) * i) / 3 + 0.018, z1]);
  box(b, [LEFT - 0.05, y0 - 0.05, z0 - 0.08], [LEFT + 0.2, y0, z1 + 0.08]);
  // Floor: boards under sawdust and shavings.
  const floor = boards({ colour: [0.2, 0.155, 0.11], width: 0.24, wear: 0.7, gap: 0.012 });
  b.use((s) => {
    floor(s);
    const dust = Math.max(
      0,
      Math.min(1, 0.5 + 1.3 * fbm2(s.x * 0.8, s.z * 0.8, 5) - 0.14 * Math.hypot(s.x + 2, s.z + 5)),
    );
    const n = 1 + 0.2 * fbm2(s.x * 20, s.z * 20, 3, s.foot * 20);
    s.r += (0.44 * n - s.r) * dust;
    s.g += (0.34 * n - s.g) * dust;
    s.b += (0.21 * n - s.b) * dust;
  });
  quad(b, [LEFT, 0, 2], [RIGHT, 0, 2], [RIGHT, 0, BACK], [LEFT, 0, BACK], LEFT, -2);
}

/** The boat, bow towards the viewer, on keel blocks, half of its ribs still showing. */
function boat(b: Builder): void {
  b.at(place([2.3, 0.78, -5.3], -112), () => {
    hull(
      b,
      { long: 6.6, beam: 2.3, side: 0.82, sheer: 0.5, draught: 0.42 },
      fresh,
      boards({ colour: [0.38, 0.26, 0.14], width: 0.115, level: true, wear: 0.1 }),
      timber,
    );
    b.use(timber);
    for (let i = 0; i < 6; i++)
      beam(
        b,
        [-1.9 + i * 0.72, 0.55, -0.74 + Math.abs(i - 2.2) * 0.1],
        [-1.9 + i * 0.72, 0.55, 0.74 - Math.abs(i - 2.2) * 0.1],
        0.16,
        0.045,
      );
    beam(b, [-3.3, -0.46, 0], [2.9, -0.46, 0], 0.1, 0.14);
    beam(b, [2.88, -0.5, 0], [3.72, 1.42, 0], 0.1, 0.16);
  });
  b.use(timber);
  b.at(place([2.3, 0, -5.3], -112), () => {
    for (const x of [-2.4, 0, 2.2]) {
      box(b, [x - 0.16, 0, -0.35], [x + 0.16, 0.26, 0.35]);
      for (const s of [-1, 1]) beam(b, [x, 0, s * 1.15], [x, 0.95, s * 0.78], 0.09);
    }
  });
}

/** The bench below the window, a plank in the vice, tools, shavings. */
function bench(b: Builder, next: Random): void {
  b.use(boards({ colour: [0.3, 0.2, 0.12], width: 0.3, wear: 0.5, level: true }));
  box(b, [LEFT + 0.15, 0.8, -7.4], [-2.95, 0.9, -3.4]);
  for (const z of [-7.2, -5.4, -3.6]) for (const x of [-4, -3.05]) beam(b, [x, 0, z], [x, 0.8, z], 0.11);
  box(b, [-4.05, 0.28, -7.3], [-3, 0.31, -3.5]);
  b.use(boards({ colour: [0.55, 0.4, 0.22], width: 0.4, wear: 0, level: true }));
  box(b, [-3.3, 0.9, -6.9], [-3.08, 0.965, -3.9]);
  // The plane.
  b.use(plain([0.2, 0.1, 0.05], 0.05, 0.25));
  box(b, [-3.26, 0.965, -5.72], [-3.11, 1.03, -5.3]);
  box(b, [-3.2, 1.03, -5.62], [-3.16, 1.11, -5.57]);
  // Shavings: curls of thin wood, on the bench and about his feet.
  const curl: Material = (s) => {
    paint(s, 0.62, 0.46, 0.26);
    s.through = 0.3;
  };
  b.use(curl);
  for (let i = 0; i < 90; i++) {
    const onBench = i < 22;
    const p: Vec = onBench
      ? [between(next, -3.5, -2.95), 0.93, between(next, -6.2, -4.6)]
      : [between(next, -3.2, -1.5), 0.02, between(next, -6.6, -4.3)];
    const r = between(next, 0.018, 0.04);
    const turn = next() * 6.28;
    const long = between(next, 0.03, 0.07);
    patch(b, 12, 1, (s, t) => {
      const a = s * 9 + turn;
      const q = r * (1 - 0.5 * s);
      return [
        p[0] + Math.cos(a) * q * Math.cos(turn) + (t - 0.5) * long * Math.sin(turn),
        p[1] + r + Math.sin(a) * q,
        p[2] + Math.cos(a) * q * Math.sin(turn) - (t - 0.5) * long * Math.cos(turn),
      ];
    });
  }
  // Jars and tins on the sill, saws and templates on the wall.
  for (let i = 0; i < 5; i++) {
    b.use(i % 2 ? pane() : plain([0.3, 0.08 + 0.05 * i, 0.05], 0.05, 0.3));
    const z = window1.z0 + 0.15 + i * 0.34;
    tube(
      b,
      [
        [LEFT + 0.12, window1.y0, z],
        [LEFT + 0.12, window1.y0 + 0.12 + 0.05 * (i % 3), z],
        [LEFT + 0.12, window1.y0 + 0.121 + 0.05 * (i % 3), z],
      ],
      (t) => (t > 0.99 ? 0.005 : 0.045),
      12,
    );
  }
  b.use(plain([0.36, 0.35, 0.34], 0.3, 0.3));
  for (const z of [-7.6, -7.95, -8.3]) {
    quad(
      b,
      [LEFT + 0.03, 1.3, z],
      [LEFT + 0.03, 1.36, z - 0.08],
      [LEFT + 0.03, 2.05, z - 0.05],
      [LEFT + 0.03, 2.0, z + 0.09],
    );
  }
}

/** Ropes on pegs, spare planks overhead, a barrel of pitch, a ladder, a lamp. */
function clutter(b: Builder, next: Random): void {
  for (const [z, y, n] of [
    [-7.9, 1.9, 5],
    [-7.3, 2.0, 6],
    [-6.6, 1.8, 4],
    [-2.9, 1.9, 6],
  ] as const)
    for (let k = 0; k < n; k++) {
      const x = z > -3 ? LEFT + 0.12 : RIGHT - 0.12;
      b.use(plain([0.4, 0.31, 0.19]), next());
      const h = between(next, 0.55, 0.75);
      tube(
        b,
        Array.from({ length: 17 }, (_, i): Vec => {
          const a = (i / 16) * 6.2832;
          return [
            x + (z > -3 ? 0.04 : -0.04) * k * 0.5 + 0.02 * Math.sin(a * 3),
            y - h / 2 + Math.cos(a) * h * 0.5,
            z + Math.sin(a) * (0.13 + 0.02 * k),
          ];
        }),
        0.014,
        6,
      );
    }
  b.use(boards({ colour: [0.4, 0.29, 0.17], width: 0.3, wear: 0.2, level: true }));
  for (let i = 0; i < 7; i++)
    box(
      b,
      [-1.9 + i * 0.27, 3.3 + (i % 2) * 0.05, -8.6 + next()],
      [-1.7 + i * 0.27, 3.35 + (i % 2) * 0.05, -1 - next()],
    );
  for (let i = 0; i < 5; i++)
    beam(b, [RIGHT - 0.35 - i * 0.12, 0, -8.6 + i * 0.2], [RIGHT - 0.1, 2.9 + 0.15 * i, -8.9 + i * 0.12], 0.16, 0.03);
  barrel(b, place([3.65, 0, -2.6], 40));
  barrel(b, place([-3.6, 0, -8.5], 10));
  coil(b, place([-0.35, 0, -2.75], 20), 0.34, 12);
  b.use(cloth([0.34, 0.31, 0.26], 0.2));
  // A sail hung to dry from the beams at the back.
  patch(b, 40, 24, (s, t) => [
    -2.8 + 3.0 * s * (1 - 0.35 * t),
    3.1 - 1.9 * t - 0.15 * Math.sin(s * 3.14) * (1 - t),
    -8.6 + 0.16 * noise2(s * 7, t * 2) + 0.1 * noise2(s * 17, t * 4),
  ]);
  b.use(plain([0.05, 0.05, 0.05], 0.05));
  for (const p of hang([0.6, 3.1, -4.6], [0.6, 2.4, -4.6], 0, 2).slice(0, 1)) tube(b, [p, [0.6, 2.55, -4.6]], 0.006, 5);
  tube(
    b,
    [
      [0.6, 2.56, -4.6],
      [0.6, 2.5, -4.6],
      [0.6, 2.42, -4.6],
    ],
    (t) => 0.03 + 0.16 * t,
    14,
  );
}
