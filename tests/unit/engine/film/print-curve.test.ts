import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { lightnessOf, luminanceOf } from "../../../../extension/engine/colour/lab.ts";
import { MID_GREY } from "../../../../extension/engine/colour/density.ts";
import { toneCurve } from "../../../../extension/engine/film/print-curve.ts";
import { between, plainTone, tones } from "../looks.ts";

const stops = (n: number): number => MID_GREY * 2 ** n;
const untouched = tones.map((tone) => ({ ...tone, points: [] }));

describe("print curve", () => {
  it("keeps mid-grey whatever the setting", () => {
    fc.assert(
      fc.property(untouched, (tone) => {
        expect(toneCurve(tone)(MID_GREY)).toBeCloseTo(MID_GREY, 12);
      }),
    );
  });
  it("has the contrast as its slope there, whatever toe and shoulder", () => {
    fc.assert(
      fc.property(untouched, (tone) => {
        const y = toneCurve(tone);
        const h = 1e-5;
        const slope = Math.log(y(MID_GREY * (1 + h)) / y(MID_GREY * (1 - h))) / Math.log((1 + h) / (1 - h));
        // With the knee on mid-grey itself the bend is felt as h^1.5.
        expect(Math.abs(slope / tone.contrast - 1)).toBeLessThan(1e-5);
      }),
    );
  });
  it("rises strictly from black to white", () => {
    fc.assert(
      fc.property(untouched, between(-8, 6), between(0.01, 0.5), (tone, at, step) => {
        const y = toneCurve(tone);
        expect(y(stops(at + step))).toBeGreaterThan(y(stops(at)));
        expect(y(stops(at))).toBeGreaterThan(luminanceOf(tone.black) * (1 - 1e-9));
        expect(y(stops(at))).toBeLessThan(1);
      }),
    );
  });
  it("is the straight line up to the knee", () => {
    const y = toneCurve(plainTone);
    for (const n of [-4, -2, -1, 0.5, 1]) expect(y(stops(n))).toBeCloseTo(MID_GREY * 2 ** (n * 1.35), 9);
  });
  it("bends without a corner: slope and curvature run through the knee", () => {
    const y = toneCurve({ ...plainTone, contrast: 1, shoulder: 0.5 });
    const v = (u: number): number => Math.log10(y(MID_GREY * 10 ** u) / MID_GREY);
    const curvature = (u: number, h: number): number => (v(u + h) - 2 * v(u) + v(u - h)) / h ** 2;
    const knee = -Math.log10(MID_GREY) * (1 - 0.51);
    // Curvature begins at 0 like the square root: on the near side it shrinks with the distance.
    expect(Math.abs(curvature(knee - 0.002, 0.001))).toBeLessThan(1e-6);
    expect(Math.abs(curvature(knee + 0.001, 0.0005))).toBeLessThan(0.5 * Math.abs(curvature(knee + 0.016, 0.0005)));
  });
  it("gives black for no light and white for very much", () => {
    const y = toneCurve(plainTone);
    expect(lightnessOf(y(0))).toBeCloseTo(0.5, 9);
    expect(lightnessOf(y(-1))).toBeCloseTo(0.5, 9);
    expect(lightnessOf(y(1e30))).toBeGreaterThan(99.9);
    expect(y(Infinity)).toBe(1);
  });
  // Common practice, no source: what a good straight print shows.
  it("makes a good print with its plain values", () => {
    const L = (n: number): number => lightnessOf(toneCurve(plainTone)(stops(n)));
    expect(L(0)).toBeCloseTo(49.5, 1);
    expect(L(2.5)).toBeGreaterThan(90);
    expect(L(2.5)).toBeLessThan(97);
    // A white shirt, 90 % reflectance, is white but not bare paper; a cloud two stops above it still parts from it.
    expect(L(2.32)).toBeGreaterThan(90);
    expect(L(4.32) - L(2.32)).toBeGreaterThan(3);
    expect(L(-3.5)).toBeGreaterThan(5);
    expect(L(-3.5)).toBeLessThan(12);
  });
});

describe("points of the print curve", () => {
  const L = (points: readonly (readonly [number, number])[], at: number): number =>
    lightnessOf(toneCurve({ ...plainTone, contrast: 1, points })(luminanceOf(at)));
  it("are met", () => {
    expect(
      L(
        [
          [25, 20],
          [49, 55],
          [75, 78],
        ],
        49,
      ),
    ).toBeCloseTo(55, 9);
    expect(
      L(
        [
          [25, 20],
          [49, 55],
          [75, 78],
        ],
        25,
      ),
    ).toBeCloseTo(20, 9);
  });
  it("reach from black to white where they do not say so", () => {
    expect(L([[50, 60]], 0.6)).toBeLessThan(2);
    expect(lightnessOf(toneCurve({ ...plainTone, points: [[50, 60]] })(1e30))).toBeGreaterThan(99.9);
    // Lifted blacks stay lifted.
    expect(
      L(
        [
          [0, 8],
          [50, 50],
          [100, 95],
        ],
        0.6,
      ),
    ).toBeGreaterThan(8);
    expect(
      lightnessOf(
        toneCurve({
          ...plainTone,
          points: [
            [0, 8],
            [100, 95],
          ],
        })(1e30),
      ),
    ).toBeCloseTo(95, 1);
  });
  it("keep tones in order", () => {
    fc.assert(
      fc.property(tones, between(-8, 6), between(0.01, 1), (tone, at, step) => {
        const y = toneCurve(tone);
        expect(y(stops(at + step))).toBeGreaterThanOrEqual(y(stops(at)) - 1e-12);
      }),
    );
  });
});
