/** Dusk after rain: a street down to the harbour, lamps and lit windows, their light long on wet cobbles. */
import { finish } from "../drawing/finish.ts";
import { house } from "../drawing/houses.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, cobbles, plain, plaster, roof } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, smoothstep } from "../drawing/noise.ts";
import { person, standing, walking, type Pose } from "../drawing/people.ts";
import { barrel, streetLamp } from "../drawing/props.ts";
import { hash } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { box, hang, patch, tube } from "../drawing/shapes.ts";
import { Sky, type CloudLayer, type Light } from "../drawing/sky.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Lamp, Picture, World } from "../drawing/world.ts";

const dusk = direction(18, -3);

const wisps: CloudLayer = (dx, dy, dz, out, fine) => {
  const x = dx / (dy + 0.2);
  const z = dz / (dy + 0.2);
  const n = fbm2(x * 0.7 + 1.3, z * 1.9 + 4.4, fine ? 6 : 2);
  const cover = smoothstep(0.0, 0.7, n + 0.2) * 0.75;
  const low = Math.exp(-dy * 5);
  const c = [0.1 + 0.3 * low, 0.095 + 0.13 * low, 0.13 + 0.07 * low];
  for (let k = 0; k < 3; k++) out[k] += (c[k] - out[k]) * cover;
};

