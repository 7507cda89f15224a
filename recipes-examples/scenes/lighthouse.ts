/** The light on the mole under heaped clouds: a fresh breeze, waves breaking on the boulders, walkers by the rail. */
import { cumulus } from "../drawing/clouds.ts";
import { finish } from "../drawing/finish.ts";
import { gull } from "../drawing/gulls.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { masonry, pane, plain } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, smoothstep } from "../drawing/noise.ts";
import { person, standing, walking } from "../drawing/people.ts";
import { drawPuffs, type Puff } from "../drawing/puffs.ts";
import { between, random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { boulder, granite } from "../drawing/rocks.ts";
import { sea, seaWater, swell } from "../drawing/sea.ts";
import { ball, box, patch, tube, turned } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { paint } from "../drawing/surface.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(-112, 36);
const eye: Vec = [0, 4.6, 0];

/** The mole's middle line: from the right foreground out to the light. */
const along = (t: number): Vec => [9 - 24 * t, 0, -6 - 62 * t];

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(202);
  const lines: Line[] = [];
  const out: Vec = [24 / 66.5, 0, 62 / 66.5];
  const level = swell({ height: 1.5, long: 17, heading: 105, rough: 0.55 });
  // How near a place is to the seaward foot of the mole.
  const surf = (x: number, z: number): number => {
    const t = Math.max(0, Math.min(1, ((9 - x) * 24 + (-6 - z) * 62) / (24 * 24 + 62 * 62)));
    const p = along(t);
    const d = Math.hypot(x - p[0], z - p[2]);
    const n = fbm2(x * 0.21, z * 0.21, 4);
    return smoothstep(11.5 + 5 * n, 5.4, d) * 0.95;
  };
  sea(
    b,
    seaWater({
      body: [0.012, 0.05, 0.058],
      crest: [0.02, 0.1, 0.095],
      breaks: 0.75,
      slope: 0.13,
      surf,
      streaks: 0.55,
      heading: 15,
    }),
    eye,
    -8,
    40,
    3,
    5000,
    level,
    220,
    280,
  );
  // The mole: granite blocks, a parapet on the weather side.
  const side: Vec = [out[2], 0, -out[0]];
  const at = (t: number, s: number, y: number): Vec => {
    const p = along(t);
    return [p[0] + side[0] * s, y, p[2] + side[2] * s];
  };
  b.use(masonry([0.36, 0.345, 0.315], 0.42, 0.92));
  patch(b, 40, 1, (s, t) => at(s, -3.0 - 0.25 * (1 - t), -1 + 3.6 * t), {
    flip: true,
    uv: (s, t) => [s * 66, t * 3.6],
  });
  patch(b, 40, 1, (s, t) => at(s, -3 + 6 * t, 2.6), { flip: true, uv: (s, t) => [t * 6, s * 66] });
  patch(b, 40, 1, (s, t) => at(s, 3 + 0.25 * t, 2.6 - 3.6 * t), { flip: true, uv: (s, t) => [s * 66, -t * 3.6] });
  b.use(masonry([0.38, 0.365, 0.335], 0.35, 0.85));
  patch(b, 40, 1, (s, t) => at(s, -3, 2.6 + 1.05 * t), { flip: true, uv: (s, t) => [s * 66, t * 1.05] });
  patch(b, 40, 1, (s, t) => at(s, -3 + 0.6 * t, 3.65), { flip: true, uv: (s, t) => [t * 0.6, s * 66] });
  patch(b, 40, 1, (s, t) => at(s, -2.4, 3.65 - 1.05 * t), { flip: true, uv: (s, t) => [s * 66, -t * 1.05] });
  b.use(granite([0.2, 0.19, 0.175], 1.0, 0.45));
  for (let i = 0; i < 150; i++) {
    const t = between(next, -0.06, 1.05);
    const s = -3.4 - 4.4 * next() ** 1.4;
    const p = at(t, s, 0);
    const r = between(next, 0.7, 1.6);
    boulder(
      b,
      [p[0], 1.25 + (s + 3.4) * 0.42 + between(next, -0.3, 0.3), p[2]],
      [r, r * between(next, 0.6, 0.95), r * between(next, 0.8, 1.2)],
      i + 1,
      t < 0.3 ? 26 : 14,
    );
  }
  lighthouse(b, at(1.0, 0.6, 2.6));
  // Walkers, and one who leans on the parapet.
  const heading = (Math.atan2(-24, -62) * 180) / Math.PI;
  person(b, place(at(0.43, 0.3, 2.6), heading), walking, {
    coat: [0.5, 0.09, 0.05],
    legs: [0.05, 0.06, 0.1],
    hem: 0.6,
    hair: [0.1, 0.06, 0.03],
  });
  person(b, place(at(0.44, 1.0, 2.6), heading), walking, {
    coat: [0.06, 0.09, 0.15],
    legs: [0.07, 0.06, 0.06],
    cap: [0.05, 0.05, 0.05],
  });
  person(
    b,
    place(at(0.7, -1.7, 2.6), heading + 70),
    standing,
    { coat: [0.55, 0.4, 0.08], legs: [0.06, 0.06, 0.07], cap: [0.1, 0.1, 0.1] },
    0.035,
  );
  sail(b, [-74, 0, -330], lines);
  b.use(plain([0.12, 0.14, 0.1]));
  patch(b, 120, 6, (s, t) => [
    -300 + 2300 * s,
    -3 + 95 * t * smoothstep(0, 0.35, s) * (0.5 + 0.5 * fbm2(s * 6, 4.4, 5)),
    -3600 - 300 * t,
  ]);
  for (let i = 0; i < 6; i++)
    lines.push(
      ...gull(next, [between(next, -34, -17), between(next, 8, 22), between(next, -60, -34)], [0.75, 0.76, 0.78], 1.1),
    );
  const sky = new Sky({
    sun,
    zenith: [0.075, 0.17, 0.42],
    horizon: [0.5, 0.63, 0.78],
    clear: 4.5,
    glow: [0.4, 0.4, 0.36],
    tight: 5,
    ground: [0.06, 0.1, 0.12],
    clouds: [
      cumulus({
        sun,
        lit: [1.18, 1.12, 1.02],
        shade: [0.3, 0.35, 0.44],
        base: 900,
        thick: 1700,
        size: 2300,
        cover: -0.13,
        seed: 11.4,
        from: -42,
        to: 30,
        top: 36,
        haze: [0.62, 0.72, 0.82],
        far: 17000,
        columns: Math.ceil(width * 0.31),
      }),
    ],
  });
  const world: World = {
    camera: { eye, turn: -6, focal: 33, rise: 3.6 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.35, 1.22, 1.02] },
    air: { thickness: [0.00012, 0.00016, 0.00022], height: 200, colour: [0.5, 0.62, 0.76] },
    rays: 3,
    open: 0.6,
    mirrorRays: 0,
    exposure: -0.25,
  };
  const picture = render(world, width, height);
  const puffs: Puff[] = [];
  // Water thrown up where waves have just met the boulders: dense low down, drops above, drifting inland.
  for (const [t, s, h] of [
    [0.2, -8.6, 2.4],
    [0.47, -8.2, 3.6],
    [0.78, -7.6, 3],
  ])
    for (let i = 0; i < 90; i++) {
      const up = next() ** 0.8;
      const a = between(next, -1, 1);
      const p = at(t + a * 0.03 * (0.5 + up), s + 1.5 * up + between(next, -0.5, 0.5), 0);
      const k = 0.8 + 0.1 * next() - 0.12 * up;
      puffs.push({
        at: [p[0], 0.2 + h * up * (1 - 0.35 * a * a), p[2]],
        radius: between(next, 0.12, 0.62) * (1.2 - 0.5 * up),
        colour: [k, k * 1.01, k * 1.02],
        dense: 0.5 - 0.3 * up,
        ragged: 1.3,
        seed: i + t * 100,
      });
    }
  drawPuffs(picture, world, puffs);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.03, falloff: 0.45 });
}

