import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { evaluator } from "../../../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../../../extension/engine/types.ts";
import { greyExposure, neutralFiltration } from "../../../../webview/state/pick.ts";
import { anyLook } from "../../../browser/looks.ts";

const film: FrameLook = {
  film: "colour-negative",
  base: [0.31, 0.6, 0.76],
  gamma: [0.53, 0.56, 0.63],
  unmix: [
    [1.21, -0.17, -0.04],
    [-0.13, 1.25, -0.12],
    [-0.02, -0.19, 1.21],
  ],
  colour: [
    [1.2, -0.2, 0],
    [-0.1, 1.2, -0.1],
    [0, -0.2, 1.2],
  ],
  exposure: 0.3,
  filtration: { cyan: 2, magenta: 4, yellow: 7 },
  tone: { contrast: 1.4, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
  saturation: 1.1,
};
const above = (base: number) => fc.double({ min: 0.2, max: 1.3, noNaN: true }).map((d) => 10 ** -(base + d));
const light: fc.Arbitrary<Rgb> = fc.tuple(above(0.31), above(0.6), above(0.76));

describe("picking a neutral", () => {
  it("makes the place neutral, with the red and the cyan filter as they were", () => {
    fc.assert(
      fc.property(light, (t) => {
        const filtration = neutralFiltration(film, t);
        expect(filtration?.cyan).toBe(2);
        const before = evaluator(film, "srgb")(t);
        const { lab, logExposure } = evaluator({ ...film, filtration: filtration ?? film.filtration }, "srgb")(t);
        expect(Math.hypot(lab[1], lab[2])).toBeLessThan(0.01);
        expect(logExposure[0]).toBeCloseTo(before.logExposure[0], 6);
      }),
    );
  });

  it("works on slides, and says no on film without colours", () => {
    const slide: FrameLook = { ...film, film: "slide" };
    const filtration = neutralFiltration(slide, [0.2, 0.25, 0.15]);
    const { lab } = evaluator({ ...slide, filtration: filtration ?? slide.filtration }, "srgb")([0.2, 0.25, 0.15]);
    expect(Math.hypot(lab[1], lab[2])).toBeLessThan(0.01);
    expect(neutralFiltration({ ...film, film: "black-and-white-negative" }, [0.2, 0.2, 0.2])).toBeUndefined();
  });

  it("never throws, whatever the look", () => {
    fc.assert(
      fc.property(anyLook, light, (look, t) => {
        expect(() => neutralFiltration(look, t)).not.toThrow();
      }),
    );
  });
});

describe("picking a mid-grey", () => {
  it("brings the place's luminance to 18 %: L* 49.5 on a neutral (CIE 15)", () => {
    fc.assert(
      fc.property(light, (t) => {
        const neutral = { ...film, filtration: neutralFiltration(film, t) ?? film.filtration };
        const exposure = greyExposure(neutral, t) ?? NaN;
        expect(evaluator({ ...neutral, exposure }, "srgb")(t).lab[0]).toBeCloseTo(49.496, 1);
      }),
    );
  });
});
