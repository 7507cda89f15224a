/**
 * Subjects with hundreds of things that look like dust, drawn in other ways (hard discs, streaks, knots and drops, as
 * sharp as a good lens draws them) than in the four for which the dust finder was made.
 */
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { canvas, clouds, type Colour, glow, line, mix, oval, scaled } from "./canvas.ts";

/** Falling snow before dark trees and a lit wall: flakes near and far, white, out of focus where they are large. */
function snowfall(width: number, height: number): Scene {
  const wood = clouds(61);
  const c = canvas(width, height, (u, v) => {
    if (v > 0.8) return mix([0.55, 0.58, 0.64], [0.8, 0.82, 0.85], Math.min(1, Math.max(0, 0.5 + 0.4 * wood(u, v))));
    if (u > 0.62 && v > 0.3) return mix([0.3, 0.14, 0.1], [0.36, 0.19, 0.13], 0.5 + 0.5 * Math.sin(v * 160));
    return mix([0.03, 0.04, 0.035], [0.11, 0.13, 0.12], Math.min(1, Math.max(0, 0.5 + 0.5 * wood(2 * u, v))));
  });
  const r = random(63, "trunks");
  for (let k = 0; k < 16; k++) {
    const u = 0.6 * r.uniform();
    line(c, [u, 0.05], [u + r.between(-0.02, 0.02), 0.82], r.between(0.003, 0.012), [0.02, 0.02, 0.018]);
  }
  line(c, [0.7, 0.45], [0.78, 0.45], 0.1, [1.4, 0.9, 0.4]);
  line(c, [0.74, 0.38], [0.74, 0.52], 0.004, [0.1, 0.06, 0.04]);
  for (let k = 0; k < 420; k++) {
    const near = r.uniform() ** 3;
    const size = 0.0008 + 0.004 * near;
    const light = r.between(0.5, 0.95) * (1 - 0.4 * near);
    oval(
      c,
      r.uniform(),
      r.uniform(),
      [size, size * r.between(0.7, 1)],
      r.between(0, 3),
      [light, light, 1.03 * light],
      1 + 14 * near,
    );
  }
  return c;
}

/** A pebble beach: stones of all sizes, quartz among them, with shadows and wet glints. */
function pebbles(width: number, height: number): Scene {
  const sand = clouds(71);
  const c = canvas(width, height, (u, v) =>
    mix([0.12, 0.1, 0.08], [0.3, 0.26, 0.2], Math.min(1, Math.max(0, 0.5 + 0.4 * sand(3 * u, 3 * v)))),
  );
  const r = random(73, "stones");
  const kinds: readonly Colour[] = [
    [0.22, 0.21, 0.2],
    [0.13, 0.14, 0.16],
    [0.34, 0.27, 0.2],
    [0.45, 0.43, 0.4],
    [0.25, 0.13, 0.1],
    [0.07, 0.07, 0.075],
  ];
  for (let k = 0; k < 1500; k++) {
    const v = r.uniform();
    const size = (0.0018 + 0.02 * r.uniform() ** 4) * (0.5 + 0.7 * v);
    const [u, angle, flat] = [r.uniform(), r.between(-0.5, 0.5), r.between(0.6, 0.95)];
    oval(c, u + 0.25 * size, v + 0.5 * size, [size, size * flat], angle, [0.03, 0.028, 0.026]);
    oval(c, u, v, [size, size * flat], angle, scaled(kinds[Math.floor(r.uniform() * 6)], r.between(0.7, 1.3)));
    if (r.uniform() < 0.2)
      oval(c, u - 0.3 * size, v - 0.4 * size, [0.18 * size + 0.0007, 0.1 * size + 0.0006], angle, [0.95, 0.97, 1]);
  }
  for (let k = 0; k < 90; k++)
    oval(c, r.uniform(), r.uniform(), [r.between(0.0009, 0.0024), 0.0011], 0, [0.85, 0.84, 0.8]);
  return c;
}

