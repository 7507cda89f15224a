/** Random looks over everything that a recipe allows. */
import fc from "../properties.ts";
import type { FrameLook, LocalArea, Matrix3, Rgb } from "../../extension/engine/types.ts";

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const triple = (min: number, max: number): fc.Arbitrary<Rgb> =>
  fc.tuple(between(min, max), between(min, max), between(min, max));

/** Rows that sum to 1, from their two off-diagonal shares. */
const summing = (reach: number): fc.Arbitrary<Matrix3> =>
  fc.array(between(-reach, reach), { minLength: 6, maxLength: 6 }).map(([a, b, c, d, e, f]) => [
    [1 - a - b, a, b],
    [c, 1 - c - d, d],
    [e, f, 1 - e - f],
  ]);

const curve = fc.tuple(between(0.45, 0.75), between(0.1, 0.4), between(1.6, 2.2)).map(([gamma, dmin, range]) => {
  const logH = Array.from({ length: 16 }, (_, i) => -3 + i * 0.25);
  const one = (offset: number): number[] =>
    logH.map((h) => dmin + offset + range / (1 + Math.exp((-4 * gamma * (h + 1)) / range)));
  return { logH, red: one(0), green: one(0.3), blue: one(0.45) };
});

const points = fc
  .uniqueArray(fc.integer({ min: 1, max: 19 }), { minLength: 0, maxLength: 5 })
  .map((xs) => xs.sort((a, b) => a - b).map((x) => [x * 5, Math.min(100, x * 5 + ((x * 7) % 5))] as const));

const hue = (strongest: number) =>
  fc.record({ hue: between(0, 360), strength: fc.oneof(fc.constant(0), between(0, strongest)) });

export const anyLook: fc.Arbitrary<FrameLook> = fc.record({
  film: fc.constantFrom("colour-negative", "colour-negative", "black-and-white-negative", "slide"),
  base: triple(0, 1.2),
  gamma: triple(0.4, 0.9),
  curve: fc.option(curve, { nil: undefined }),
  unmix: summing(0.4),
  colour: summing(0.6),
  exposure: between(-4, 4),
  filtration: fc.record({ cyan: between(-40, 40), magenta: between(-40, 40), yellow: between(-40, 40) }),
  tone: fc.oneof(
    fc.record({
      contrast: between(0.4, 3),
      toe: between(0, 1),
      shoulder: between(0, 1),
      black: between(0, 15),
      points,
    }),
    fc.record({
      version: fc.constant(2 as const),
      contrast: between(0.4, 3),
      toe: between(-1, 1),
      shoulder: between(-1, 1),
      black: between(0, 15),
      points,
    }),
  ),
  saturation: between(0, 2),
  toning: fc.option(fc.record({ shadows: hue(60), highlights: hue(60), paper: hue(30) }), { nil: undefined }),
});

const shown = fc.tuple(between(-0.2, 1.2), between(-0.2, 1.2));
const effect = {
  exposure: between(-2, 2),
  filtration: fc.record({ cyan: between(-30, 30), magenta: between(-30, 30), yellow: between(-30, 30) }),
  contrast: between(0.4, 2.5),
};

/** Areas of local exposure of every shape. */
export const anyAreas: fc.Arbitrary<readonly LocalArea[]> = fc.array(
  fc.oneof(
    fc.record({ shape: fc.record({ kind: fc.constant("line" as const), from: shown, to: shown }), ...effect }),
    fc.record({
      shape: fc.record({
        kind: fc.constant("oval" as const),
        centre: shown,
        radii: fc.tuple(between(0.02, 0.6), between(0.02, 0.6)),
        turn: between(-90, 90),
        feather: between(0, 0.5),
      }),
      ...effect,
    }),
    fc.record({
      shape: fc.record({
        kind: fc.constant("polygon" as const),
        points: fc.tuple(shown, shown, shown),
        feather: between(0, 0.5),
      }),
      ...effect,
    }),
  ),
  { minLength: 1, maxLength: 4 },
);
