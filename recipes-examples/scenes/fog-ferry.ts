/** Fog on the water: the ferry comes in, its red hull the only colour; people wait at the end of the landing stage. */
import { finish } from "../drawing/finish.ts";
import { gull } from "../drawing/gulls.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, pane, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { noise2, smoothstep } from "../drawing/noise.ts";
import { person, standing, sitting, type Pose } from "../drawing/people.ts";
import { barrel, bollard, coil } from "../drawing/props.ts";
import { drawPuffs, type Puff } from "../drawing/puffs.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { ball, beam, box, patch, quad, tube, turned } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { dim, paint, type Material } from "../drawing/surface.ts";
import { direction, moved, place, type Placement, type Vec } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Picture, World } from "../drawing/world.ts";

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(505);
  const lines: Line[] = [];
  b.use(water({ slope: 0.05, longest: 4, octaves: 7, body: [0.02, 0.028, 0.03], calm: 25, heading: 40 }));
  patch(b, 2, 2, (s, t) => [(s - 0.5) * 3000, 0, 30 - t * 1500]);
  const ferryAt = place([-13, 0, -62], -62);
  lines.push(...ferry(b, ferryAt));
  stage(b);
  const wait: Pose = {
    ...standing,
    hands: [
      [0.2, 0.98, 0.2],
      [-0.2, 0.98, 0.2],
    ],
    elbows: 0.14,
  };
  person(b, place([4.2, 1.5, -15.2], 155), wait, {
    coat: [0.06, 0.065, 0.07],
    legs: [0.05, 0.05, 0.055],
    hem: 0.48,
    cap: [0.05, 0.05, 0.05],
    bulk: 0.8,
  });
  person(b, place([5.0, 1.5, -15.5], 195), standing, {
    coat: [0.16, 0.13, 0.1],
    legs: [0.04, 0.04, 0.045],
    hem: 0.35,
    hair: [0.08, 0.05, 0.03],
  });
  // A child, a suitcase.
  b.at(place([4.55, 1.5, -14.7], 170, 0.66), () =>
    person(
      b,
      place([0, 0, 0]),
      standing,
      { coat: [0.42, 0.27, 0.05], legs: [0.08, 0.08, 0.09], hem: 0.55, cap: [0.4, 0.26, 0.06] },
      0.035,
    ),
  );
  b.use(plain([0.14, 0.08, 0.045], 0.04, 0.4));
  b.at(place([5.7, 1.5, -15.0], 20), () => {
    box(b, [-0.32, 0.02, -0.1], [0.32, 0.46, 0.1]);
    b.use(plain([0.08, 0.05, 0.03]));
    for (const x of [-0.2, 0.2]) box(b, [x - 0.02, 0.01, -0.105], [x + 0.02, 0.47, 0.105]);
    tube(
      b,
      [
        [-0.07, 0.46, 0],
        [-0.05, 0.51, 0],
        [0.05, 0.51, 0],
        [0.07, 0.46, 0],
      ],
      0.014,
      6,
    );
  });
  for (let i = 0; i < 5; i++)
    lines.push(
      ...gull(next, [between(next, -16, 10), between(next, 5.5, 12), between(next, -48, -26)], [0.16, 0.16, 0.165]),
    );
  // One gull sits on a pile.
  perched(b, [-4.98, 2.22, -9.4]);
  const sky = new Sky({
    sun: direction(-25, 42),
    zenith: [0.52, 0.56, 0.6],
    horizon: [0.56, 0.585, 0.6],
    clear: 2,
    glow: [0.3, 0.27, 0.2],
    tight: 1.2,
    ground: [0.3, 0.32, 0.33],
  });
  const fog = {
    thickness: [0.0105, 0.0105, 0.0102] as const,
    height: 60,
    colour: [0.53, 0.56, 0.585] as const,
    glow: [0.16, 0.14, 0.1] as const,
    tight: 0.6,
    sun: direction(-25, 42),
  };
  const world: World = {
    camera: { eye: [0, 3.15, 0], turn: 1.5, focal: 40, rise: 1.6 },
    mesh: b.done(),
    sky,
    air: fog,
    rays: 5,
    mirrorRays: 2,
    open: 0.6,
    exposure: -0.25,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  const puffs: Puff[] = [];
  // Smoke from the funnel, and thicker banks low on the water.
  for (let i = 0; i < 14; i++) {
    const at = moved(ferryAt, [-4.4 - i * 1.1, 12 + i * 0.42 + 0.5 * noise2(i * 0.7, 3), 0.3 * noise2(i * 1.1, 8) * i]);
    puffs.push({
      at,
      radius: 0.9 + i * 0.34,
      colour: [0.2, 0.2, 0.205],
      dense: 0.3 * (1 - i / 15),
      ragged: 0.7,
      seed: i + 1,
    });
  }
  for (let i = 0; i < 16; i++)
    puffs.push({
      at: [between(next, -75, 60), between(next, 0.5, 3), between(next, -110, -35)],
      radius: between(next, 9, 20),
      colour: [0.6, 0.62, 0.635],
      dense: 0.16,
      ragged: 0.35,
      seed: i + 30,
    });
  for (const [p, c, r] of [
    [[11.2, 9.2, 0], [3, 2.4, 1.5], 1.5],
    [[10.9, 5.6, -2.9], [0.4, 2.2, 0.9], 0.9],
  ] as const)
    puffs.push(
      { at: moved(ferryAt, p), radius: r, colour: c, dense: 0.3, ragged: 0, seed: 3 },
      { at: moved(ferryAt, p), radius: r * 0.22, colour: [c[0] * 3, c[1] * 3, c[2] * 3], dense: 1, ragged: 0, seed: 3 },
    );
  drawPuffs(picture, world, puffs);
  return finish(picture, { glow: 0.1, falloff: 0.35 });
}

