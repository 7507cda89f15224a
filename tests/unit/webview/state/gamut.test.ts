import { describe, expect, it } from "vitest";
import type { FrameLook } from "../../../../extension/engine/types.ts";
import { beyondScreen } from "../../../../webview/state/gamut.ts";

/** A slide shows its own light: transmittance is the colour, in linear sRGB primaries. */
const slide = (saturation: number): FrameLook =>
  ({
    film: "slide",
    base: [0, 0, 0],
    gamma: [1, 1, 1],
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
    filtration: { cyan: 0, magenta: 0, yellow: 0 },
    exposure: 0,
    saturation,
    tone: { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] },
  }) as unknown as FrameLook;
const WEIGHTS = [1 / 3, 1 / 3, 1 / 3] as const;
/** A grey and a strong red, half and half. */
const samples = Float32Array.from(
  Array.from({ length: 100 }, (_, i) => (i % 2 ? [0.2, 0.2, 0.2] : [0.4, 0.02, 0.02])).flat(),
);

describe("colours beyond the screen", () => {
  it("are counted where the output's space is wider than the screen's", () => {
    expect(beyondScreen(samples, slide(1), "romm", "srgb", WEIGHTS)).toBe(0);
    expect(beyondScreen(samples, slide(1.6), "romm", "srgb", WEIGHTS)).toBe(0.5);
    expect(beyondScreen(samples, slide(1.6), "p3", "srgb", WEIGHTS)).toBe(0.5);
  });
  it("are none in the screen's own space, nor in sRGB on any screen", () => {
    expect(beyondScreen(samples, slide(3), "p3", "p3", WEIGHTS)).toBe(0);
    expect(beyondScreen(samples, slide(3), "srgb", "p3", WEIGHTS)).toBe(0);
  });
});
