/** First light over the harbour: low sun behind layers of hills, haze, boats at their moorings on calm water. */
import { fishingBoat, rowingBoat } from "../drawing/boats.ts";
import { finish } from "../drawing/finish.ts";
import { gull } from "../drawing/gulls.ts";
import { town } from "../drawing/houses.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, ground, masonry, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, smoothstep } from "../drawing/noise.ts";
import { bending, person, standing } from "../drawing/people.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { beam, box, patch, tube, turned } from "../drawing/shapes.ts";
import { Sky, type CloudLayer } from "../drawing/sky.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(13, 5.2);

/** Thin bars of cloud low in the east, lit from below. */
const bars: CloudLayer = (dx, dy, dz, out, fine) => {
  if (dy > 0.5) return;
  const x = dx / (dy + 0.12);
  const z = dz / (dy + 0.12);
  const n = fbm2(x * 0.35 + 3.1, z * 1.5 + 7.7, fine ? 6 : 2);
  const cover = smoothstep(0.02, 0.62, n + 0.18 - Math.abs(dy - 0.16) * 1.6) * smoothstep(0.01, 0.06, dy);
  const near = Math.max(0, dx * sun[0] + dy * sun[1] + dz * sun[2]);
  const lit = 0.3 + 0.9 * near ** 14;
  const c = [0.62 * lit + 0.16, 0.36 * lit + 0.15, 0.22 * lit + 0.2];
  for (let k = 0; k < 3; k++) out[k] += (c[k] - out[k]) * cover * 0.62;
};

