/** Black and white: an iron bollard and its rope in raking light; every strand and every grain of stone. */
import { finish } from "../drawing/finish.ts";
import { masonry, plain, rope } from "../drawing/materials.ts";
import { Builder } from "../drawing/mesh.ts";
import { fbm2, fbm3, noise2, smoothstep } from "../drawing/noise.ts";
import { coil } from "../drawing/props.ts";
import { render } from "../drawing/render.ts";
import { box, patch, tube, turned } from "../drawing/shapes.ts";
import { Sky } from "../drawing/sky.ts";
import { lean, paint, tint, type Material } from "../drawing/surface.ts";
import { direction, place, type Vec } from "../drawing/vector.ts";
import { water } from "../drawing/water.ts";
import type { Picture, World } from "../drawing/world.ts";

const sun = direction(-72, 24);

const iron: Material = (s) => {
  const n = fbm3(s.x * 9, s.y * 9, s.z * 9, 5, s.foot * 9);
  const pit = fbm3(s.x * 70, s.y * 70, s.z * 70, 3, s.foot * 70);
  paint(s, 0.07, 0.07, 0.07);
  // Paint flakes off to rust; the head is polished by rope.
  tint(s, 0.17, 0.17, 0.17, smoothstep(0.0, 0.4, n + 0.25 * pit));
  tint(s, 0.3, 0.3, 0.3, smoothstep(0.35, 0.6, fbm3(s.x * 5 + 3, s.y * 5, s.z * 5, 4)));
  lean(s, 0.3 * pit + 0.1 * n, 0.3 * pit);
  s.shine = 0.07;
  s.rough = 0.3 + 0.25 * smoothstep(0, 0.4, n);
};

const kerb: Material = (s) => {
  masonry([0.27, 0.27, 0.27], 3, 0.9)(s);
  const g = fbm2(s.x * 26, s.z * 26, 5, s.foot * 26);
  const c = fbm2(s.x * 5, s.z * 5, 4, s.foot * 5);
  paint(s, s.r * (1 + 0.22 * g), s.g * (1 + 0.22 * g), s.b * (1 + 0.22 * g));
  tint(s, 0.07, 0.07, 0.07, 0.5 * smoothstep(0.35, 0.8, c));
  lean(s, 0.2 * g + 0.12 * c, 0.2 * g);
};

export function draw(width: number, height: number): Picture {
  const b = new Builder();
  b.use(kerb);
  box(b, [-6, -1.4, -0.75], [6, 0, 3]);
  b.use(water({ slope: 0.06, longest: 3, body: [0.015, 0.015, 0.015] }));
  patch(b, 2, 2, (s, t) => [(s - 0.5) * 400, -1.3, -0.7 - t * 300]);
  b.use(iron);
  turned(
    b,
    [
      [0.3, 0],
      [0.3, 0.035],
      [0.27, 0.05],
      [0.2, 0.075],
      [0.165, 0.14],
      [0.155, 0.28],
      [0.16, 0.38],
      [0.19, 0.44],
      [0.245, 0.475],
      [0.262, 0.5],
      [0.262, 0.535],
      [0.24, 0.565],
      [0.17, 0.59],
      [0.07, 0.603],
      [0, 0.605],
    ],
    64,
  );
  for (let i = 0; i < 6; i++)
    b.at(place([Math.cos(i * 1.047 + 0.3) * 0.265, 0.045, Math.sin(i * 1.047 + 0.3) * 0.265]), () =>
      turned(
        b,
        [
          [0.024, 0],
          [0.024, 0.022],
          [0.012, 0.03],
          [0, 0.031],
        ],
        6,
      ),
    );
  hawser(b);
  coil(b, place([0.7, 0.005, -0.14], 15), 0.3, 9, 0.024);
  // The far side of the basin: a wall, a boat's dark side, out of focus.
  b.use(masonry([0.2, 0.2, 0.2], 0.6, 1.2));
  box(b, [-60, -2, -26], [60, 1.1, -24]);
  b.use(plain([0.5, 0.5, 0.5]));
  box(b, [2, -1.4, -15], [10, 0.15, -13]);
  box(b, [4.5, 0.1, -14.8], [6.8, 1.7, -13.4]);
  b.use(plain([0.08, 0.08, 0.08]));
  box(b, [2, -1.35, -12.99], [10, -0.9, -12.98]);
  tube(
    b,
    [
      [3.2, 0, -14],
      [3.2, 7, -14],
    ],
    0.09,
    8,
  );
  b.use(plain([0.12, 0.12, 0.12]));
  for (const [x, w, h] of [
    [-30, 9, 5],
    [-19, 7, 6],
    [-9, 9, 4.6],
    [3, 8, 6.2],
    [14, 9, 5],
    [26, 8, 5.4],
  ] as const)
    box(b, [x, 0, -36], [x + w, h + 1.5, -32]);
  const sky = new Sky({
    sun,
    zenith: [0.2, 0.2, 0.2],
    horizon: [0.55, 0.55, 0.55],
    clear: 3,
    glow: [0.5, 0.5, 0.5],
    tight: 4,
    ground: [0.1, 0.1, 0.1],
  });
  const world: World = {
    camera: { eye: [-0.12, 0.86, 1.5], turn: 6, pitch: -21, focal: 50 },
    mesh: b.done(),
    sky,
    sun: { toward: sun, light: [1.5, 1.5, 1.5] },
    rays: 5,
    open: 0.5,
    mirrorRays: 2,
    exposure: 0.95,
    air: { thickness: [0.004, 0.004, 0.004], height: 40, colour: [0.4, 0.4, 0.4] },
  };
  return finish(render(world, width, height), { glow: 0.03, falloff: 0.5, focus: 1.58, blur: 0.009 });
}

/** Three and a half turns about the post, then off over the edge, taut; a second end to the coil. */
function hawser(b: Builder): void {
  const thick = 0.026;
  b.use(rope([0.42, 0.42, 0.42], thick));
  const path: Vec[] = [];
  const turns = 3.45;
  for (let i = 0; i <= 130; i++) {
    const t = i / 130;
    const a = -2.3 + t * turns * 6.2832;
    const r = 0.165 + thick + 0.012 * noise2(a * 1.3, 4);
    path.push([Math.cos(a) * r, 0.115 + t * 0.2 + 0.012 * noise2(a * 0.9, 1), Math.sin(a) * r]);
  }
  const end = path[path.length - 1];
  for (let i = 1; i <= 24; i++) {
    const t = i / 24;
    path.push([
      end[0] - 1.5 * t,
      end[1] - 0.1 * t - 0.02 * Math.sin(t * 3.1),
      end[2] - 0.62 * t - 1.6 * Math.max(0, t - 0.4),
    ]);
  }
  tube(b, path, thick, 20);
  const start = path[0];
  const loose: Vec[] = [start];
  for (let i = 1; i <= 40; i++) {
    const t = i / 40;
    loose.push([
      start[0] + 0.52 * t + 0.1 * Math.sin(t * 5),
      Math.max(thick, start[1] * (1 - t * 3.2)),
      start[2] + 0.5 * Math.sin(t * 2.2) + 0.22 * t,
    ]);
  }
  tube(b, loose, thick, 20);
}
