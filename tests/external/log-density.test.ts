import { describe, expect, it } from "vitest";
import { filmCurve, MID_GREY_LOG_H, straightLine } from "../../extension/engine/film/characteristic-curve.ts";
import { MID_GREY } from "../../extension/engine/colour/density.ts";
import { apply } from "../../extension/engine/math/matrix.ts";
import type { Matrix3, Rgb } from "../../extension/engine/types.ts";
import { numbers, referenceTable, triple } from "./reference.ts";

/*
 * Scanned negatives as log density codes: SMPTE ST 2065-3 (ADX) and the 10-bit printing-density log convention.
 * Source of the ADX constants: ampas/aces-dev v1.3, ACEScsc.Academy.ADX10_to_ACES.ctl. The decoder is put together here
 * from the engine's own film curve and straight line.
 */
const toChannelIndependent: Matrix3 = [
  [0.75573, 0.22197, 0.0223],
  [0.05901, 0.96928, -0.02829],
  [0.16134, 0.07406, 0.7646],
];
const toAces: Matrix3 = [
  [0.72286, 0.1263, 0.15084],
  [0.11923, 0.76418, 0.11659],
  [0.01427, 0.08213, 0.90359],
];
const lut = referenceTable("colour/adx_to_aces_lut1d.csv").map((row) => numbers(row, "CID", "log10_relative_exposure"));
const toe = filmCurve(
  lut.map(([, logE]) => logE),
  lut.map(([density]) => density),
);
const line = straightLine(0.55);
const logExposure = (density: number): number =>
  density <= 0.6 ? toe.logHAt(density) : line(density) + Math.log10(MID_GREY);

/** Density above the reference black of a code. */
const densityOfCode = (code: number, bits: number): number => (bits === 10 ? (code - 95) / 500 : (code - 1520) / 8000);

function acesOf(codes: Rgb, bits: number): Rgb {
  const dependent: Rgb = [densityOfCode(codes[0], bits), densityOfCode(codes[1], bits), densityOfCode(codes[2], bits)];
  const [r, g, b] = apply(toChannelIndependent, dependent).map(logExposure);
  return apply(toAces, [10 ** r, 10 ** g, 10 ** b]);
}

describe("ADX10 and ADX16 through the engine's curve", () => {
  const examples = referenceTable("colour/adx_worked_examples.csv");
  it.each(examples.map((row) => [row.case, row] as const))("%s", (_, row) => {
    const aces = acesOf(triple(row, "codeR", "codeG", "codeB"), Number(row.bits));
    // The published decoder joins the toe's points by straight lines, ours by a cubic. That tells only at the reference
    // black, which lies between two points three decades apart.
    const limit = densityOfCode(Number(row.codeR), Number(row.bits)) === 0 ? 0.12 : 5e-4;
    triple(row, "acesR", "acesG", "acesB").forEach((v, i) => expect(Math.abs(aces[i] / v - 1)).toBeLessThan(limit));
  });

  // Source: OpenColorIO, tests/cpu/transforms/BuiltinTransform_tests.cpp.
  it("meets OpenColorIO's expected values", () => {
    const ten = acesOf([511.5, 409.2, 306.9], 10);
    const sixteen = acesOf([8191.875, 6553.5, 4915.125], 16);
    [0.210518101, 0.148655364, 0.085189053].forEach((v, i) => expect(Math.abs(ten[i] - v)).toBeLessThan(5e-5));
    [0.211320836, 0.149169651, 0.08545297].forEach((v, i) => expect(Math.abs(sixteen[i] - v)).toBeLessThan(5e-5));
  });

  it("puts code 445, 0.70 D above base, at 18 % grey, as the engine's straight line does", () => {
    expect(densityOfCode(445, 10)).toBeCloseTo(0.7, 12);
    expect(densityOfCode(7120, 16)).toBeCloseTo(0.7, 12);
    expect(line(0.7)).toBeCloseTo(0, 12);
    expect(MID_GREY_LOG_H).toBeCloseTo(1.2727, 4);
    expect(acesOf([445, 445, 445], 10)[0]).toBeCloseTo(0.18, 4);
    // Code 685, reference white of the printing-density convention: 1.18 D.
    expect(MID_GREY * 10 ** line(densityOfCode(685, 10))).toBeCloseTo(1.34276, 4);
  });
});

// Source: the 10-bit log convention as published (0.002 D a code, gamma 0.6, black 95, white 685); check values of its
// encoding function from colour-science 0.4.6, cineon.py.
describe("10-bit printing density log", () => {
  const black = 10 ** ((95 - 685) / 300);
  const film = straightLine(0.6);
  const above = (code: number): number => (code - 95) * 0.002;
  it.each([
    [0, 0.0928641251],
    [0.18, 0.4573196131],
    [1, 0.669599218],
  ])("light %f is encoded as %f", (light, encoded) => {
    const logLight = Math.log10(light * (1 - black) + black);
    expect(film(above(encoded * 1023)) - film(above(685))).toBeCloseTo(logLight, 6);
  });
  it("spans 300 codes a decade of exposure", () => {
    expect(film(above(685)) - film(above(385))).toBeCloseTo(1, 10);
  });
});