function ridge(b: Builder, z: number, high: number, seed: number, from: number, to: number): void {
  patch(b, 180, 14, (s, t) => {
    const x = from + (to - from) * s;
    const ends = smoothstep(0, 0.22, s) * smoothstep(0, 0.22, 1 - s);
    const h = high * ends * Math.max(0.02, 0.55 + 0.75 * fbm2(s * 4.2 + seed, seed, 6) + 0.25 * Math.sin(s * 5 + seed));
    const fall = Math.sin((1 - t) * 1.57);
    return [x, -2 + h * Math.sin(t * 1.57), z - 350 * (1 - fall) + 60 * fbm2(s * 9, t * 3 + seed, 4)];
  });
}

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(101);
  const lines: Line[] = [];
  b.use(water({ slope: 0.042, longest: 5, octaves: 7, body: [0.012, 0.03, 0.034], calm: 46, heading: 80 }));
  patch(b, 2, 2, (s, t) => [(s - 0.5) * 16000, 0, 40 - t * 9000]);
  b.use(ground([0.07, 0.075, 0.04], [0.12, 0.1, 0.07], 60));
  ridge(b, -5200, 520, 3.3, -5200, 5200);
  ridge(b, -3000, 300, 8.1, -900, 3600);
  ridge(b, -2300, 250, 5.6, -3400, 250);
  ridge(b, -1350, 96, 1.9, 260, 2300);
  // The headland with the town, left.
  const slope = (x: number, z: number): number => {
    const inland = smoothstep(-330, -760, z) * 70 + smoothstep(-30, -360, x) * 24;
    // The point runs out to the right and sinks into the sea there.
    const point = smoothstep(78 + 26 * fbm2(z / 90, 2.2, 3), -70, x + (z + 360) * 0.1);
    const shore = smoothstep(-338, -372, z);
    return shore * point * (3.4 + inland * (0.7 + 0.55 * fbm2(x / 160, z / 160, 4))) + point * 2 - 3;
  };
  patch(b, 150, 70, (s, t) => {
    const x = -640 + 760 * s;
    const z = -325 - 575 * t;
    return [x, slope(x, z), z];
  });
  const spots: [number, number][] = [];
  for (let row = 0; row < 6; row++)
    for (let i = 0; i < 15; i++) {
      const x = -24 - i * 15 - row * 14 + between(next, -4, 4);
      const z = -384 - row * 31 + between(next, -6, 6);
      if (next() > 0.22) spots.push([x, z]);
    }
  town(
    b,
    spots,
    slope,
    [
      [0.35, 0.08, 0.05],
      [0.5, 0.48, 0.42],
      [0.42, 0.28, 0.1],
      [0.16, 0.2, 0.22],
      [0.3, 0.3, 0.28],
    ],
    [
      [0.12, 0.07, 0.05],
      [0.09, 0.09, 0.1],
    ],
    18,
  );
  // Church with its spire.
  b.use(plain([0.5, 0.48, 0.44]));
  b.at(place([-112, slope(-112, -500), -500], 15), () => {
    box(b, [-6, 0, -12], [6, 9, 12]);
    box(b, [-3, 0, 12], [3, 19, 18]);
    b.use(plain([0.06, 0.075, 0.07]));
    patch(
      b,
      4,
      1,
      (s, t) => {
        const a = (s + 0.125) * Math.PI * 2;
        return [Math.cos(a) * 4.4 * (1 - t), 19 + t * 18, 15 + Math.sin(a) * 4.4 * (1 - t)];
      },
      { closed: true, flip: true },
    );
    patch(b, 2, 2, (s, t) => [(s - 0.5) * 13, 9 + 5 * (1 - Math.abs(s - 0.5) * 2), 12 - 24 * t]);
  });
  // The mole with its light, right.
  b.use(masonry([0.2, 0.19, 0.18], 0.8, 1.6));
  box(b, [92, -2, -402], [420, 3.1, -394]);
  b.use(plain([0.62, 0.6, 0.56]));
  b.at(place([99, 3, -398]), () => {
    turned(
      b,
      [
        [2.3, 0],
        [1.7, 8.5],
      ],
      20,
    );
    b.use(plain([0.4, 0.06, 0.04]));
    turned(
      b,
      [
        [2.3, 8.5],
        [2.3, 8.8],
        [1.1, 8.8],
        [1.1, 10.6],
        [1.4, 10.6],
        [0, 12],
      ],
      20,
    );
  });
  // Boats swinging to the last of the ebb.
  const moored: [number, number, number, number, number, Vec, Vec][] = [
    [-9.5, -33, 164, 10.5, 1, [0.05, 0.13, 0.2], [0.55, 0.5, 0.4]],
    [17, -58, 158, 12, 2, [0.3, 0.045, 0.03], [0.6, 0.56, 0.48]],
    [-30, -82, 170, 11, 3, [0.45, 0.43, 0.38], [0.08, 0.18, 0.22]],
    [3, -104, 152, 9.5, 4, [0.06, 0.13, 0.08], [0.5, 0.42, 0.2]],
    [44, -128, 160, 12, 5, [0.05, 0.08, 0.14], [0.5, 0.48, 0.44]],
    [-58, -150, 166, 11, 6, [0.35, 0.2, 0.06], [0.4, 0.4, 0.4]],
    [-12, -188, 149, 12, 7, [0.4, 0.38, 0.35], [0.3, 0.05, 0.04]],
    [26, -215, 155, 11, 8, [0.06, 0.1, 0.16], [0.4, 0.4, 0.4]],
    [-76, -232, 20, 13, 9, [0.3, 0.06, 0.05], [0.4, 0.4, 0.4]],
  ];
  for (const [x, z, turn, long, own, c, stripe] of moored)
    lines.push(
      ...fishingBoat(b, place([x, 0.02, z], turn), long, { hull: c, stripe, house: [0.5, 0.46, 0.38] }, own / 10),
    );
  rowingBoat(b, place([0.6, 0.02, -17.5], 128), [0.42, 0.39, 0.33], true);
  const oilskin = { coat: [0.4, 0.27, 0.05], legs: [0.09, 0.09, 0.1], cap: [0.3, 0.2, 0.05] } as const;
  person(b, place([15.2, 1.15, -58.6], 100), bending, oilskin, 0.03);
  person(b, place([18.9, 1.15, -57.8], -120), standing, { ...oilskin, coat: [0.08, 0.1, 0.14] }, 0.03);
  person(b, place([-8.6, 1.0, -33.1], 40), standing, { ...oilskin, coat: [0.3, 0.08, 0.05] }, 0.025);
  b.use(plain([0.5, 0.12, 0.03], 0.03));
  for (const [x, z] of [
    [-3.4, -29],
    [21, -49],
    [9, -36],
  ])
    b.at(place([x, 0.05, z]), () =>
      turned(
        b,
        [
          [0, -0.25],
          [0.24, -0.12],
          [0.28, 0.05],
          [0.2, 0.24],
          [0.05, 0.3],
          [0, 0.31],
        ],
        14,
      ),
    );
  // Piles of the old landing stage, near right.
  b.use(boards({ colour: [0.15, 0.12, 0.09], width: 0.5, wear: 0.6 }));
  const piles: [number, number, number][] = [
    [3.9, -13.2, 1.75],
    [5.5, -14.6, 1.6],
    [4.4, -10.3, 1.9],
    [6.4, -11.6, 1.7],
  ];
  for (const [x, z, h] of piles)
    tube(
      b,
      [
        [x, -1, z],
        [x + 0.06, h * 0.5, z],
        [x + 0.03, h, z + 0.02],
        [x + 0.03, h + 0.01, z + 0.02],
      ],
      (t) => (t > 0.99 ? 0.01 : 0.17 - 0.02 * t),
      12,
    );
  b.use(boards({ colour: [0.18, 0.15, 0.11], width: 0.2, wear: 0.8 }));
  beam(b, [3.5, 1.25, -13.25], [6.2, 1.2, -14.75], 0.16);
  beam(b, [4.2, 1.3, -10], [5.6, 1.3, -14.9], 0.16);
  for (let i = 0; i < 8; i++)
    lines.push(
      ...gull(next, [between(next, -30, 12), between(next, 9, 30), between(next, -120, -70)], [0.1, 0.085, 0.075]),
    );
  const sky = new Sky({
    sun,
    zenith: [0.11, 0.19, 0.36],
    horizon: [0.62, 0.43, 0.32],
    clear: 4.2,
    glow: [1.25, 0.62, 0.2],
    tight: 9,
    band: [0.42, 0.2, 0.07],
    ground: [0.05, 0.06, 0.07],
    clouds: [bars],
    disc: [90, 60, 30],
  });
  const world: World = {
    camera: { eye: [0, 3.3, 0], turn: 1, focal: 42, rise: 1.2 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.05, 0.6, 0.27] },
    air: {
      thickness: [0.00042, 0.0005, 0.00062],
      height: 130,
      colour: [0.2, 0.21, 0.26],
      glow: [1.1, 0.58, 0.23],
      tight: 4,
      sun,
    },
    mirrorRays: 2,
    rays: 3,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.05, falloff: 0.45 });
}
