/** Subjects that were drawn after the weights of the dust finder's second look were found; of these too totals alone were seen. */
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { canvas, clamped, clouds, type Colour, glow, line, mix, oval, scaled } from "./canvas.ts";

/** A fruit stall under an awning: fruit in heaps, each with a highlight, bulbs above, labels on sticks. */
function market(width: number, height: number): Scene {
  const shade = clouds(151);
  const c = canvas(width, height, (u, v) =>
    v < 0.25
      ? mix([0.5, 0.12, 0.08], [0.75, 0.7, 0.62], Math.floor(u * 14) % 2)
      : mix([0.04, 0.03, 0.025], [0.16, 0.11, 0.07], clamped(0.5 + 0.4 * shade(2 * u, 2 * v))),
  );
  const r = random(153, "market");
  const kinds: readonly Colour[] = [
    [0.6, 0.08, 0.05],
    [0.75, 0.36, 0.04],
    [0.4, 0.5, 0.1],
    [0.7, 0.62, 0.12],
    [0.16, 0.05, 0.12],
  ];
  for (let heap = 0; heap < 5; heap++)
    for (let row = 0; row < 9; row++)
      for (let k = 0; k < 10; k++) {
        const size = r.between(0.008, 0.011);
        const [u, v] = [
          0.02 + 0.195 * heap + 0.018 * (k + (row % 2) / 2),
          0.45 + 0.055 * row + r.between(-0.004, 0.004),
        ];
        oval(c, u, v, [size, size], 0, scaled(kinds[heap], r.between(0.5, 1.1)), 3);
        oval(c, u - 0.3 * size, v - 0.5 * size, [0.0013, 0.001], 0.3, scaled([0.9, 0.88, 0.84], r.between(0.5, 1.2)));
      }
  for (let k = 0; k < 12; k++) oval(c, 0.04 + 0.084 * k, 0.3, [0.003, 0.003], 0, [4, 3.3, 2.2]);
  for (let k = 0; k < 5; k++) {
    line(c, [0.1 + 0.195 * k, 0.36], [0.1 + 0.195 * k, 0.46], 0.0015, [0.2, 0.16, 0.1]);
    line(c, [0.08 + 0.195 * k, 0.37], [0.12 + 0.195 * k, 0.37], 0.035, [0.8, 0.8, 0.76]);
  }
  return c;
}

/** Twigs under hoarfrost against a pale sky: crystals along each, berries, a fence with nails. */
function hoarfrost(width: number, height: number): Scene {
  const air = clouds(161);
  const c = canvas(width, height, (u, v) => mix([0.3, 0.38, 0.5], [0.14, 0.16, 0.18], clamped(v + 0.2 * air(u, v))));
  const r = random(163, "twigs");
  for (let k = 0; k < 60; k++) {
    const [u, v, a] = [r.uniform(), r.between(0.1, 1), r.between(-0.9, 0.9)];
    const long = r.between(0.05, 0.2);
    line(c, [u, v], [u + long * Math.sin(a), v - long * Math.cos(a)], r.between(0.0012, 0.003), [0.07, 0.055, 0.045]);
    for (let n = 0; n < 14; n++) {
      const [x, y] = [u + (long * Math.sin(a) * n) / 14, v - (long * Math.cos(a) * n) / 14];
      const light = r.between(0.5, 0.95);
      line(c, [x, y], [x + r.between(-0.005, 0.005), y + r.between(-0.006, 0.006)], 0.0009, [
        light,
        light,
        1.03 * light,
      ]);
    }
  }
  for (let k = 0; k < 40; k++) {
    const [u, v, size] = [r.uniform(), r.uniform(), r.between(0.002, 0.0035)];
    oval(c, u, v, [size, size], 0, [0.4, 0.03, 0.03]);
    oval(c, u, v - 0.7 * size, [0.6 * size, 0.4 * size], 0, [0.8, 0.82, 0.86]);
  }
  for (let k = 0; k < 12; k++) {
    line(c, [0.085 * k, 0.75], [0.085 * k, 1], 0.02, [0.2, 0.17, 0.15]);
    oval(c, 0.085 * k, 0.8, [0.0012, 0.0012], 0, [0.03, 0.03, 0.03]);
  }
  return c;
}

