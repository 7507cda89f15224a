/** Black and white: the net mender in the doorway of the shed, light from behind, nets hanging about him. */
import { fishingBoat } from "../drawing/boats.ts";
import { finish } from "../drawing/finish.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { noise2, smoothstep } from "../drawing/noise.ts";
import { person, type Pose } from "../drawing/people.ts";
import { barrel, coil } from "../drawing/props.ts";
import { render } from "../drawing/render.ts";
import { ball, beam, box, hang, patch, quad, tube } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Opening, Picture, World } from "../drawing/world.ts";

const sun = direction(-28, 30);

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const lines: Line[] = [];
  shed(b);
  // He sits on a box, left of the door's middle, a net over his knees.
  const pose: Pose = {
    hands: [
      [0.2, 0.86, 0.36],
      [-0.12, 0.98, 0.4],
    ],
    feet: [
      [0.2, 0.06, 0.52],
      [-0.2, 0.06, 0.38],
    ],
    hips: [0, 0.54, 0],
    chest: [0, 1.0, 0.12],
    head: [0, 0.2, 0.13],
    elbows: 0.13,
  };
  const seat = place([-0.35, 0, -3.1], 62);
  person(
    b,
    seat,
    pose,
    { coat: [0.12, 0.12, 0.12], legs: [0.08, 0.08, 0.08], cap: [0.06, 0.06, 0.06], skin: [0.36, 0.3, 0.26], bulk: 0.7 },
    0.014,
  );
  b.at(seat, () => {
    b.use(boards({ colour: [0.25, 0.22, 0.18], width: 0.14, wear: 0.6 }));
    box(b, [-0.3, 0, -0.24], [0.3, 0.44, 0.2]);
    // A pipe.
    b.use(plain([0.04, 0.035, 0.03]));
    tube(
      b,
      [
        [0.03, 1.165, 0.34],
        [0.04, 1.13, 0.41],
        [0.045, 1.165, 0.425],
      ],
      0.011,
      6,
    );
  });
  net(lines, (u, v) => lap(u, v), 34, 26, 0.0055, [0.1, 0.095, 0.09]);
  for (const [x0, x1, z, h, seed] of [
    [-2.6, -1.2, -3.9, 2.35, 3],
    [1.15, 2.5, -4.05, 2.4, 8],
  ] as const)
    net(
      lines,
      (u, v) => {
        const x = x0 + (x1 - x0) * u + 0.05 * noise2(v * 4 + seed, u * 5);
        return [
          x,
          h - 0.25 * Math.sin(u * 3.14) * (1 - v) - 1.75 * v * (0.85 + 0.2 * noise2(u * 3, seed)),
          z + 0.12 * noise2(u * 6 + seed, v * 2.2),
        ];
      },
      30,
      36,
      0.006,
      [0.09, 0.085, 0.08],
    );
  // Floats on a line, a lantern on a beam, an oar, a barrel.
  b.use(plain([0.34, 0.28, 0.2], 0.02));
  hang([-2.7, 2.3, -3.4], [-0.9, 2.5, -3.8], 0.25, 9).forEach((p) => ball(b, p, [0.055, 0.075, 0.055], 10));
  b.use(boards({ colour: [0.28, 0.23, 0.16], width: 0.3, wear: 0.4 }));
  tube(
    b,
    [
      [1.75, 0.02, -3.2],
      [1.95, 2.2, -4.25],
    ],
    0.028,
    8,
  );
  b.at(place([1.77, 0.2, -3.27], 30), () => box(b, [-0.08, -0.2, -0.012], [0.08, 0.55, 0.012]));
  barrel(b, place([1.05, 0, -3.9], 40));
  coil(b, place([0.75, 0, -2.5], 10), 0.32, 11);
  b.use(plain([0.05, 0.05, 0.05], 0.05));
  b.at(place([0.35, 2.05, -2.9]), () => {
    for (const [r, y, h] of [
      [0.07, 0, 0.05],
      [0.05, 0.05, 0.02],
      [0.055, 0.19, 0.07],
    ] as const)
      ball(b, [0, y + h / 2, 0], [r, h, r], 12);
    for (let i = 0; i < 4; i++)
      tube(
        b,
        [
          [Math.cos(i * 1.57) * 0.05, 0.04, Math.sin(i * 1.57) * 0.05],
          [Math.cos(i * 1.57) * 0.05, 0.2, Math.sin(i * 1.57) * 0.05],
        ],
        0.004,
        4,
      );
    tube(
      b,
      [
        [0, 0.24, 0],
        [0, 0.5, 0],
      ],
      0.005,
      4,
    );
  });
  outside(b, lines);
  const sky = new Sky({
    sun,
    zenith: [1.3, 1.3, 1.3],
    horizon: [2.2, 2.2, 2.2],
    clear: 2.5,
    glow: [1.6, 1.6, 1.6],
    tight: 3,
    ground: [0.5, 0.5, 0.5],
  });
  const opening: Opening = { corner: [-1.2, 0, -4.45], edge1: [2.3, 0, 0], edge2: [0, 2.3, 0], gain: 1 };
  const world: World = {
    camera: { eye: [0.15, 1.22, 0.9], turn: -2, focal: 42, rise: 0.4 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [2.6, 2.6, 2.6] },
    openings: [opening],
    open: 0.3,
    fill: [0.05, 0.05, 0.05],
    air: { thickness: [0.003, 0.003, 0.003], height: 60, colour: [1.5, 1.5, 1.5] },
    rays: 4,
    mirrorRays: 1,
    exposure: 0.05,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.1, falloff: 0.5 });
}

