import { describe, expect, it } from "vitest";
import { deviation, median, quantile } from "../../../../extension/engine/math/statistics.ts";
import { random } from "../../../witness/random.ts";

/** A quantile by its definition: the values in order, and a straight line between two of them. */
function byDefinition(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  const at = p * (sorted.length - 1);
  const [low, high] = [Math.floor(at), Math.ceil(at)];
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

describe("order statistics", () => {
  it.each([1, 2, 3, 10, 97, 144, 1000])("of %i values are those of the values in order", (count) => {
    const r = random(count, "values");
    const even = Array.from({ length: count }, () => r.between(-3, 5));
    // Many equal values, and values in order either way, are what a selection may stumble on.
    const coarse = even.map((v) => Math.floor(v));
    const sets = [even, coarse, even.toSorted((a, b) => a - b), even.toSorted((a, b) => b - a), even.map(() => 2)];
    for (const values of sets) {
      const given = [...values];
      for (const p of [0, 0.05, 0.25, 0.5, 0.9, 0.98, 1]) expect(quantile(values, p)).toBe(byDefinition(values, p));
      expect(median(values)).toBe(byDefinition(values, 0.5));
      expect(values).toEqual(given);
    }
  });

  it("of no values are not a number", () => {
    expect(quantile([], 0.5)).toBeNaN();
  });

  it("spread as far as a normal law would have it, whatever a few outliers do", () => {
    // The quartiles of 1 … 9 lie 2 from its middle.
    expect(deviation([1, 2, 3, 4, 5, 6, 7, 8, 9000])).toBeCloseTo(1.4826 * 2, 12);
  });
});