/** Round tower, white with a red band, gallery, lantern and cap. */
function lighthouse(b: Builder, at: Vec): void {
  b.at(place(at), () => {
    b.use(masonry([0.34, 0.33, 0.3], 0.5, 1.1));
    turned(
      b,
      [
        [3.1, -2.6],
        [3, 0.9],
        [2.9, 1],
        [2.4, 1.05],
      ],
      32,
    );
    b.use((s) => {
      const v = s.y;
      const n = 1 + 0.06 * fbm2(s.u * 0.8, s.v * 0.3, 4, s.foot) + 0.05 * fbm2(s.u * 6, s.v * 0.5, 3, s.foot * 6);
      const red = smoothstep(-0.02, 0.02, v - 8.2) * smoothstep(0.02, -0.02, v - 11.4);
      paint(s, (0.78 - 0.36 * red) * n, (0.76 - 0.69 * red) * n, (0.72 - 0.67 * red) * n);
      s.shine = 0.03;
      s.rough = 0.45;
    });
    turned(
      b,
      [
        [2.35, 1.05],
        [2.25, 2.5],
        [1.75, 12],
      ],
      40,
    );
    b.use(plain([0.5, 0.06, 0.04], 0.04, 0.35));
    turned(
      b,
      [
        [1.75, 12],
        [2.35, 12.35],
        [2.4, 12.55],
        [1.3, 12.6],
      ],
      32,
    );
    turned(
      b,
      [
        [1.3, 12.6],
        [1.3, 13.4],
      ],
      24,
    );
    b.use(pane());
    turned(
      b,
      [
        [1.22, 13.4],
        [1.22, 15.1],
      ],
      16,
    );
    b.use(plain([0.5, 0.06, 0.04], 0.04, 0.35));
    for (let i = 0; i < 16; i++) {
      const a = (i / 16) * 6.2832;
      tube(
        b,
        [
          [Math.cos(a) * 1.24, 13.4, Math.sin(a) * 1.24],
          [Math.cos(a) * 1.24, 15.1, Math.sin(a) * 1.24],
        ],
        0.045,
        5,
      );
    }
    turned(
      b,
      [
        [1.5, 15.05],
        [1.5, 15.2],
        [1.1, 15.8],
        [0.5, 16.3],
        [0.15, 16.5],
        [0, 16.55],
      ],
      24,
    );
    ball(b, [0, 16.75, 0], [0.24, 0.24, 0.24]);
    for (let i = 0; i < 18; i++) {
      const a = (i / 18) * 6.2832;
      tube(
        b,
        [
          [Math.cos(a) * 2.3, 12.5, Math.sin(a) * 2.3],
          [Math.cos(a) * 2.3, 13.5, Math.sin(a) * 2.3],
        ],
        0.035,
        5,
      );
    }
    for (const y of [13, 13.5])
      patch(
        b,
        40,
        6,
        (s, t) => [
          Math.cos(s * 6.2832) * (2.3 + 0.035 * Math.cos(t * 6.2832)),
          y + 0.035 * Math.sin(t * 6.2832),
          Math.sin(s * 6.2832) * (2.3 + 0.035 * Math.cos(t * 6.2832)),
        ],
        { closed: true },
      );
    b.use(pane());
    for (const [y, a] of [
      [4, 60],
      [7, 25],
      [10.4, 60],
    ])
      b.at(place([0, y, 0], a - 90), () => box(b, [1.7, -0.45, -0.28], [2.28 - y * 0.045, 0.45, 0.28]));
    b.use(plain([0.1, 0.16, 0.14], 0.04, 0.3));
    b.at(place([0, 1.05, 0], -48), () => box(b, [2.1, 0, -0.5], [2.36, 2.1, 0.5]));
  });
}

/** A small sailing boat far off. */
function sail(b: Builder, at: Vec, lines: Line[]): void {
  b.at(place(at, 30), () => {
    b.use(plain([0.36, 0.08, 0.05]));
    box(b, [-3.4, -0.2, -0.9], [3.6, 0.8, 0.9]);
    b.use(plain([0.46, 0.2, 0.1]));
    patch(b, 8, 10, (s, t) => [-3.2 * (1 - t) * s + 0.4, 1.2 + 8.2 * t, 0.7 * Math.sin(s * 3.1) * (1 - t)]);
    patch(b, 6, 8, (s, t) => [0.6 + 2.8 * (1 - t) * s, 1 + 6.6 * t, 0.5 * Math.sin(s * 3.1) * (1 - t)], { flip: true });
  });
  lines.push({
    points: [
      [at[0] + 0.35, 0.8, at[2]],
      [at[0] + 0.35, 9.8, at[2]],
    ],
    width: 0.12,
    colour: [0.2, 0.13, 0.07],
  });
}
