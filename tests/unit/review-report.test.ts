import { describe, expect, test } from "vitest";
import { hasNoVisibleChange, isVisiblyChanged, type ReviewFrame } from "../../extension/review-report.ts";

const frame = (more: Partial<ReviewFrame> = {}): ReviewFrame => ({
  id: "01",
  status: "changed",
  looksDifferent: true,
  reframed: false,
  difference: { mean: 0.2, p95: 0.49, max: 0.99 },
  notes: [],
  ...more,
});

describe("frames without a visible change", () => {
  test("stay below ΔE00 0.5 in 95 of 100 pixels, and below 1 everywhere: a healed spot is seen", () => {
    expect(hasNoVisibleChange(frame())).toBe(true);
    expect(hasNoVisibleChange(frame({ difference: { mean: 0.2, p95: 0.5, max: 0.9 } }))).toBe(false);
    expect(hasNoVisibleChange(frame({ difference: { mean: 0, p95: 0, max: 24 } }))).toBe(false);
  });

  test("are measured, framed as before, and have nothing to be told of", () => {
    for (const more of [
      { difference: undefined },
      { reframed: true },
      { notes: ["The scan changed."] },
      { status: "added" },
      { looksDifferent: false },
    ] as const)
      expect([more, hasNoVisibleChange(frame(more))]).toEqual([more, false]);
  });

  test("are not counted among those that look different", () => {
    expect(isVisiblyChanged(frame())).toBe(false);
    expect(isVisiblyChanged(frame({ looksDifferent: false, difference: undefined }))).toBe(false);
    expect(isVisiblyChanged(frame({ difference: undefined }))).toBe(true);
  });
});
