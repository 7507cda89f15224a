/** Painted houses on the quay in late afternoon: side light, long shadows, nets, barrels, people about their work. */
import { cumulus } from "../drawing/clouds.ts";
import { finish } from "../drawing/finish.ts";
import { house } from "../drawing/houses.ts";
import { drawLines, type Line } from "../drawing/lines.ts";
import { boards, cobbles, ground, masonry, roof } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2 } from "../drawing/noise.ts";
import { bending, carrying, person, sitting, standing, walking } from "../drawing/people.ts";
import { barrel, bollard, coil, crate, netHeap, netRack } from "../drawing/props.ts";
import { random } from "../drawing/random.ts";
import { render } from "../drawing/render.ts";
import { box, patch } from "../drawing/shapes.ts";
import { Sky, type Light } from "../drawing/sky.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(-110, 25);

const walls: [Light, boolean, number, number, number, boolean][] = [
  [[0.42, 0.07, 0.04], true, 7.2, 5.4, 3.6, true],
  [[0.62, 0.4, 0.13], false, 8.2, 5.9, 3.0, false],
  [[0.68, 0.67, 0.62], true, 6.4, 5.2, 3.4, true],
  [[0.16, 0.29, 0.36], true, 7.0, 6.2, 3.4, true],
  [[0.5, 0.13, 0.06], false, 9.0, 5.0, 3.1, false],
  [[0.3, 0.36, 0.22], true, 6.6, 5.6, 3.5, true],
  [[0.66, 0.52, 0.3], true, 7.4, 5.3, 3.3, true],
  [[0.64, 0.63, 0.6], false, 8.4, 5.8, 3.1, false],
  [[0.36, 0.06, 0.04], true, 7.0, 5.3, 3.4, true],
];

