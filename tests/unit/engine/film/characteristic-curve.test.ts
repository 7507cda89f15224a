import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import {
  filmCurve,
  straightLine,
  tableInverse,
  USABLE_SLOPE,
} from "../../../../extension/engine/film/characteristic-curve.ts";
import { between } from "../looks.ts";

/** A curve with a soft toe at 0, gamma 0.6 and a shoulder from 2.6 on. */
const logH = Array.from({ length: 41 }, (_, i) => -1 + i * 0.1);
const density = logH.map((x) => 0.2 + 0.6 * 0.15 * Math.log1p(Math.exp(x / 0.15)) - 0.25 * Math.max(0, x - 2.4) ** 2);
const film = filmCurve(logH, density);

describe("characteristic curve", () => {
  it("knows its base and the slope of its straight part", () => {
    expect(film.dmin).toBeCloseTo(0.2, 3);
    expect(film.gamma).toBeCloseTo(0.6, 2);
  });
  it("ends toe and shoulder where the slope falls below a fifth of the straight part's", () => {
    expect(film.slopeAt(film.toe)).toBeCloseTo(USABLE_SLOPE * film.gamma, 6);
    expect(film.toe).toBeGreaterThan(-0.4);
    expect(film.toe).toBeLessThan(0);
  });
  it("goes back exactly between them", () => {
    fc.assert(
      fc.property(between(film.toe, film.shoulder), (x) => {
        expect(Math.abs(film.inverse(film.at(x)) - x)).toBeLessThan(1e-9);
      }),
    );
  });
  it("never turns a density error into more than five times what the straight part makes of it", () => {
    const most = 1 / (USABLE_SLOPE * film.gamma) + 1e-6;
    fc.assert(
      fc.property(between(-1, 4), between(1e-4, 0.1), (d, noise) => {
        const step = film.inverse(d + noise) - film.inverse(d);
        expect(step).toBeGreaterThan(0);
        expect(step).toBeLessThan(most * noise);
      }),
    );
  });
  it("goes on without a jump below the toe and beyond the shoulder", () => {
    for (const x of [film.toe, film.shoulder]) {
      const d = film.at(x);
      expect(film.inverse(d + 1e-9) - film.inverse(d - 1e-9)).toBeLessThan(1e-7);
    }
  });
  it("levels small falls of a digitised table", () => {
    const bumpy = filmCurve([0, 1, 2, 3, 4], [0.2, 0.21, 0.205, 0.9, 1.6]);
    expect(bumpy.at(1)).toBeCloseTo(0.2075, 6);
    expect(bumpy.at(2)).toBeCloseTo(0.2075, 6);
    expect(bumpy.inverse(0.9)).toBeCloseTo(3, 9);
  });
  it("refuses a table that does not rise", () => {
    expect(() => filmCurve([0, 1, 2], [1, 0.5, 0.2])).toThrow(/must rise/);
  });
});

describe("relative exposure of a density above base", () => {
  it("is 0 at 0.70 D on a straight line of gamma 0.55", () => {
    expect(straightLine(0.55)(0.7)).toBeCloseTo(0, 12);
    expect(straightLine(0.55)(0.7 + 0.55)).toBeCloseTo(1, 12);
    expect(() => straightLine(0)).toThrow(RangeError);
  });
  it("is 0 where green is 0.70 above its least density, or where the table says", () => {
    const table = { logH, red: density, green: density, blue: density.map((d) => d + 0.3) };
    const [red, green, blue] = tableInverse(table);
    expect(green(0.7)).toBeCloseTo(0, 9);
    expect(red(0.9)).toBeCloseTo(green(0.9), 9);
    // A table's offset is its base and does not matter.
    expect(blue(0.9)).toBeCloseTo(green(0.9), 9);
    const [, own] = tableInverse({ ...table, mid: 1.5 });
    expect(own(film.at(1.5) - film.dmin)).toBeCloseTo(0, 9);
  });
});
