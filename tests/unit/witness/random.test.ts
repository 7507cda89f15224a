import { describe, expect, it } from "vitest";
import { fillNormal, random } from "../../witness/random.ts";

describe("seeded random numbers", () => {
  it("repeat with the seed and differ between seeds and streams", () => {
    const first = (seed: number, stream?: string): number[] => {
      const r = random(seed, stream);
      return [r.bits(), r.bits(), r.bits(), r.bits()];
    };
    expect(first(5)).toEqual(first(5));
    expect(first(5)).not.toEqual(first(6));
    expect(first(5, "dust")).not.toEqual(first(5, "grain"));
  });

  it("are normal: mean 0, variance 1, kurtosis 3, tails as they should be, no neighbour correlation", () => {
    const x = new Float32Array(1_000_000);
    fillNormal(x, random(1));
    const mean = (f: (v: number, i: number) => number): number => x.reduce((s, v, i) => s + f(v, i), 0) / x.length;
    expect(mean((v) => v)).toBeCloseTo(0, 2);
    expect(mean((v) => v * v)).toBeCloseTo(1, 2);
    expect(mean((v) => v ** 4)).toBeGreaterThan(2.95);
    expect(mean((v) => v ** 4)).toBeLessThan(3.05);
    // A normal law has 0.270 % beyond three sigma.
    expect(mean((v) => (Math.abs(v) > 3 ? 1 : 0))).toBeCloseTo(0.0027, 3);
    expect(mean((v, i) => v * x[(i + 1) % x.length])).toBeCloseTo(0, 2);
  });
});