const warm: Light = [1.9, 1.05, 0.4];

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const lines: Line[] = [];
  // The street falls towards the harbour.
  const floor = (z: number): number => (z < 0 ? z * 0.045 - Math.max(0, -z - 45) * 0.02 : 0);
  b.use(cobbles({ colour: [0.16, 0.15, 0.145], size: 0.16, wet: 1 }));
  patch(b, 24, 80, (s, t) => {
    const x = (s - 0.5) * 30;
    const z = 6 - t * 96;
    // A gutter runs along the middle.
    return [x, floor(z) - 0.05 * Math.exp(-(x * x) / 0.5), z];
  });
  const colours: Light[] = [
    [0.3, 0.06, 0.04],
    [0.45, 0.42, 0.36],
    [0.14, 0.2, 0.24],
    [0.42, 0.27, 0.1],
    [0.28, 0.3, 0.22],
    [0.4, 0.38, 0.34],
  ];
  const row = (side: number, start: number, seed: number): void => {
    let z = start;
    for (let i = 0; i < 8; i++) {
      const w = 6.4 + 2.6 * hash(seed + i);
      const c = colours[Math.floor(hash(seed + i * 3) * 6)];
      const wall =
        i % 3 === 1 ? plaster(c, 0.5, floor(z)) : boards({ colour: c, width: 0.17, level: i % 2 === 0, wear: 0.35 });
      const setback = 0.5 * hash(seed + i * 5);
      const at =
        side < 0
          ? place([-4.6 - setback, floor(z - w / 2), z - w / 2], 90)
          : place([4.8 + setback, floor(z - w / 2), z - w / 2], -90);
      house(b, at, {
        width: w,
        depth: 8,
        eaves: 4.9 + 0.9 * hash(seed + i * 7),
        rise: 3.1,
        gable: hash(seed + i * 9) > 0.4,
        wall,
        roof: roof([0.12, 0.1, 0.1]),
        storeys: 2,
        bays: w > 8 ? 3 : 2,
        door: [0.12, 0.07, 0.05],
        detail: 1,
        own: hash(seed + i * 11),
        trim: [0.5, 0.48, 0.44],
        lit: (n) => {
          const r = hash(seed * 31 + i * 17 + n * 7);
          return r > 0.5 ? [warm[0] * (0.5 + r), warm[1] * (0.45 + r), warm[2] * (0.5 + r)] : undefined;
        },
      });
      z -= w + (i === 2 ? 1.6 : 0.12);
    }
  };
  row(-1, 7, 41);
  row(1, 3.4, 97);
  const lamps: Lamp[] = [];
  const glass = (s: { er: number; eg: number; eb: number; r: number; g: number; b: number }): void => {
    s.r = s.g = s.b = 0.5;
    s.er = 11;
    s.eg = 6.6;
    s.eb = 2.7;
  };
  for (const [x, z] of [
    [-3.5, -7.5],
    [3.7, -20],
    [-3.6, -34],
    [3.6, -52],
  ] as const) {
    streetLamp(b, place([x, floor(z), z]), glass);
    lamps.push({ at: [x, floor(z) + 3.56, z], radius: 0.16, light: [7.2, 4.2, 1.65] });
  }
  // A woman under an umbrella walks down; two stand talking by a door; a cat of a barrel by the wall.
  const under: Pose = {
    ...walking,
    hands: [
      [0.24, 0.84, 0.16],
      [-0.12, 1.28, 0.26],
    ],
  };
  const walker = place([0.75, floor(-10.4), -10.4], 184);
  person(
    b,
    walker,
    under,
    { coat: [0.26, 0.045, 0.035], legs: [0.03, 0.03, 0.035], hem: 0.4, hair: [0.06, 0.04, 0.03] },
    0.02,
  );
  b.at(walker, () => {
    b.use(plain([0.035, 0.035, 0.042], 0.04, 0.3));
    patch(
      b,
      24,
      6,
      (s, t) => {
        const a = s * 6.2832;
        const scallop = 1 - 0.05 * Math.abs(Math.sin(a * 4)) * t;
        return [-0.1 + Math.cos(a) * 0.56 * t * scallop, 2.14 - 0.27 * t * t, 0.24 + Math.sin(a) * 0.56 * t * scallop];
      },
      { closed: true, flip: true },
    );
    tube(
      b,
      [
        [-0.12, 1.22, 0.26],
        [-0.1, 2.16, 0.24],
      ],
      0.012,
      5,
    );
  });
  person(b, place([-3.0, floor(-19), -19], 60), standing, {
    coat: [0.07, 0.08, 0.1],
    legs: [0.04, 0.04, 0.045],
    cap: [0.05, 0.05, 0.05],
  });
  person(b, place([-2.3, floor(-19.3), -19.3], -110), standing, {
    coat: [0.12, 0.1, 0.08],
    legs: [0.04, 0.04, 0.045],
    cap: [0.06, 0.05, 0.04],
    hem: 0.5,
  });
  person(
    b,
    place([1.8, floor(-38), -38], 10),
    walking,
    { coat: [0.05, 0.06, 0.08], legs: [0.03, 0.03, 0.03], cap: [0.05, 0.05, 0.05] },
    0.035,
  );
  barrel(b, place([3.75, floor(-9), -9], 30));
  barrel(b, place([3.85, floor(-9.8), -9.8], 80));
  b.use(plain([0.09, 0.07, 0.05]));
  box(b, [-3.9, floor(-13), -14], [-3.4, floor(-13) + 0.45, -12.4]);
  // The harbour at the foot of the street: masts against the last light, a hill beyond.
  b.use(water({ slope: 0.05, longest: 5, body: [0.008, 0.015, 0.02] }));
  patch(b, 2, 2, (s, t) => [(s - 0.5) * 2000, -6.4, -88 - t * 1200]);
  b.use(plain([0.05, 0.055, 0.065]));
  patch(b, 60, 5, (s, t) => [(s - 0.5) * 900, -8 + t * (46 + 26 * fbm2(s * 5 + 3, 1.2, 5)), -620 - 40 * t]);
  b.use(plain([0.05, 0.04, 0.035]));
  for (const [x, h] of [
    [-2.6, 11],
    [0.9, 13.5],
    [3.0, 9.5],
  ] as const) {
    const z = -94 - x;
    tube(
      b,
      [
        [x, -9, z],
        [x, -5 + h, z],
      ],
      0.12,
      6,
    );
    const head: Vec = [x, -5.2 + h, z];
    for (const d of [-2.6, 2.8])
      lines.push({ points: [head, [x + d, -4, z]], width: 0.03, colour: [0.03, 0.03, 0.035] });
    lines.push({
      points: [
        [x, -3, z],
        [x + 2.6, -0.4 + h * 0.1, z],
      ],
      width: 0.1,
      colour: [0.03, 0.03, 0.035],
    });
  }
  // Wires across the street carry a lamp's shade no more; they sag.
  for (const z of [-15, -29])
    lines.push({
      points: hang([-4.8, floor(z) + 6, z], [4.9, floor(z) + 6.2, z - 1], 0.5, 16),
      width: 0.018,
      colour: [0.02, 0.02, 0.022],
    });
  const sky = new Sky({
    sun: dusk,
    zenith: [0.035, 0.062, 0.135],
    horizon: [0.2, 0.19, 0.2],
    clear: 3.2,
    glow: [0.3, 0.14, 0.05],
    tight: 2.4,
    band: [0.42, 0.19, 0.07],
    ground: [0.03, 0.03, 0.035],
    clouds: [wisps],
  });
  const world: World = {
    camera: { eye: [-0.5, 1.62, 3.5], turn: 2, focal: 33, rise: 1.6 },
    mesh: b.done(),
    sky,
    lamps,
    air: { thickness: [0.006, 0.0062, 0.0068], height: 40, colour: [0.12, 0.105, 0.11] },
    rays: 4,
    mirrorRays: 2,
    open: 0.35,
    exposure: 0.45,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.1, falloff: 0.5 });
}
