import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { adjuster, aspectOf, crossesItself, strengthOf } from "../../../../extension/engine/local/areas.ts";
import type { LocalArea, LocalShape } from "../../../../extension/engine/types.ts";
import { anyAreas } from "../../../browser/looks.ts";

const WIDE = aspectOf(3, 2);
const SQUARE = aspectOf(1, 1);
const at = (shape: LocalShape, x: number, y: number, aspect = WIDE): number => strengthOf(shape, aspect)(x, y);

describe("a line", () => {
  const sky: LocalShape = { kind: "line", from: [0.5, 0.2], to: [0.5, 0.6] };
  it("counts whole before its first point, half in the middle and not beyond its second", () => {
    for (const x of [0, 0.5, 1]) {
      expect(at(sky, x, 0.1)).toBe(1);
      expect(at(sky, x, 0.4)).toBeCloseTo(0.5, 12);
      expect(at(sky, x, 0.6)).toBe(0);
      expect(at(sky, x, 0.9)).toBe(0);
    }
  });
  it("has its steps at right angles to it, as the picture is seen", () => {
    const slant: LocalShape = { kind: "line", from: [0.2, 0.3], to: [0.6, 0.7] };
    // From the middle, along the perpendicular of the picture 3 : 2: (dx, dy) · (0.4, 0.4 · 2/3) = 0 in longest sides.
    const step = 0.1;
    const across: readonly [number, number] = [0.4 + step * (0.4 * (2 / 3)), 0.5 - (step * 0.4) / (2 / 3)];
    expect(at(slant, ...across)).toBeCloseTo(0.5, 12);
  });
});

describe("an oval", () => {
  const round: LocalShape = { kind: "oval", centre: [0.5, 0.5], radii: [0.2, 0.3], turn: 0, feather: 0.1 };
  it("counts whole in the middle, half at its outline and not outside of its feather", () => {
    expect(at(round, 0.5, 0.5)).toBe(1);
    // 0.2 of the width and 0.3 of the height are equally long in a picture of 3 : 2.
    for (const [x, y] of [
      [0.7, 0.5],
      [0.3, 0.5],
      [0.5, 0.8],
      [0.5, 0.2],
    ])
      expect(at(round, x, y)).toBeCloseTo(0.5, 9);
    expect(at(round, 0.76, 0.5)).toBe(0);
    expect(at(round, 0.64, 0.5)).toBe(1);
  });
  it("turns clockwise about its centre", () => {
    const long: LocalShape = { kind: "oval", centre: [0.5, 0.5], radii: [0.4, 0.1], turn: 90, feather: 0.05 };
    expect(at(long, 0.5, 0.85, SQUARE)).toBe(1);
    expect(at(long, 0.85, 0.5, SQUARE)).toBe(0);
    const slanted: LocalShape = { ...long, turn: 45 };
    // Clockwise on a picture whose y runs downwards: its right end goes down.
    expect(at(slanted, 0.7, 0.7, SQUARE)).toBe(1);
    expect(at(slanted, 0.7, 0.3, SQUARE)).toBe(0);
  });
});

describe("a polygon", () => {
  const house: LocalShape = {
    kind: "polygon",
    feather: 0.1,
    points: [
      [0.2, 0.2],
      [0.8, 0.2],
      [0.8, 0.8],
      [0.2, 0.8],
    ],
  };
  it("counts half on its sides, whole and not at all half a feather from them", () => {
    expect(at(house, 0.5, 0.5)).toBe(1);
    expect(at(house, 0.2, 0.5)).toBeCloseTo(0.5, 12);
    expect(at(house, 0.26, 0.5)).toBe(1);
    expect(at(house, 0.14, 0.5)).toBe(0);
    // The feather is as wide upwards as sideways: 0.05 of the longest side is 0.075 of the height.
    expect(at(house, 0.5, 0.2 + 0.074)).toBeGreaterThan(0.99);
    expect(at(house, 0.5, 0.2 - 0.076)).toBe(0);
  });
  it("may be hollow on one side", () => {
    const hollow: LocalShape = {
      kind: "polygon",
      feather: 0.02,
      points: [
        [0.1, 0.1],
        [0.9, 0.1],
        [0.9, 0.9],
        [0.5, 0.3],
        [0.1, 0.9],
      ],
    };
    expect(at(hollow, 0.5, 0.2, SQUARE)).toBe(1);
    expect(at(hollow, 0.5, 0.7, SQUARE)).toBe(0);
  });
  it("knows when it crosses or touches itself", () => {
    expect(
      crossesItself([
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ]),
    ).toBe(false);
    expect(
      crossesItself([
        [0, 0],
        [1, 1],
        [1, 0],
        [0, 1],
      ]),
    ).toBe(true);
    expect(
      crossesItself([
        [0, 0],
        [1, 0],
        [0.5, 0],
      ]),
    ).toBe(true);
    expect(
      crossesItself([
        [0, 0],
        [1, 0],
        [1, 1],
        [0.5, 0],
        [0, 1],
      ]),
    ).toBe(true);
    expect(
      crossesItself([
        [0.1, 0.1],
        [0.9, 0.1],
        [0.9, 0.9],
        [0.5, 0.3],
        [0.1, 0.9],
      ]),
    ).toBe(false);
  });
});

describe("areas together", () => {
  it("count between 0 and 1 and change little from place to place", () => {
    fc.assert(
      fc.property(
        anyAreas,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (areas, x, y) => {
          for (const { shape } of areas) {
            const strength = strengthOf(shape, WIDE);
            const here = strength(x, y);
            expect(here).toBeGreaterThanOrEqual(0);
            expect(here).toBeLessThanOrEqual(1);
            // 1.5 / MIN_FEATHER is the steepest there is.
            expect(Math.abs(strength(x + 1e-7, y) - here)).toBeLessThan(1e-3);
          }
        },
      ),
    );
  });
  it("add exposures and filters and multiply contrasts", () => {
    const all: LocalShape = { kind: "oval", centre: [0.5, 0.5], radii: [0.9, 0.9], turn: 0, feather: 0.1 };
    const area = (exposure: number, yellow: number, contrast: number): LocalArea => ({
      shape: all,
      exposure,
      filtration: { cyan: 0, magenta: 0, yellow },
      contrast,
    });
    const sum = adjuster([area(-0.5, 10, 1.5), area(0.2, -4, 2)], WIDE)(0.5, 0.5);
    expect(sum.exposure).toBeCloseTo(-0.3, 12);
    expect(sum.density[2]).toBeCloseTo(0.06, 12);
    expect(sum.contrast).toBeCloseTo(3, 12);
  });
});