/** The net that lies over his knees and spills on the floor towards the viewer. */
function lap(u: number, v: number): Vec {
  const a = (u - 0.5) * 1.25;
  const fall = smoothstep(0.2, 0.75, v);
  return [
    -0.1 + a * (0.45 + 0.8 * v) + 0.25 * v + 0.05 * noise2(u * 6, v * 5),
    0.8 - 0.66 * fall - 0.1 * v + 0.03 * noise2(u * 9 + 3, v * 8) - 0.3 * Math.abs(a) * (1 - fall),
    -2.78 + 0.12 * a + 1.1 * v + 0.1 * noise2(u * 4, v * 4 + 9),
  ];
}

/** Meshes of cord on a surface: diamonds. */
function net(
  lines: Line[],
  at: (u: number, v: number) => Vec,
  across: number,
  down: number,
  width: number,
  colour: readonly [number, number, number],
): void {
  for (let j = 0; j < down; j++)
    for (let i = 0; i < across; i++) {
      const s = (j & 1) * 0.5;
      const p = at((i + s) / across, j / down);
      for (const d of [-0.5, 0.5]) {
        const u = (i + s + d) / across;
        if (u < 0 || u > 1) continue;
        lines.push({ points: [p, at(u, (j + 1) / down)], width, colour });
      }
    }
}

function shed(b: Builder): void {
  const wood = boards({ colour: [0.2, 0.175, 0.15], width: 0.19, wear: 0.7, gap: 0.01 });
  b.use(wood);
  // Front wall in three pieces about the door; side walls; floor; roof.
  quad(b, [-4, 0, -4.4], [-1.2, 0, -4.4], [-1.2, 3.2, -4.4], [-4, 3.2, -4.4]);
  quad(b, [1.1, 0, -4.4], [4, 0, -4.4], [4, 3.2, -4.4], [1.1, 3.2, -4.4]);
  quad(b, [-1.2, 2.3, -4.4], [1.1, 2.3, -4.4], [1.1, 3.2, -4.4], [-1.2, 3.2, -4.4]);
  quad(b, [-2.9, 0, 4], [-2.9, 0, -4.4], [-2.9, 3.2, -4.4], [-2.9, 3.2, 4]);
  quad(b, [2.8, 0, -4.4], [2.8, 0, 4], [2.8, 3.2, 4], [2.8, 3.2, -4.4]);
  quad(b, [-3, 2.9, 4], [3, 2.9, 4], [3, 2.9, -4.5], [-3, 2.9, -4.5]);
  for (const x of [-1.28, 1.18]) box(b, [x - 0.08, 0, -4.46], [x + 0.08, 2.38, -4.3]);
  box(b, [-1.36, 2.3, -4.46], [1.26, 2.44, -4.3]);
  for (const z of [-3.4, -2.2, -1]) beam(b, [-3, 2.78, z], [3, 2.78, z], 0.14, 0.18);
  // The door leaf stands open inwards, right.
  b.at(place([1.12, 0, -4.35], 68), () => box(b, [0, 0.03, -0.03], [1.1, 2.25, 0.03]));
  b.use(boards({ colour: [0.17, 0.155, 0.135], width: 0.24, level: false, wear: 0.8, gap: 0.012 }));
  quad(b, [-3, 0, 4], [3, 0, 4], [3, 0, -4.4], [-3, 0, -4.4]);
}

/** What is seen through the door: planks of the quay, water, a boat at her moorings, a hill in the haze. */
function outside(b: Builder, lines: Line[]): void {
  b.use(boards({ colour: [0.42, 0.4, 0.37], width: 0.22, wear: 0.8 }));
  quad(b, [-20, -0.05, -4.4], [20, -0.05, -4.4], [20, -0.05, -11], [-20, -0.05, -11]);
  b.use(water({ slope: 0.05, longest: 3, body: [0.02, 0.02, 0.02] }));
  quad(b, [-900, -1.2, -11], [900, -1.2, -11], [900, -1.2, -1500], [-900, -1.2, -1500]);
  b.use(plain([0.16, 0.16, 0.16]));
  patch(b, 60, 4, (s, t) => [-400 + 800 * s, -3 + t * (30 + 20 * noise2(s * 6, 2)), -420 - 60 * t]);
  b.use(plain([0.2, 0.19, 0.18]));
  for (const [x, h] of [
    [-0.75, 1],
    [0.72, 1.05],
  ])
    tube(
      b,
      [
        [x, -0.2, -10.6],
        [x, h, -10.6],
        [x, h + 0.01, -10.6],
      ],
      (t) => (t > 0.99 ? 0.01 : 0.14),
      12,
    );
  lines.push(
    ...fishingBoat(
      b,
      place([1.6, -1.2, -24], 172),
      11,
      { hull: [0.3, 0.3, 0.3], stripe: [0.6, 0.6, 0.6], house: [0.55, 0.55, 0.55] },
      0.4,
    ),
  );
}