/** A wet net on a rail: a mesh with knots, drops hanging from it that mirror the sky, floats, far water behind. */
function netting(width: number, height: number): Scene {
  const sea = clouds(81);
  const c = canvas(width, height, (u, v) =>
    mix([0.1, 0.16, 0.19], [0.36, 0.42, 0.46], Math.min(1, Math.max(0, 0.9 - v + 0.15 * sea(u, 4 * v)))),
  );
  const r = random(83, "net");
  const sag = (u: number, v: number): [number, number] => [
    u + 0.006 * Math.sin(9 * v + 3 * u),
    v + 0.02 * Math.sin(5 * u + 2 * v),
  ];
  const mesh = 0.045;
  for (let i = -1; i < 24; i++)
    for (let j = 3; j < 19; j++) {
      const knot = sag((i + (j % 2) / 2) * mesh, j * mesh * 0.95);
      for (const side of [0, 1]) {
        const next = sag((i + side + (j % 2) / 2 - (j % 2 ? 0 : 0.5) - (j % 2 ? 0 : 0)) * mesh, (j + 1) * mesh * 0.95);
        line(c, knot, next, 0.0016, [0.05, 0.13, 0.11]);
      }
      oval(c, knot[0], knot[1], [0.0022, 0.0019], r.between(0, 3), [0.04, 0.1, 0.09]);
      if (r.uniform() < 0.55) {
        oval(c, knot[0], knot[1] + 0.0042, [0.0015, 0.0019], 0, [0.6, 0.68, 0.75]);
        oval(c, knot[0] - 0.0004, knot[1] + 0.0036, [0.0007, 0.0007], 0, [1.8, 1.8, 1.8]);
      }
    }
  for (let k = 0; k < 9; k++)
    oval(c, 0.06 + 0.11 * k, 0.13 + 0.015 * Math.sin(2 * k), [0.018, 0.013], 0.1, [0.75, 0.3, 0.06], 2);
  return c;
}

/** Evening sun on choppy water: hundreds of short warm glints, hard and bright, a buoy, a gull. */
function glitter(width: number, height: number): Scene {
  const waves = clouds(91);
  const c = canvas(width, height, (u, v) => {
    if (v < 0.25) return mix([0.75, 0.5, 0.3], [0.95, 0.75, 0.5], Math.min(1, v * 3));
    const w = 0.5 + 0.35 * waves(2 * u, 8 * v);
    return mix([0.03, 0.05, 0.07], [0.24, 0.19, 0.15], Math.min(1, Math.max(0, w)));
  });
  const r = random(93, "glints");
  for (let k = 0; k < 600; k++) {
    const v = 0.26 + 0.74 * r.uniform();
    const u = 0.5 + (r.uniform() + r.uniform() - 1) * (0.2 + 0.5 * v);
    const size = 0.0007 + 0.0022 * v * r.uniform();
    const light = 0.6 * 6 ** r.uniform();
    oval(c, u, v, [size * r.between(1, 2.2), size], r.between(-0.2, 0.2), [light, 0.84 * light, 0.6 * light]);
  }
  oval(c, 0.2, 0.5, [0.012, 0.02], 0, [0.4, 0.05, 0.04]);
  oval(c, 0.197, 0.487, [0.0014, 0.0014], 0, [1.2, 1.1, 0.9]);
  line(c, [0.7, 0.1], [0.72, 0.115], 0.002, [0.12, 0.1, 0.1]);
  line(c, [0.72, 0.115], [0.745, 0.1], 0.002, [0.12, 0.1, 0.1]);
  return c;
}

