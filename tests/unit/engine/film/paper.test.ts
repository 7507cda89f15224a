import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { densityOf, MID_GREY, transmittanceOf } from "../../../../extension/engine/colour/density.ts";
import { filmCurve } from "../../../../extension/engine/film/characteristic-curve.ts";
import {
  densityRange,
  fittingRange,
  lookWithTone,
  nearestGrade,
  printedRange,
  statedRange,
  toneWithContrast,
} from "../../../../extension/engine/film/paper.ts";
import { toneCurve } from "../../../../extension/engine/film/print-curve.ts";
import type { FrameLook } from "../../../../extension/engine/types.ts";
import { between, plainLook, plainTone, tones } from "../looks.ts";

const silver: FrameLook = { ...plainLook, film: "black-and-white-negative", gamma: [0.62, 0.62, 0.62] };

describe("a paper's contrast as a recipe states it", () => {
  it("is a range or a grade", () => {
    expect([statedRange("R110"), statedRange("grade 2"), statedRange("grade -1")]).toEqual([110, 110, 180]);
    expect([statedRange(1.4), statedRange("grade 7"), statedRange("110")]).toEqual([undefined, undefined, undefined]);
  });
  it("gives a print curve that holds the range, whatever toe, shoulder and black", () => {
    fc.assert(
      fc.property(tones, between(40, 250), between(0.4, 0.9), (tone, range, gamma) => {
        const look = { ...silver, gamma: [gamma, gamma, gamma] as const };
        const whole = Math.round(range);
        const printed = { ...look, tone: toneWithContrast({ ...look, tone }, `R${whole}`) };
        expect(printed.tone.range).toBe(whole);
        expect(printedRange(printed)).toBeCloseTo(whole, 6);
        expect(toneCurve({ ...printed.tone, points: [] })(MID_GREY)).toBeCloseTo(MID_GREY, 12);
      }),
    );
  });
  it("is the steeper the shorter the range, in inverse proportion", () => {
    const slope = (range: string): number => toneWithContrast(silver, range).contrast;
    expect(slope("R60") / slope("R120")).toBeCloseTo(2, 9);
  });
  it("stays a range when toe, shoulder or black move, and a slope stays a slope", () => {
    const paper = { ...silver, tone: toneWithContrast(silver, "R100") };
    const softer = lookWithTone(paper, { toe: 0.9 });
    expect(softer.tone.contrast).not.toBeCloseTo(paper.tone.contrast, 2);
    expect(printedRange(softer)).toBeCloseTo(100, 6);
    expect(lookWithTone(silver, { toe: 0.9 }).tone).toEqual({ ...plainTone, toe: 0.9 });
  });
  it("goes by the straight part of a film's curve, and by the light of a slide", () => {
    const logH = [-2, -1, 0, 1];
    const density = [0.1, 0.6, 1.1, 1.6];
    const curve = { logH, red: density, green: density, blue: density };
    expect(filmCurve(logH, density).gamma).toBeCloseTo(0.5, 9);
    const slope = (look: FrameLook): number => toneWithContrast(look, "R100").contrast;
    expect(slope({ ...silver, curve }) / slope(silver)).toBeCloseTo(0.5 / 0.62, 9);
    expect(slope({ ...silver, film: "slide" }) / slope(silver)).toBeCloseTo(1 / 0.62, 9);
  });
  it("knows the nearest grade", () => {
    expect([nearestGrade(300).grade, nearestGrade(112).grade, nearestGrade(88).grade, nearestGrade(20).grade]).toEqual([
      -1, 2, 4, 5,
    ]);
  });
});

describe("the density range of a picture", () => {
  const EQUAL = [1 / 3, 1 / 3, 1 / 3] as const;
  it("is what lies between its thinnest and its densest hundredth", () => {
    // A thousand squares, evenly from 0.2 to 1.4 D: the middle 98 % of 1.2 D.
    const sample = Float32Array.from({ length: 3000 }, (_, i) =>
      transmittanceOf(0.2 + (1.2 * Math.floor(i / 3)) / 999),
    );
    expect(densityRange(sample, EQUAL)).toBeCloseTo(0.98 * 1.2, 3);
  });
  it("is read from the channels' weighted light, and leaves squares out that are no number", () => {
    const sample = Float32Array.from([0.5, 0.1, 0.1, NaN, 1, 1, 0.05, 0.9, 0.9]);
    const expected = densityOf(0.05) - densityOf(0.5);
    expect(densityRange(sample, [1, 0, 0])).toBeCloseTo(0.98 * expected, 5);
    expect(densityRange(Float32Array.from([NaN, NaN, NaN]), EQUAL)).toBeUndefined();
  });
  it("asks for paper within what a recipe may state", () => {
    expect([fittingRange(1.084), fittingRange(0.1), fittingRange(4)]).toEqual([108, 40, 250]);
  });
});