/** Gulls above a rough sea: white birds near and far, crests, spray. */
function gulls(width: number, height: number): Scene {
  const [sea, sky] = [clouds(171), clouds(173)];
  const c = canvas(width, height, (u, v) =>
    v < 0.45
      ? mix([0.25, 0.31, 0.38], [0.5, 0.53, 0.56], clamped(0.5 + 0.4 * sky(u, v)))
      : mix([0.04, 0.08, 0.09], [0.16, 0.23, 0.24], clamped(0.5 + 0.4 * sea(2 * u, 7 * v))),
  );
  const r = random(175, "gulls");
  for (let k = 0; k < 130; k++) {
    const [u, v, size] = [r.uniform(), r.uniform(), 0.0012 + 0.006 * r.uniform() ** 3];
    const white: Colour = scaled([0.86, 0.86, 0.84], r.between(0.7, 1));
    oval(c, u, v, [size, 0.5 * size], r.between(-0.4, 0.4), white);
    line(c, [u, v], [u - 2 * size, v - r.between(-1, 2) * size], 0.4 * size + 0.0004, white);
    line(c, [u, v], [u + 2 * size, v - r.between(-1, 2) * size], 0.4 * size + 0.0004, white);
    oval(c, u + 0.9 * size, v, [0.0006, 0.0005], 0, [0.75, 0.5, 0.05]);
  }
  for (let k = 0; k < 90; k++) {
    const [u, v] = [r.uniform(), r.between(0.5, 1)];
    line(c, [u, v], [u + r.between(0.005, 0.04), v + r.between(-0.004, 0.004)], 0.0022, [0.72, 0.75, 0.76]);
    for (let n = 0; n < 4; n++)
      glow(c, u + r.between(0, 0.04), v - r.between(0, 0.02), r.between(0.0007, 0.0013), [0.5, 0.52, 0.53]);
  }
  return c;
}

/** A workbench under a window: tools with bright edges, screws and shavings in heaps, holes in a board. */
function workbench(width: number, height: number): Scene {
  const grain = clouds(181);
  const c = canvas(width, height, (u, v) =>
    mix([0.16, 0.09, 0.05], [0.36, 0.23, 0.13], clamped(0.5 + 0.5 * grain(u, 9 * v) - 0.4 * u)),
  );
  const r = random(183, "tools");
  for (let k = 0; k < 18; k++)
    for (let n = 0; n < 10; n++) oval(c, 0.03 + 0.055 * k, 0.03 + 0.04 * n, [0.0019, 0.0019], 0, [0.015, 0.012, 0.01]);
  for (let k = 0; k < 9; k++) {
    const u = 0.06 + 0.11 * k;
    line(c, [u, 0.1], [u + 0.01, 0.42], 0.012, [0.1, 0.1, 0.11]);
    line(c, [u - 0.004, 0.1], [u + 0.006, 0.42], 0.0014, [0.75, 0.76, 0.8]);
    line(c, [u, 0.36], [u + 0.01, 0.46], 0.022, oneColour(r.uniform()));
  }
  for (let k = 0; k < 260; k++) {
    const [u, v, a] = [r.between(0.05, 0.5), r.between(0.55, 0.95), r.between(0, 3.1)];
    line(c, [u, v], [u + 0.007 * Math.cos(a), v + 0.01 * Math.sin(a)], 0.0022, [0.22, 0.21, 0.2]);
    oval(c, u, v, [0.0022, 0.0022], 0, scaled([0.4, 0.38, 0.34], r.between(0.5, 1.4)));
    if (r.uniform() < 0.5) oval(c, u - 0.0006, v - 0.0007, [0.0008, 0.0007], 0, [1.1, 1.08, 1]);
  }
  for (let k = 0; k < 150; k++)
    oval(
      c,
      r.between(0.55, 0.97),
      r.between(0.55, 0.97),
      [r.between(0.001, 0.005), 0.0013],
      r.between(0, 3),
      [0.62, 0.47, 0.3],
    );
  return c;
}

const oneColour = (part: number): Colour => (part < 0.5 ? [0.45, 0.07, 0.05] : [0.07, 0.12, 0.3]);