/** A coasting ferry, bow towards +x, 30 m long. */
function ferry(b: Builder, at: Placement): Line[] {
  const rig: Line[] = [];
  const red: Material = (s) => {
    const n = 1 + 0.18 * noise2(s.u * 1.4, s.v * 0.35) + 0.1 * noise2(s.u * 5, s.v * 0.7);
    if (s.v < 0.25) paint(s, 0.05, 0.05, 0.052);
    else paint(s, 0.46 * n, 0.045 * n, 0.03 * n);
    // Rust runs down from the scuppers.
    dim(s, 1 - 0.35 * smoothstep(0.35, 0.8, noise2(s.u * 3.1, s.v * 0.18)));
    s.shine = 0.03;
    s.rough = 0.4;
  };
  const white = plain([0.7, 0.7, 0.68], 0.03, 0.4, 0.06);
  const dark = pane();
  const half = (s: number): number =>
    3.6 * Math.pow(Math.sin(Math.PI * Math.min(1, 0.3 + 0.7 * s)), 0.36) * (s > 0.999 ? 0.04 : 1);
  const rail = (s: number): number => 2.5 + 1.7 * Math.max(0, s - 0.55) ** 1.6 * 3;
  b.at(at, () => {
    for (const side of [1, -1]) {
      b.use(red);
      patch(
        b,
        40,
        10,
        (s, t) => [
          (s - 0.5) * 30 + smoothstep(0.75, 1, s) * (t - 0.3) * 2.2,
          -0.6 + (rail(s) + 0.6) * t,
          side * half(s) * (0.82 + 0.18 * t) * Math.pow(t + 0.05, 0.25 * s),
        ],
        { flip: side < 0, uv: (s, t) => [s * 30, -0.6 + (rail(s) + 0.6) * t] },
      );
      b.use(white);
      patch(
        b,
        40,
        1,
        (s, t) => [(s - 0.5) * 30 + smoothstep(0.75, 1, s) * 1.55, rail(s) + 0.22 * t, side * half(s) * 1.002],
        { flip: side < 0 },
      );
    }
    b.use(boards({ colour: [0.3, 0.26, 0.2], width: 0.14, wear: 0.6 }));
    patch(b, 30, 2, (s, t) => [(s - 0.5) * 30, rail(s) - 0.5, half(s) * 0.97 * (1 - 2 * t)]);
    b.use(white);
    box(b, [-11, 2, -2.8], [5.6, 4.7, 2.8]);
    box(b, [-8, 4.7, -2.5], [5.2, 7.1, 2.5]);
    box(b, [1.5, 7.1, -2.6], [5.4, 9.3, 2.6]);
    box(b, [1.2, 9.3, -2.9], [5.9, 9.5, 2.9]);
    box(b, [-11.4, 4.7, -3.2], [6.9, 4.85, 3.2]);
    box(b, [-8.4, 7.1, -3], [5.8, 7.25, 3]);
    b.use(dark);
    for (const z of [2.92, -2.92])
      for (let i = 0; i < 9; i++) ball(b, [-9.8 + i * 1.75, 3.6, z], [0.26, 0.26, 0.03], 12);
    for (const z of [2.52, -2.52])
      for (let i = 0; i < 7; i++) box(b, [-7 + i * 1.6, 5.5, z - 0.02], [-6 + i * 1.6, 6.5, z + 0.02]);
    for (let i = 0; i < 5; i++)
      quad(
        b,
        [5.42, 7.95, 2.3 - i * 0.95],
        [5.42, 7.95, 1.5 - i * 0.95],
        [5.42, 8.95, 1.5 - i * 0.95],
        [5.42, 8.95, 2.3 - i * 0.95],
      );
    for (const z of [2.62, -2.62])
      for (let i = 0; i < 3; i++) box(b, [1.8 + i * 1.2, 7.95, z - 0.02], [2.75 + i * 1.2, 8.95, z + 0.02]);
    b.use(plain([0.42, 0.06, 0.04], 0.03));
    b.at(place([-4.4, 7.1, 0], 0, [1.35, 1, 1]), () =>
      turned(
        b,
        [
          [1.05, 0],
          [0.95, 3.4],
        ],
        24,
      ),
    );
    b.use(plain([0.04, 0.04, 0.042]));
    b.at(place([-4.4, 7.1, 0], 0, [1.35, 1, 1]), () =>
      turned(
        b,
        [
          [0.96, 3.4],
          [0.94, 4.5],
          [0.8, 4.5],
          [0.78, 3.6],
        ],
        24,
      ),
    );
    b.use(plain([0.55, 0.5, 0.38]));
    tube(
      b,
      [
        [9.6, 3, 0],
        [9.3, 13, 0],
      ],
      0.16,
      8,
    );
    tube(
      b,
      [
        [-10.8, 4, 0],
        [-11.1, 11.5, 0],
      ],
      0.13,
      8,
    );
    b.use(white);
    for (let i = 0; i < 2; i++)
      b.at(place([-1.5 - i * 4.6, 7.6, 2.4]), () => ball(b, [0, 0.2, 0], [1.7, 0.5, 0.6], 16));
    // Passengers at the rail.
    for (let i = 0; i < 7; i++)
      person(
        b,
        place([-9.5 + i * 2.1 + ((i * 7) % 3) * 0.4, 4.85, 2.85], 0),
        {
          ...standing,
          hands: [
            [0.22, 1.02, 0.24],
            [-0.2, 1.02, 0.24],
          ],
        },
        {
          coat: [
            [0.05, 0.06, 0.08],
            [0.2, 0.18, 0.14],
            [0.1, 0.03, 0.03],
          ][i % 3] as [number, number, number],
          legs: [0.05, 0.05, 0.05],
          hem: 0.5,
          cap: [0.06, 0.06, 0.06],
        },
        0.05,
      );
  });
  const wire = (p: Vec, q: Vec, w = 0.03): void => {
    rig.push({ points: [moved(at, p), moved(at, q)], width: w, colour: [0.09, 0.09, 0.09] });
  };
  wire([9.3, 13, 0], [15.5, 4.6, 0]);
  wire([9.3, 13, 0], [-11.1, 11.5, 0]);
  for (const z of [-3.2, 3.2]) {
    wire([9.3, 12, 0], [6, 4.8, z]);
    for (const y of [5.3, 5.85]) wire([-11.2, y, z], [6.8, y, z], 0.045);
    for (let x = -11.2; x < 7; x += 1.5) wire([x, 4.85, z], [x, 5.85, z], 0.045);
  }
  return rig;
}

