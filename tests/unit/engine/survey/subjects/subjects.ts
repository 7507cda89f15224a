/** Subjects, each with something that a search for dust could take for it: stars, catch-lights, wires, grass. */
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { canvas, clouds, type Colour, glow, line, mix } from "./canvas.ts";
import { FRESH } from "./fresh-subjects.ts";
import { HARD } from "./hard-subjects.ts";
import { TEXTURED } from "./textured-subjects.ts";
import { LAST } from "./last-subjects.ts";

/** A clear night: stars of all brightnesses (12 to 20 µm on film: a lens wide open), a dark hill with lit windows. */
export function night(width: number, height: number): Scene {
  const air = clouds(3);
  const c = canvas(width, height, (u, v) => {
    const hill = v > 0.74 + 0.03 * Math.sin(7 * u) + 0.02 * Math.sin(17 * u + 1);
    const sky = mix([0.035, 0.045, 0.08], [0.1, 0.09, 0.1], v * v);
    return hill ? [0.012, 0.014, 0.016] : mix(sky, [0.12, 0.12, 0.14], 0.15 * Math.max(0, air(u, v)));
  });
  const r = random(5, "stars");
  for (let k = 0; k < 160; k++) {
    const bright = 0.15 * 60 ** (r.uniform() ** 2);
    const warm = r.between(-0.25, 0.25);
    glow(c, r.uniform(), 0.7 * r.uniform(), r.between(0.0013, 0.0022), [
      bright * (1 + warm),
      bright,
      bright * (1 - warm),
    ]);
  }
  for (let k = 0; k < 22; k++) {
    const [u, v] = [r.uniform(), r.between(0.8, 0.95)];
    glow(c, u, v, r.between(0.0015, 0.003), [4, 2.4, 0.9]);
  }
  return c;
}

/** A head against an even background: smooth skin, hair, catch-lights in the eyes, a row of pearls. */
export function portrait(width: number, height: number): Scene {
  const skin = clouds(11);
  const c = canvas(width, height, (u, v) => {
    const [x, y] = [(u - 0.5) * 1.5, v - 0.46];
    const face = (x / 0.2) ** 2 + (y / 0.28) ** 2;
    const hair = (x / 0.27) ** 2 + ((y + 0.06) / 0.34) ** 2;
    const shade = 0.75 + 0.6 * x + 0.05 * skin(u, v);
    const back = mix([0.14, 0.17, 0.19], [0.3, 0.33, 0.34], u * 0.7 + 0.3 * v);
    if (face < 1) return mix([0.42, 0.27, 0.2], [0.2, 0.11, 0.08], Math.min(1, Math.max(0, 1 - shade * 0.9)));
    if (hair < 1) return mix([0.03, 0.02, 0.015], [0.12, 0.08, 0.05], 0.5 + 0.5 * Math.sin(90 * x + 20 * skin(u, v)));
    if (v > 0.72 && Math.abs(x) < 0.15 + (v - 0.72) * 1.4) return [0.1, 0.12, 0.3];
    return back;
  });
  for (const u of [0.445, 0.555]) {
    glow(c, u, 0.42, 0.011, [0.1, 0.1, 0.1]);
    line(c, [u - 0.013, 0.42], [u + 0.013, 0.42], 0.014, [0.03, 0.025, 0.02]);
    glow(c, u + 0.003, 0.415, 0.0018, [1.6, 1.6, 1.7]);
    glow(c, u - 0.004, 0.424, 0.0011, [0.8, 0.8, 0.8]);
  }
  for (let k = -9; k <= 9; k++) glow(c, 0.5 + k * 0.013, 0.75 + 0.03 * Math.cos(k / 5), 0.0032, [0.75, 0.72, 0.68]);
  return c;
}

/** Boats at a quay: masts, stays and wires against a bright sky, ropes against dark hulls, glints on the water. */
export function quay(width: number, height: number): Scene {
  const air = clouds(23);
  const waves = clouds(29);
  const c = canvas(width, height, (u, v) => {
    if (v < 0.62) return mix([0.34, 0.42, 0.55], [0.75, 0.75, 0.74], Math.min(1, v * 1.3 + 0.12 * air(u, v)));
    const w = 0.5 + 0.25 * waves(u * 3, (v - 0.6) * 12);
    return mix([0.05, 0.09, 0.11], [0.25, 0.28, 0.3], Math.min(1, Math.max(0, w)));
  });
  const r = random(31, "boats");
  for (let k = 0; k < 5; k++) {
    const u = 0.12 + 0.19 * k;
    line(c, [u - 0.07, 0.66], [u + 0.07, 0.66], 0.045, mix([0.4, 0.06, 0.05], [0.06, 0.1, 0.25], r.uniform()));
    line(c, [u, 0.64], [u + 0.01, 0.12], 0.004, [0.09, 0.06, 0.04]);
    for (const [far, thin] of [
      [-0.08, 0.0011],
      [0.075, 0.0013],
      [0.04, 0.0009],
    ])
      line(c, [u + 0.008, 0.15], [u + far, 0.64], thin, [0.07, 0.07, 0.07]);
    line(c, [u - 0.06, 0.655], [u + 0.05, 0.668], 0.0016, [0.8, 0.78, 0.7]);
    line(c, [u - 0.02, 0.3], [u + 0.04, 0.31], 0.0012, [0.9, 0.9, 0.88]);
  }
  for (const v of [0.08, 0.1, 0.22]) line(c, [0, v], [1, v + 0.05], 0.0012, [0.05, 0.05, 0.05]);
  for (let k = 0; k < 120; k++) glow(c, r.uniform(), r.between(0.72, 0.98), r.between(0.0012, 0.0022), [1.2, 1.15, 1]);
  return c;
}

/** A meadow: grass and flowers everywhere below, sky with soft clouds above. */
export function meadow(width: number, height: number): Scene {
  const air = clouds(41);
  const ground = clouds(43);
  const c = canvas(width, height, (u, v) => {
    if (v < 0.4) return mix([0.2, 0.32, 0.55], [0.8, 0.8, 0.82], Math.min(1, Math.max(0, 0.4 + 0.5 * air(u, v))));
    return mix([0.04, 0.07, 0.02], [0.14, 0.2, 0.05], Math.min(1, Math.max(0, 0.5 + 0.3 * ground(2 * u, 3 * v))));
  });
  const r = random(47, "grass");
  for (let k = 0; k < 1400; k++) {
    const [u, v] = [r.uniform(), 0.42 + 0.58 * r.uniform()];
    const long = 0.02 + 0.05 * (v - 0.4);
    const green = mix([0.05, 0.1, 0.02], [0.25, 0.33, 0.09], r.uniform());
    line(c, [u, v], [u + r.between(-0.01, 0.01), v - long], 0.0012 + 0.002 * (v - 0.4), green);
  }
  for (let k = 0; k < 160; k++) {
    const v = 0.45 + 0.5 * r.uniform();
    const colour: Colour = [
      [0.9, 0.88, 0.85],
      [0.85, 0.7, 0.05],
      [0.6, 0.06, 0.05],
      [0.3, 0.15, 0.6],
    ][k % 4] as unknown as Colour;
    glow(c, r.uniform(), v, 0.0009 + 0.003 * (v - 0.4), colour);
  }
  return c;
}

export const SUBJECTS = { night, portrait, quay, meadow, ...HARD, ...LAST, ...FRESH, ...TEXTURED } as const;
export type SubjectName = keyof typeof SUBJECTS;
