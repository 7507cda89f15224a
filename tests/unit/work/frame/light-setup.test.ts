/** Exposures are compared by the times that are meant: as written, or by the marks of the usual series. */
import { describe, expect, it } from "vitest";
import { lightSetup } from "../../../../extension/work/frame/develop.ts";

describe("the exposure of a scan over the blank's", () => {
  const scan = { shutter: 1 / 30, iso: 100, aperture: 8 };
  const reference = { shutter: 1 / 500, iso: 100, aperture: 8 };
  it("goes by the written times, or by those that the marks stand for", () => {
    expect(lightSetup({ flare: [0, 0, 0], reference }, scan).ratio).toBeCloseTo(500 / 30, 10);
    expect(lightSetup({ flare: [0, 0, 0], reference, times: "written" }, scan).ratio).toBeCloseTo(500 / 30, 10);
    // 1/32 s over 1/512 s.
    expect(lightSetup({ flare: [0, 0, 0], reference, times: "nominal" }, scan).ratio).toBeCloseTo(16, 10);
  });
});
