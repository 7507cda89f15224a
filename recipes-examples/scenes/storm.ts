/** Black and white: a gale at the breakwater. A sea breaks over the head of the mole; one man holds on to the rail. */
import { finish } from "../drawing/finish.ts";
import { gull } from "../drawing/gulls.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { masonry, pane, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, smoothstep } from "../drawing/noise.ts";
import { person, type Pose } from "../drawing/people.ts";
import { drawPuffs, type Puff } from "../drawing/puffs.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { boulder, granite } from "../drawing/rocks.ts";
import { sea, seaWater, swell } from "../drawing/sea.ts";
import { box, turned } from "../drawing/shapes.ts";
import { Sky, type CloudLayer } from "../drawing/sky.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(38, 24);

/** Torn grey cloud, a brighter rent above the horizon. */
const rack: CloudLayer = (dx, dy, dz, out, fine) => {
  const x = dx / (dy + 0.14);
  const z = dz / (dy + 0.14);
  const n = fbm2(x * 0.8 + 8.1, z * 0.95 + 2.2, fine ? 7 : 3, 0, 0.58);
  const rent = Math.exp(-(((dy - 0.1) / 0.07) ** 2)) * smoothstep(-0.5, 0.9, dx);
  const side = 0.45 + 0.55 * smoothstep(-0.6, 0.7, dx);
  const k = 0.1 + 0.5 * smoothstep(-0.6, 0.65, n) * side + 0.42 * rent;
  for (let c = 0; c < 3; c++) out[c] += (k - out[c]) * 0.94;
};

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(1101);
  const lines: Line[] = [];
  const eye: Vec = [0, 5.2, 0];
  const level = swell({ height: 4.2, long: 34, heading: 118, rough: 0.95 });
  const surf = (x: number, z: number): number =>
    smoothstep(9 + 4 * fbm2(x * 0.2, z * 0.2, 3), 3, Math.max(Math.abs(z + 34) - 4, x + 0 - 24 > 0 ? 99 : -3 - x)) *
    0.9;
  sea(
    b,
    seaWater({
      body: [0.05, 0.055, 0.058],
      crest: [0.09, 0.1, 0.1],
      breaks: 1.55,
      slope: 0.16,
      surf,
      streaks: 0.9,
      heading: 30,
    }),
    eye,
    0,
    40,
    4,
    3000,
    level,
    220,
    260,
  );
  b.use(masonry([0.22, 0.22, 0.21], 0.7, 1.5));
  box(b, [-3, -3, -38], [70, 3.4, -30]);
  box(b, [-3.2, 3.4, -38.2], [70, 4.6, -37.2]);
  b.use(granite([0.16, 0.155, 0.15], 2.5, 0.6));
  for (let i = 0; i < 60; i++) {
    const r = between(next, 0.9, 2);
    boulder(
      b,
      [between(next, -8, 34), between(next, -0.6, 1), -29 + between(next, -0.6, 3)],
      [r, r * 0.8, r],
      i + 300,
      16,
    );
  }
  beacon(b, [1.5, 3.4, -34]);
  const hold: Pose = {
    hands: [
      [0.24, 1.05, 0.34],
      [-0.16, 1.1, 0.36],
    ],
    feet: [
      [0.14, 0.06, -0.16],
      [-0.16, 0.06, 0.18],
    ],
    chest: [0, 1.33, 0.14],
    hips: [0, 0.86, -0.04],
    head: [0, 0.22, 0.09],
  };
  person(b, place([9.6, 3.4, -31.2], -60), hold, {
    coat: [0.06, 0.06, 0.06],
    legs: [0.05, 0.05, 0.05],
    cap: [0.05, 0.05, 0.05],
    hem: 0.5,
    bulk: 0.9,
  });
  for (let x = 3; x < 40; x += 2.6) {
    lines.push({
      points: [
        [x, 3.4, -30.2],
        [x, 4.55, -30.2],
      ],
      width: 0.07,
      colour: [0.05, 0.05, 0.05],
    });
    for (const y of [4, 4.5])
      lines.push({
        points: [
          [x, y, -30.2],
          [x + 2.6, y, -30.2],
        ],
        width: 0.045,
        colour: [0.05, 0.05, 0.05],
      });
  }
  for (let i = 0; i < 5; i++)
    lines.push(
      ...gull(next, [between(next, -26, 4), between(next, 10, 19), between(next, -70, -44)], [0.5, 0.5, 0.5], 1.1),
    );
  const sky = new Sky({
    sun,
    zenith: [0.2, 0.2, 0.2],
    horizon: [0.24, 0.24, 0.24],
    clear: 3,
    glow: [0.3, 0.3, 0.3],
    tight: 3,
    ground: [0.2, 0.2, 0.2],
    clouds: [rack],
  });
  const world: World = {
    camera: { eye, turn: 2, focal: 46, rise: 2.2, roll: -0.7 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [0.5, 0.5, 0.5], size: 0.5 },
    air: { thickness: [0.0022, 0.0022, 0.0022], height: 40, colour: [0.2, 0.2, 0.2] },
    rays: 3,
    mirrorRays: 0,
    open: 0.6,
  };
  const picture = render(world, width, height);
  const puffs: Puff[] = [];
  // The sea that has just broken: a fan of thrown water, dense low down, torn to drops at its rim and blown to the right.
  for (let i = 0; i < 420; i++) {
    const a = between(next, -1.15, 0.9);
    const up = Math.pow(next(), 0.7);
    // Jets: some directions are thrown farther than others.
    const jet = 0.72 + 0.5 * Math.abs(fbm2(a * 4.2 + 3, 1.7, 3));
    const reach = 13.5 * up * (1 - 0.3 * a * a) * jet;
    const x = -4 + Math.sin(a) * reach * 0.8 + 2.6 * up * up;
    const k = 0.66 + 0.3 * next() * (1 - up) - 0.1 * up + 0.1 * Math.max(0, a);
    puffs.push({
      at: [x, 0.4 + Math.cos(a) * reach, -36 + between(next, -3, 3.5)],
      radius: between(next, 0.25, 1.5) * (1.25 - 0.7 * up),
      colour: [k, k, k],
      dense: 0.66 - 0.42 * up,
      ragged: 1 + up * 0.8,
      seed: i,
    });
  }
  for (let i = 0; i < 46; i++)
    puffs.push({
      at: [between(next, -4, 30), between(next, 3, 6) + 0.1, between(next, -36, -30)],
      radius: between(next, 0.8, 2.6),
      colour: [0.6, 0.6, 0.6],
      dense: 0.15,
      ragged: 0.9,
      seed: i + 400,
    });
  drawPuffs(picture, world, puffs);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.06, falloff: 0.5 });
}

function beacon(b: Builder, at: Vec): void {
  b.at(place(at), () => {
    b.use(plain([0.6, 0.6, 0.6], 0.03));
    turned(
      b,
      [
        [1.8, 0],
        [1.7, 0.6],
        [1.3, 0.7],
        [1.05, 6.2],
      ],
      28,
    );
    b.use(plain([0.1, 0.1, 0.1], 0.04));
    turned(
      b,
      [
        [1.05, 6.2],
        [1.5, 6.45],
        [1.5, 6.6],
        [0.8, 6.65],
      ],
      24,
    );
    b.use(pane());
    turned(
      b,
      [
        [0.72, 6.65],
        [0.72, 7.7],
      ],
      12,
    );
    b.use(plain([0.1, 0.1, 0.1], 0.04));
    turned(
      b,
      [
        [0.9, 7.7],
        [0.7, 8.2],
        [0.1, 8.6],
        [0, 8.7],
      ],
      20,
    );
  });
}