/** A lace curtain before a garden, a beaded lampshade beside it. */
function lace(width: number, height: number): Scene {
  const garden = clouds(191);
  const c = canvas(width, height, (u, v) =>
    u < 0.68
      ? mix([0.14, 0.22, 0.08], [0.5, 0.56, 0.5], clamped(0.5 + 0.5 * garden(u, v) - 0.3 * v))
      : mix([0.1, 0.075, 0.05], [0.04, 0.03, 0.025], v),
  );
  const r = random(193, "lace");
  const thread: Colour = [0.74, 0.72, 0.68];
  for (let row = 0; row < 13; row++)
    for (let k = 0; k < 13; k++) {
      const [u, v] = [0.03 + 0.05 * k + 0.003 * Math.sin(row), 0.04 + 0.075 * row];
      for (let n = 0; n < 6; n++) {
        const [a, b] = [(n * Math.PI) / 3, ((n + 1) * Math.PI) / 3];
        line(
          c,
          [u + 0.017 * Math.cos(a), v + 0.026 * Math.sin(a)],
          [u + 0.017 * Math.cos(b), v + 0.026 * Math.sin(b)],
          0.0014,
          thread,
        );
      }
      oval(c, u, v, [0.0028, 0.0028], 0, thread);
      if ((row + k) % 3 === 0) oval(c, u + 0.025, v, [0.0016, 0.0016], 0, thread);
    }
  for (let k = 0; k < 24; k++)
    for (let n = 0; n < 12; n++) {
      const light = r.between(0.2, 1.8);
      const bead: Colour = k % 3 ? [light, 0.7 * light, 0.35 * light] : [0.9 * light, 0.2 * light, 0.15 * light];
      oval(c, 0.73 + 0.0095 * k, 0.4 + 0.016 * n + 0.01 * Math.sin(k / 4), [0.0019, 0.0019], 0, bead, 2);
    }
  oval(c, 0.84, 0.3, [0.03, 0.05], 0, [2.2, 1.7, 1], 6);
  return c;
}

/** A regatta at noon: white sails, crews in bright jackets, buoys, sparkle on blue water. */
function regatta(width: number, height: number): Scene {
  const water = clouds(201);
  const c = canvas(width, height, (u, v) =>
    v < 0.2
      ? mix([0.35, 0.5, 0.75], [0.6, 0.68, 0.78], v * 5)
      : mix([0.04, 0.1, 0.17], [0.15, 0.24, 0.33], clamped(0.5 + 0.4 * water(3 * u, 9 * v))),
  );
  const r = random(203, "regatta");
  for (let k = 0; k < 45; k++) {
    const v = 0.22 + 0.7 * r.uniform() ** 1.5;
    const [u, size] = [r.uniform(), 0.01 + 0.05 * (v - 0.2)];
    for (let n = 0; n < 12; n++)
      line(
        c,
        [u, v - size * (2.4 - 0.2 * n)],
        [u + 0.055 * size * n, v - size * (2.4 - 0.2 * n)],
        0.22 * size,
        [0.85, 0.85, 0.83],
      );
    line(c, [u - 0.4 * size, v], [u + 0.6 * size, v], 0.18 * size, oneColour(r.uniform()));
    for (let n = 0; n < 3; n++)
      oval(
        c,
        u + size * r.between(-0.3, 0.4),
        v - 0.15 * size,
        [0.0012, 0.0016],
        0,
        [
          [0.8, 0.55, 0.04],
          [0.7, 0.06, 0.05],
          [0.8, 0.8, 0.8],
        ][n] as unknown as Colour,
      );
  }
  for (let k = 0; k < 20; k++) oval(c, r.uniform(), r.between(0.25, 1), [0.0025, 0.003], 0, [0.8, 0.3, 0.03]);
  for (let k = 0; k < 260; k++) {
    const light = r.between(0.5, 2.4);
    const [u, v] = [r.uniform(), r.between(0.3, 1)];
    oval(c, u, v, [r.between(0.0007, 0.0022), 0.0008], 0, [light, light, 0.97 * light]);
  }
  return c;
}

export const FRESH = { market, hoarfrost, gulls, workbench, lace, regatta } as const;
