import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { monotoneCubic } from "../../../../extension/engine/math/monotone-cubic.ts";
import { between } from "../looks.ts";

/** Rising data: steps in x and in y. */
const data = fc.array(fc.tuple(between(0.01, 2), between(0.001, 2)), { minLength: 2, maxLength: 20 }).map((steps) => {
  const [x, y] = [[-1], [0.3]];
  for (const [dx, dy] of steps) {
    x.push(x[x.length - 1] + dx);
    y.push(y[y.length - 1] + dy);
  }
  return { x, y, curve: monotoneCubic(x, y) };
});

describe("monotone cubic", () => {
  it("runs through its points", () => {
    fc.assert(fc.property(data, ({ x, y, curve }) => x.forEach((v, i) => expect(curve.at(v)).toBeCloseTo(y[i], 12))));
  });
  it("rises between them and stays between its neighbours", () => {
    fc.assert(
      fc.property(data, between(0, 1), between(0, 1), ({ x, y, curve }, a, b) => {
        const span = x[x.length - 1] - x[0];
        const [one, two] = [x[0] + a * span, x[0] + b * span].sort((p, q) => p - q);
        expect(curve.at(two)).toBeGreaterThanOrEqual(curve.at(one) - 1e-12);
        const i = Math.min(Math.max(0, x.findIndex((v) => v > one) - 1), x.length - 2);
        const inside = Math.min(Math.max(one, x[i]), x[i + 1]);
        expect(curve.at(inside)).toBeGreaterThanOrEqual(y[i] - 1e-12);
        expect(curve.at(inside)).toBeLessThanOrEqual(y[i + 1] + 1e-12);
      }),
    );
  });
  it("goes back exactly: at(inverse(y)) = y, inside and outside", () => {
    fc.assert(
      fc.property(data, between(-0.5, 1.5), ({ y, curve }, part) => {
        const v = y[0] + part * (y[y.length - 1] - y[0]);
        expect(Math.abs(curve.at(curve.inverse(v)) - v)).toBeLessThan(1e-11);
      }),
    );
  });
  it("has the slope that its values show", () => {
    fc.assert(
      fc.property(data, between(-0.1, 1.1), ({ x, curve }, part) => {
        const v = x[0] + part * (x[x.length - 1] - x[0]);
        const h = 1e-6;
        // Not across a point: the second derivative jumps there.
        fc.pre(x.every((p) => Math.abs(p - v) > 2 * h));
        expect((curve.at(v + h) - curve.at(v - h)) / (2 * h)).toBeCloseTo(curve.slopeAt(v), 3);
      }),
    );
  });
  it("draws a straight line through points on one", () => {
    const line = monotoneCubic([0, 1, 3, 7], [1, 3, 7, 15]);
    for (const v of [-2, 0.3, 2.2, 6.9, 11]) expect(line.at(v)).toBeCloseTo(1 + 2 * v, 12);
    for (const v of [-3, 1, 6, 20]) expect(line.inverse(v)).toBeCloseTo((v - 1) / 2, 12);
  });
  it("stays level where its points are, and goes back to where the level begins or ends", () => {
    const flat = monotoneCubic([0, 1, 2, 3], [0, 1, 1, 1]);
    expect(flat.at(1.5)).toBe(1);
    expect(flat.at(9)).toBe(1);
    expect(flat.inverse(2)).toBe(3);
  });
  it("refuses points that do not ascend, too few, or of unequal number", () => {
    expect(() => monotoneCubic([0, 1, 1], [0, 1, 2])).toThrow(/point 3 \(1\) is not beyond 1/);
    expect(() => monotoneCubic([0, Number.NaN], [0, 1])).toThrow(RangeError);
    expect(() => monotoneCubic([0], [0])).toThrow(/two points or more/);
    expect(() => monotoneCubic([0, 1], [0])).toThrow(RangeError);
  });
});
