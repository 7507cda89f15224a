import { describe, expect, it } from "vitest";
import { codeOf } from "../../../../extension/engine/plan/log-code.ts";
import type { FrameLook } from "../../../../extension/engine/types.ts";
import { sourceOf } from "../../../../webview/render/source.ts";
import { planFor } from "../../../../webview/render/view-plans.ts";
import {
  DENSITY_BINS,
  densityHistogram,
  MIN_DENSITY,
  MAX_DENSITY,
  printHistogram,
  samplesOf,
} from "../../../../webview/state/histogram.ts";
import { croppedFrame } from "../../../../webview/state/frame-transform.ts";
import { wedgeProxy } from "../../../browser/wedge.ts";

const look: FrameLook = {
  film: "colour-negative",
  base: [0.31, 0.6, 0.76],
  gamma: [0.55, 0.55, 0.55],
  unmix: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  colour: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  exposure: 0,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  tone: { contrast: 1.4, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
  saturation: 1,
};

describe("histograms", () => {
  it("count the picture alone, at the densities that it has", () => {
    const source = sourceOf(wedgeProxy("w", "picture"));
    const inPicture = croppedFrame(source.scanWidth, source.scanHeight, {
      area: { left: 0.05, top: 0.05, width: 0.9, height: 0.9, tilt: 0 },
      turn: 90,
      mirror: true,
    });
    const samples = samplesOf(source, inPicture);
    expect(samples.light.length / 3).toBeGreaterThan(25_000);
    const counts = densityHistogram(samples.light, look);
    expect(counts.reduce((a, b) => a + b, 0)).toBe(samples.light.length);
    const bin = (d: number) => Math.floor(((d - MIN_DENSITY) / (MAX_DENSITY - MIN_DENSITY)) * DENSITY_BINS);
    // Green of the neutral scale: 0.15, 0.27 … 1.47; nothing at base, where the rebate is.
    for (let i = 0; i < 12; i++)
      expect(
        counts[DENSITY_BINS + bin(0.15 + i * 0.12 + 0.001)] + counts[DENSITY_BINS + bin(0.15 + i * 0.12 - 0.001)],
      ).toBeGreaterThan(500);
    expect(counts[DENSITY_BINS + bin(0.001)]).toBe(0);
  });

  it("tell what is lost at both ends", () => {
    const codes = new Uint16Array(100 * 3);
    for (let i = 0; i < 100; i++)
      for (let c = 0; c < 3; c++)
        codes[3 * i + c] = codeOf(10 ** -(look.base[c] + (i < 20 ? 3.5 : i < 50 ? -0.5 : 0.7)));
    const all = Float32Array.from(codes, (code) => 2 ** (code / (65535 / 24) - 16));
    const { white, black, counts } = printHistogram(
      { light: all, places: new Float32Array(200) },
      planFor("print", { ...look, tone: { ...look.tone, contrast: 3 } }, "srgb"),
    );
    expect(white).toBeCloseTo(0.2, 6);
    expect(black).toBeCloseTo(0.3, 6);
    expect(counts.reduce((a, b) => a + b, 0)).toBe(300);
  });
});
