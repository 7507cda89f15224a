import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { lightnessOf, luminanceOf } from "../../../../extension/engine/colour/lab.ts";
import { MID_GREY } from "../../../../extension/engine/colour/density.ts";
import { toneCurve } from "../../../../extension/engine/film/print-curve.ts";
import { SPACES } from "../../../../extension/engine/colour/spaces.ts";
import { between, plainTone, tones, tonesOfVersion2 } from "../looks.ts";

const stops = (n: number): number => MID_GREY * 2 ** n;
const untouched = fc.oneof(tones, tonesOfVersion2).map((tone) => ({ ...tone, points: [] }));

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

describe("toe and shoulder of version 2", () => {
  const neutral = { ...plainTone, toe: 0, shoulder: 0, version: 2 as const };
  /** The exposure that the neutral curve prints at L*. */
  const exposureAt = (lightness: number): number => {
    const y = toneCurve(neutral);
    let [low, high] = [-8, 6];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (lightnessOf(y(stops(middle))) < lightness) low = middle;
      else high = middle;
    }
    return stops(low);
  };
  const code = (tone: typeof plainTone, h: number): number => 255 * SPACES.srgb.encode(toneCurve(tone)(h));

  it("are at 0 the defaults of version 1, to the last bit", () => {
    for (let n = -10; n <= 6; n += 0.25) expect(toneCurve(neutral)(stops(n))).toBe(toneCurve(plainTone)(stops(n)));
  });
  it("run without a corner anywhere: C1", () => {
    fc.assert(
      fc.property(tonesOfVersion2, between(-6, 5), (tone, at) => {
        const y = toneCurve({ ...tone, points: [] });
        const v = (n: number): number => Math.log2(y(stops(n)));
        // One-sided slopes over a thousandth and a ten-thousandth of a stop: a corner would keep them apart.
        const gap = (h: number): number => Math.abs((v(at + h) - v(at)) / h - (v(at) - v(at - h)) / h);
        expect(gap(1e-4)).toBeLessThan(Math.max(2e-2, 0.5 * gap(1e-2)));
      }),
    );
  });
  it("move their third of the scale several times as far as version 1's, and the other side not at all", () => {
    const move = (end: "toe" | "shoulder", from: number, to: number, version: 1 | 2): number[] => {
      const base = version === 1 ? plainTone : neutral;
      const thirds = end === "toe" ? [1, 33] : [67, 99];
      const moves: number[] = [];
      for (let L = thirds[0]; L <= thirds[1]; L++) {
        const h = exposureAt(L);
        moves.push(Math.abs(code({ ...base, [end]: to }, h) - code({ ...base, [end]: from }, h)));
      }
      return [Math.max(...moves), moves.reduce((a, b) => a + b) / moves.length];
    };
    const [toe1, toe2] = [move("toe", 0, 1, 1), move("toe", -1, 1, 2)];
    const [shoulder1, shoulder2] = [move("shoulder", 0, 1, 1), move("shoulder", -1, 1, 2)];
    // Largest and mean move over the third, in codes of 255: docs/mathematics.md states these figures.
    expect(toe1.map(Math.round)).toEqual([14, 7]);
    expect(toe2.map(Math.round)).toEqual([56, 44]);
    expect(shoulder1.map(Math.round)).toEqual([60, 31]);
    expect(shoulder2.map(Math.round)).toEqual([82, 73]);
    for (const L of [55, 70, 90])
      expect(code({ ...neutral, toe: 1 }, exposureAt(L))).toBeCloseTo(code(neutral, exposureAt(L)), 9);
    for (const L of [10, 30, 45])
      expect(code({ ...neutral, shoulder: -1 }, exposureAt(L))).toBeCloseTo(code(neutral, exposureAt(L)), 9);
  });
  it("open above 0 and close below it", () => {
    for (const L of [8, 16, 25]) {
      const h = exposureAt(L);
      expect(code({ ...neutral, toe: 0.5 }, h)).toBeGreaterThan(code(neutral, h) + 5);
      expect(code({ ...neutral, toe: -0.5 }, h)).toBeLessThan(code(neutral, h) - 5);
    }
    for (const L of [75, 84]) {
      const h = exposureAt(L);
      expect(code({ ...neutral, shoulder: 0.5 }, h)).toBeGreaterThan(code(neutral, h) + 5);
      expect(code({ ...neutral, shoulder: -0.5 }, h)).toBeLessThan(code(neutral, h) - 5);
    }
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