const doors: readonly Light[] = [
  [0.06, 0.16, 0.14],
  [0.32, 0.08, 0.04],
  [0.07, 0.1, 0.2],
];

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  const next = random(303);
  const lines: Line[] = [];
  b.use(cobbles({ colour: [0.25, 0.235, 0.215], size: 0.17 }));
  patch(b, 2, 2, (s, t) => [-60 + 160 * s, 0, 30 - 70 * t]);
  // The kerb of the quay, near left, and the hill behind the roofs.
  b.use(masonry([0.27, 0.26, 0.24], 0.5, 1.4));
  box(b, [-60, -1.5, 1.2], [100, 0.07, 2.1]);
  b.use(ground([0.09, 0.12, 0.035], [0.16, 0.14, 0.07], 14));
  patch(b, 120, 30, (s, t) => {
    const x = -60 + 260 * s;
    return [x, -1 + t * (34 + 16 * fbm2(s * 5, 2.2, 4)), -22 - t * 120 + 8 * fbm2(s * 9, t * 5, 3)];
  });
  let x = -9.5;
  walls.forEach(([c, gable, w, eaves, rise, dark], i) => {
    const wall = boards({ colour: c, width: 0.17, level: i % 3 !== 1, wear: 0.22 + 0.2 * next() });
    house(b, place([x + w / 2, 0, -9 - (i % 3) * 0.35]), {
      width: w,
      depth: 9,
      eaves,
      rise,
      gable,
      wall,
      roof: roof(dark ? [0.13, 0.12, 0.12] : [0.3, 0.11, 0.06]),
      storeys: 2,
      bays: w > 8 ? 4 : 3,
      door: doors[i % 3],
      detail: 1,
      own: (i * 0.37 + 0.11) % 1,
    });
    x += w + (i % 4 === 2 ? 1.5 : 0.15);
  });
  lines.push(...netRack(b, place([12.5, 0, -4.4], 4), 7, 2.1, [0.16, 0.09, 0.05], 5));
  for (const [bx, bz, s] of [
    [-5.4, -7.4, 1],
    [-4.7, -7.7, 1],
    [-5.0, -6.9, 0.94],
    [6.9, -7.9, 1],
    [7.7, -7.7, 1],
  ])
    barrel(b, place([bx, 0, bz], bx * 50, s), undefined, (bx + 9) / 20);
  crate(b, place([0.2, 0, -7.6], 6), [0.9, 0.42, 0.6], [0.32, 0.24, 0.14], 0.1);
  crate(b, place([0.25, 0.43, -7.6], -5), [0.9, 0.42, 0.6], [0.12, 0.2, 0.26], 0.4);
  crate(b, place([1.3, 0, -7.5], 16), [0.9, 0.42, 0.6], [0.36, 0.22, 0.1], 0.7);
  crate(b, place([4.6, 0, -1.2], 24), [0.8, 0.4, 0.55], [0.36, 0.24, 0.12], 0.8);
  netHeap(b, place([-0.6, 0, -3.6], 12), [0.2, 0.13, 0.08], 4);
  person(
    b,
    place([-1.55, 0.32, -4.35], 40),
    sitting,
    { coat: [0.1, 0.12, 0.16], legs: [0.08, 0.075, 0.07], cap: [0.06, 0.06, 0.065] },
    0.018,
  );
  barrel(b, place([-1.58, -0.32, -4.4]));
  bollard(b, place([-2.6, 0.07, 1.6]));
  bollard(b, place([8.4, 0.07, 1.6]));
  coil(b, place([-1.3, 0, 0.2], 20), 0.42, 12);
  person(b, place([3.1, 0, -4.6], 62), carrying, {
    coat: [0.07, 0.11, 0.19],
    legs: [0.09, 0.075, 0.06],
    cap: [0.05, 0.05, 0.06],
  });
  crate(b, place([3.47, 0.92, -4.42], 62), [0.55, 0.22, 0.36], [0.35, 0.24, 0.13], 0.3);
  person(b, place([8.6, 0, -5.6], -150), bending, {
    coat: [0.5, 0.33, 0.06],
    legs: [0.1, 0.09, 0.08],
    cap: [0.3, 0.06, 0.04],
  });
  person(b, place([17.6, 0, -5.9], -70), walking, {
    coat: [0.28, 0.05, 0.05],
    legs: [0.05, 0.06, 0.09],
    hem: 0.42,
    hair: [0.2, 0.12, 0.05],
  });
  person(b, place([18.5, 0, -6.3], -72), walking, {
    coat: [0.14, 0.15, 0.15],
    legs: [0.05, 0.05, 0.06],
    cap: [0.06, 0.06, 0.06],
  });
  person(
    b,
    place([25.5, 0, -5.2], 20),
    standing,
    { coat: [0.1, 0.13, 0.1], legs: [0.06, 0.05, 0.05], cap: [0.1, 0.07, 0.05] },
    0.035,
  );
  person(b, place([-3.4, 0, -7.6], 30), standing, {
    coat: [0.12, 0.13, 0.16],
    legs: [0.08, 0.07, 0.06],
    apron: [0.5, 0.48, 0.42],
    hair: [0.3, 0.28, 0.26],
  });
  // Washing between two of the houses.
  const from: Vec = [-2.3, 4.3, -8.6];
  lines.push({ points: [from, [4, 4.1, -8.6]], width: 0.012, colour: [0.2, 0.19, 0.17] });
  const sky = new Sky({
    sun,
    zenith: [0.11, 0.22, 0.47],
    horizon: [0.44, 0.52, 0.62],
    clear: 3.4,
    glow: [0.5, 0.4, 0.25],
    tight: 5,
    ground: [0.2, 0.18, 0.15],
    clouds: [
      cumulus({
        sun,
        lit: [0.95, 0.8, 0.6],
        shade: [0.3, 0.33, 0.4],
        base: 1300,
        thick: 800,
        size: 1900,
        cover: 0.02,
        seed: 41,
        from: 10,
        to: 82,
        top: 34,
        haze: [0.6, 0.62, 0.66],
        far: 14000,
        columns: Math.ceil(width * 0.31),
      }),
    ],
  });
  const world: World = {
    camera: { eye: [-7.6, 1.75, 3.2], turn: 46, focal: 32, rise: 2.6 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.95, 1.5, 0.98] },
    air: {
      thickness: [0.0012, 0.0014, 0.0018],
      height: 120,
      colour: [0.45, 0.5, 0.56],
      glow: [0.3, 0.24, 0.15],
      tight: 3,
      sun,
    },
    rays: 4,
    open: 0.55,
  };
  const picture = render(world, width, height);
  drawLines(picture, world, lines);
  return finish(picture, { glow: 0.03, falloff: 0.4 });
}
