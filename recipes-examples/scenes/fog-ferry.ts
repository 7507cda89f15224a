/** Fog on the water: the ferry comes in, its red hull the only colour; people wait at the end of the landing stage. */
import { ferry } from "../drawing/ferry.ts";
import { finish } from "../drawing/finish.ts";
import { gull } from "../drawing/gulls.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { noise2 } from "../drawing/noise.ts";
import { person, type Pose, sitting, standing } from "../drawing/people.ts";
import { barrel, bollard, coil } from "../drawing/props.ts";
import { drawPuffs, type Puff } from "../drawing/puffs.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { ball, beam, box, patch, tube } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { direction, moved, place, type Vec } from "../drawing/vector.ts";
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