/** The landing stage at the right: planks on piles, a bollard, barrels. */
function stage(b: Builder): void {
  const wood = boards({ colour: [0.2, 0.18, 0.15], width: 0.2, wear: 0.85, gap: 0.02 });
  b.use(wood);
  box(b, [3.2, 1.3, -17], [14, 1.5, -2]);
  beam(b, [3.15, 1.36, -17], [3.15, 1.36, -2], 0.24, 0.3);
  const pile = (x: number, z: number, top: number): void => {
    b.use(boards({ colour: [0.14, 0.125, 0.105], width: 0.6, wear: 0.6 }), Math.abs(x * 7 + z) % 1);
    tube(
      b,
      [
        [x, -1, z],
        [x + 0.03, top * 0.6, z],
        [x + 0.02, top, z],
        [x + 0.02, top + 0.01, z],
      ],
      (t) => (t > 0.99 ? 0.01 : 0.165),
      14,
    );
  };
  for (const z of [-16.8, -13.4, -10, -6.6]) pile(3.05, z, 2.15 + 0.2 * Math.sin(z * 5));
  for (const [x, z, h] of [
    [-5, -9.4, 2.2],
    [-4.4, -9.9, 1.8],
    [-5.5, -10.2, 1.95],
    [-6.9, -21, 1.6],
    [-5.9, -33, 1.7],
  ] as const)
    pile(x, z, h);
  bollard(b, place([3.9, 1.5, -12.2]));
  coil(b, place([4.6, 1.5, -11.0]), 0.4, 10);
  for (const [x, z] of [
    [8, -13.6],
    [8.7, -13.9],
    [8.5, -13.0],
  ] as const)
    barrel(b, place([x, 1.5, z], x * 40), undefined, x % 1);
  b.use(wood);
  for (const z of [-16.9, -14.5]) beam(b, [7.4, 1.5, z], [7.4, 2.55, z], 0.1);
  person(b, place([9.4, 1.5, -12.5], -60), sitting, {
    coat: [0.1, 0.1, 0.11],
    legs: [0.06, 0.06, 0.065],
    cap: [0.07, 0.06, 0.05],
  });
  box(b, [9.1, 1.5, -12.8], [9.8, 1.94, -12.2]);
}

function perched(b: Builder, at: Vec): void {
  b.at(place(at, 35), () => {
    b.use(plain([0.62, 0.62, 0.6]));
    ball(b, [0, 0.2, 0], [0.17, 0.095, 0.09], 16);
    ball(b, [0.15, 0.3, 0], [0.06, 0.055, 0.05], 12);
    b.use(plain([0.2, 0.21, 0.22]));
    ball(b, [-0.07, 0.215, 0], [0.18, 0.075, 0.094], 14);
    b.use(plain([0.5, 0.32, 0.05]));
    tube(
      b,
      [
        [0.2, 0.3, 0],
        [0.27, 0.285, 0],
      ],
      (t) => 0.016 * (1 - 0.7 * t),
      6,
    );
    for (const z of [-0.03, 0.03])
      tube(
        b,
        [
          [0.01, 0, z],
          [0, 0.12, z],
        ],
        0.009,
        5,
      );
  });
}
