/** The ferry that calls at Varnhaven. */
import type { Line } from "./lines.ts";
import { boards, pane, plain } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import { noise2, smoothstep } from "./noise.ts";
import { person, standing } from "./people.ts";
import { ball, box, patch, quad, tube, turned } from "./shapes.ts";
import type { Light } from "./sky.ts";
import { dim, type Material, paint } from "./surface.ts";
import { moved, place, type Placement, type Vec } from "./vector.ts";

const COATS: readonly Light[] = [
  [0.05, 0.06, 0.08],
  [0.2, 0.18, 0.14],
  [0.1, 0.03, 0.03],
];

/** A coasting ferry of 30 m, bow towards +x, people at her rail. Rigging is returned as thin lines in scene coordinates. */
export function ferry(b: Builder, at: Placement): Line[] {
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
          coat: COATS[i % 3],
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