/** Two faces near a lamp: eyes with catch-lights and lashes, freckles, a strand of pearls, glitter on cloth. */
function faces(width: number, height: number): Scene {
  const skin = clouds(101);
  const centres = [
    [0.32, 0.42],
    [0.7, 0.5],
  ] as const;
  const tones: readonly Colour[] = [
    [0.5, 0.34, 0.26],
    [0.17, 0.09, 0.06],
  ];
  const c = canvas(width, height, (u, v) => {
    for (const [k, [cu, cv]] of centres.entries()) {
      const face = ((u - cu) / 0.13) ** 2 + ((v - cv) / 0.27) ** 2;
      if (face < 1) return scaled(tones[k], 1.1 - 0.5 * face + 0.06 * skin(3 * u, 3 * v));
      if (((u - cu) / 0.3) ** 2 + ((v - cv - 0.62) / 0.38) ** 2 < 1) return k ? [0.32, 0.03, 0.05] : [0.04, 0.05, 0.09];
    }
    return mix([0.28, 0.2, 0.12], [0.05, 0.035, 0.03], Math.min(1, Math.hypot(u - 0.1, v - 0.1)));
  });
  const r = random(103, "faces");
  for (const [k, [cu, cv]] of centres.entries()) {
    for (const side of [-1, 1]) {
      const [eu, ev] = [cu + side * 0.048, cv - 0.06];
      oval(c, eu, ev, [0.02, 0.009], 0, [0.62, 0.58, 0.55]);
      oval(c, eu, ev, [0.0085, 0.0085], 0, k ? [0.06, 0.03, 0.02] : [0.09, 0.14, 0.17]);
      oval(c, eu, ev, [0.0038, 0.0038], 0, [0.012, 0.011, 0.01]);
      oval(c, eu - 0.003, ev - 0.005, [0.0014, 0.0018], 0, [2.2, 1.9, 1.5]);
      oval(c, eu + 0.003, ev + 0.004, [0.0007, 0.0007], 0, [0.9, 0.9, 0.95]);
      for (let n = -5; n <= 5; n++)
        line(c, [eu + 0.0036 * n, ev - 0.012], [eu + 0.0046 * n, ev - 0.022], 0.0009, [0.03, 0.02, 0.015]);
    }
    oval(c, cu + 0.004, cv + 0.05, [0.002, 0.003], 0, [0.9, 0.8, 0.68], 3);
    for (let n = -12; n <= 12; n++) {
      const [pu, pv] = [cu + 0.0075 * n, cv + 0.33 - 0.02 * (n / 12) ** 2];
      oval(c, pu, pv, [0.0034, 0.0034], 0, [0.66, 0.62, 0.56], 2);
      oval(c, pu - 0.001, pv - 0.0016, [0.0009, 0.0009], 0, [1.6, 1.5, 1.4]);
    }
    for (let n = 0; n < 70; n++)
      oval(c, cu + r.between(-0.08, 0.08), cv + r.between(-0.05, 0.12), [0.0012, 0.0011], 0, scaled(tones[k], 0.6), 2);
    for (let n = 0; n < 60; n++) {
      const light = r.between(0.4, 2.5);
      glow(c, cu + r.between(-0.2, 0.2), cv + r.between(0.4, 0.5), 0.0011, [light, 0.95 * light, 0.9 * light]);
    }
  }
  return c;
}

/** Rigging of many ships before a starry dusk sky: thin lines crossing, blocks and lamps on them, stars (8 µm) behind. */
function rigging(width: number, height: number): Scene {
  const air = clouds(111);
  const c = canvas(width, height, (u, v) =>
    v > 0.85
      ? [0.02, 0.022, 0.025]
      : mix([0.03, 0.05, 0.11], [0.3, 0.2, 0.16], Math.min(1, Math.max(0, v * v * 1.1 + 0.05 * air(u, v)))),
  );
  const r = random(113, "rigging");
  for (let k = 0; k < 200; k++) {
    const bright = 0.2 * 25 ** (r.uniform() ** 2);
    const size = r.between(0.0006, 0.0011);
    const warm = r.between(-0.3, 0.3);
    oval(c, r.uniform(), 0.75 * r.uniform(), [size, size], 0, [bright * (1 + warm), bright, bright * (1 - warm)], 3);
  }
  for (let k = 0; k < 6; k++) {
    const u = 0.08 + 0.17 * k;
    line(c, [u, 0.9], [u + 0.01, 0.08], 0.005, [0.03, 0.022, 0.018]);
    for (let n = 0; n < 7; n++) {
      const [top, foot] = [0.1 + 0.09 * n, u + r.between(-0.15, 0.15)];
      line(c, [u + 0.008, top], [foot, 0.87], r.between(0.0008, 0.0016), scaled([0.04, 0.04, 0.04], r.between(0.4, 2)));
      line(c, [u - 0.05, top + 0.05], [u + 0.06, top + 0.045], 0.0018, [0.05, 0.035, 0.025]);
      oval(c, u + r.between(-0.05, 0.05), top + 0.07, [0.0022, 0.0028], 0, [0.06, 0.045, 0.03]);
    }
    oval(c, u + 0.01, 0.075, [0.0014, 0.0014], 0, [3, 2.3, 1.3]);
    oval(c, u + 0.03, 0.8, [0.0016, 0.0012], 0, [5, 3, 1]);
  }
  return c;
}

export const HARD = { snowfall, pebbles, netting, glitter, faces, rigging } as const;
