/** What the scans of a roll show together: the best base, and the flare that they share. */
import { describe, expect, it } from "vitest";
import { rankBases } from "../../../../../extension/engine/auto/roll/base-ranking.ts";
import { rollFlare, samplesWithoutFlare, USUAL_FLARE } from "../../../../../extension/engine/auto/roll/common-flare.ts";
import type { FoundBase } from "../../../../../extension/engine/detect/base.ts";
import type { Rgb } from "../../../../../extension/engine/types.ts";

const base = (density: Rgb, confidence = 1): { base: FoundBase } => ({ base: { density, confidence } as FoundBase });

describe("the bases of a roll", () => {
  it("are ranked by how near they lie to the middle of them all", () => {
    const found = [base([0.3, 0.6, 0.8]), {}, base([0.31, 0.61, 0.81]), base([0.4, 0.6, 0.8])];
    const { ranked, spread } = rankBases(found, 0);
    expect(ranked.map(({ index }) => index)).toEqual([0, 2, 3]);
    expect(spread).toBeCloseTo(0.09, 9);
  });

  it("put a leader before a rebate, and one that is sure before one that is not", () => {
    const same: Rgb = [0.3, 0.6, 0.8];
    expect(rankBases([base(same, 0.5), base(same), base(same, 0.5)], 1).ranked.map(({ index }) => index)).toEqual([
      0, 1, 2,
    ]);
    expect(rankBases([base(same), base(same, 0.5), base(same)], 0).ranked.map(({ index }) => index)).toEqual([0, 2, 1]);
  });

  it("are none where no scan shows one", () => {
    expect(rankBases([{}, {}], 1).ranked).toEqual([]);
  });
});

describe("the flare of a roll", () => {
  const seen = (flare: Rgb) => ({ flare });

  it("is the least that its pictures show, where half of them show any", () => {
    expect(rollFlare([seen([0.004, 0.006, 0.005]), seen([0.005, 0.003, 0.006]), {}], "colour-negative", true)).toEqual({
      flare: [0.004, 0.003, 0.005],
      assumed: false,
    });
  });

  it("is what is usual where fewer show any and there is a blank, and nothing without one", () => {
    const found = [seen([0.004, 0.004, 0.004]), {}, {}];
    expect(rollFlare(found, "colour-negative", true)).toEqual({ flare: USUAL_FLARE, assumed: true });
    expect(rollFlare(found, "colour-negative", false)).toEqual({ assumed: false });
    expect(rollFlare(found, "slide", true)).toEqual({ assumed: false });
  });

  it("comes off samples whose own was not seen", () => {
    const sample = Float32Array.of(0.5, 0.5, 0.5);
    const [own, common] = samplesWithoutFlare([{ sample, flare: USUAL_FLARE }, { sample }], [0.1, 0, 0.5]);
    expect(own.sample).toBe(sample);
    expect([...common.sample].map((v) => Number(v.toFixed(4)))).toEqual([0.4444, 0.5, 0]);
  });
});
