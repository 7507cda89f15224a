import { describe, expect, it } from "vitest";
import { toneCurve } from "../../../../extension/engine/film/print-curve.ts";
import { MID_GREY } from "../../../../extension/engine/colour/density.ts";
import { toneDifference, toneEndIn, toneIn } from "../../../../extension/engine/film/tone-versions.ts";
import { plainTone } from "../looks.ts";

describe("toe and shoulder in the terms of the other version", () => {
  it("are 0 for version 1's defaults, and lie in version 2's range for all others", () => {
    expect(toneEndIn(2, "toe", 0.3, 1)).toBe(0);
    expect(toneEndIn(2, "shoulder", 0.4, 1)).toBe(0);
    for (const value of [0, 0.15, 0.5, 0.75, 1]) {
      // Softer is lighter in the shadows and darker in the highlights.
      expect(Math.sign(toneEndIn(2, "toe", value, 1))).toBe(Math.sign(value - 0.3));
      expect(Math.sign(toneEndIn(2, "shoulder", value, 1))).toBe(Math.sign(0.4 - value));
    }
  });
  it("keep mid-grey, and greys within ΔE00 1.3 where version 1 was used as its start proposes", () => {
    for (const tone of [
      plainTone,
      { ...plainTone, toe: 0.6, shoulder: 0.7 },
      { ...plainTone, toe: 0.35, shoulder: 0.45 },
    ]) {
      const second = toneIn(2, tone);
      expect(second.version).toBe(2);
      expect(toneCurve(second)(MID_GREY)).toBeCloseTo(MID_GREY, 12);
      expect(toneDifference(tone, second, 1)).toBeLessThan(1.3);
      expect(toneDifference(tone, second, 3)).toBeGreaterThanOrEqual(toneDifference(tone, second, 1));
    }
  });
  it("come back as they were, to where version 1 hardly tells values apart", () => {
    for (const value of [0.3, 0.6, 1]) {
      const tone = { ...plainTone, toe: value };
      expect(toneDifference(tone, toneIn(1, toneIn(2, tone)), 1)).toBeLessThan(0.1);
    }
    expect(toneIn(1, plainTone)).toEqual(plainTone);
  });
});
