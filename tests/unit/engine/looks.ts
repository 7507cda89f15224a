/** Looks for tests of the engine: a plain one, and random ones over the ranges that a recipe may hold. */
import fc from "../../properties.ts";
import { IDENTITY } from "../../../extension/engine/math/matrix.ts";
import type { FrameLook, Hue, Matrix3, Rgb, ToneLook } from "../../../extension/engine/types.ts";

export const plainTone: ToneLook = { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] };

export const plainLook: FrameLook = {
  film: "colour-negative",
  base: [0.31, 0.6, 0.76],
  gamma: [0.53, 0.56, 0.63],
  unmix: [
    [1.21, -0.17, -0.04],
    [-0.13, 1.25, -0.12],
    [-0.02, -0.19, 1.21],
  ],
  colour: IDENTITY,
  exposure: 0,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  tone: plainTone,
  saturation: 1,
};

export const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const rgb = (min: number, max: number): fc.Arbitrary<Rgb> =>
  fc.tuple(between(min, max), between(min, max), between(min, max));

/** Near the identity, rows summing to 1. */
export const unitRows = (spread: number): fc.Arbitrary<Matrix3> =>
  fc.tuple(rgb(-spread, spread), rgb(-spread, spread)).map(([a, b]) => [
    [1 - a[0] - b[0], a[0], b[0]],
    [a[1], 1 - a[1] - b[1], b[1]],
    [a[2], b[2], 1 - a[2] - b[2]],
  ]);

/** Points at least 10 L* apart, rising, nowhere steeper than about 3. */
const points = fc
  .array(between(-0.4, 0.4), { maxLength: 4 })
  .map((moves) => moves.map((move, i) => [15 + 20 * i, 15 + 20 * i + 15 * move] as const));

export const tones: fc.Arbitrary<ToneLook> = fc.record({
  contrast: between(0.5, 3),
  toe: between(0, 1),
  shoulder: between(0, 1),
  black: between(0, 30),
  points,
});

/** The same with toe and shoulder of version 2 of the recipe. */
export const tonesOfVersion2: fc.Arbitrary<ToneLook> = fc.record({
  version: fc.constant(2 as const),
  contrast: between(0.5, 3),
  toe: between(-1, 1),
  shoulder: between(-1, 1),
  black: between(0, 30),
  points,
});

/** A characteristic curve with toe, straight part and shoulder, as a data sheet would print it. */
const curve = fc
  .record({ gamma: rgb(0.45, 0.8), dmin: rgb(0.1, 1), toe: between(0.1, 0.4) })
  .map(({ gamma, dmin, toe }) => {
    const logH = Array.from({ length: 25 }, (_, i) => -3 + i * 0.2);
    const channel = (c: number): number[] =>
      logH.map((x) => dmin[c] + gamma[c] * toe * Math.log1p(Math.exp((x + 2.2) / toe)) - 0.1 * Math.max(0, x - 1) ** 2);
    return { logH, red: channel(0), green: channel(1), blue: channel(2) };
  });

const hue = (strongest: number): fc.Arbitrary<Hue> =>
  fc.record({ hue: between(0, 360), strength: fc.oneof(fc.constant(0), between(0, strongest)) });
const toning = fc.record({ shadows: hue(60), highlights: hue(60), paper: hue(30) });

export const looks: fc.Arbitrary<FrameLook> = fc.record(
  {
    film: fc.constantFrom<FrameLook["film"]>("colour-negative", "black-and-white-negative", "slide"),
    base: rgb(0.05, 1.2),
    gamma: rgb(0.4, 0.9),
    curve,
    unmix: unitRows(0.3),
    colour: unitRows(0.3),
    exposure: between(-3, 3),
    filtration: fc.record({ cyan: between(-60, 60), magenta: between(-60, 60), yellow: between(-60, 60) }),
    tone: fc.oneof(tones, tonesOfVersion2),
    saturation: between(0, 1.8),
    toning,
  },
  { requiredKeys: ["film", "base", "gamma", "unmix", "colour", "exposure", "filtration", "tone", "saturation"] },
);
