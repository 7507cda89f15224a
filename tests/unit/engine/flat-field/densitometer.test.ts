import { describe, expect, it } from "vitest";
import { makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import { readBase, ReadingError, type ReadingArea } from "../../../../extension/engine/flat-field/densitometer.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { random, scanOf, unevenLight } from "../simulated.ts";

const BASE = [0.31, 0.6, 0.76];
const field = makeLightField(scanOf(600, 400, unevenLight, { photons: 30_000, seed: 2 }));

/** A leader: base with grain, in an uneven light, with noise. */
function leader(times = 1): LinearScan {
  const { normal } = random(21);
  return scanOf(600, 400, (x, y, c) => times * unevenLight(x, y, c) * 10 ** -(BASE[c] + 0.012 * normal()), {
    photons: 15_000,
    seed: 4,
  });
}

describe("reading the base", () => {
  it("finds its density within 0.005 in every part of the scan, whatever the light does there", () => {
    const scan = leader();
    for (const area of [
      [0.4, 0.4, 0.2, 0.2],
      [0, 0, 0.08, 0.1],
      [0.9, 0.88, 0.1, 0.12],
      [0, 0, 1, 1],
    ] as ReadingArea[]) {
      const { density } = readBase(scan, area, { field, ratio: 1 });
      for (let c = 0; c < 3; c++) expect(Math.abs(density[c] - BASE[c])).toBeLessThan(0.005);
    }
  });

  it("normalises the exposure", () => {
    const one = readBase(leader(1), [0.3, 0.3, 0.3, 0.3], { field, ratio: 1 });
    const less = readBase(leader(0.25), [0.3, 0.3, 0.3, 0.3], { field, ratio: 0.25 });
    for (let c = 0; c < 3; c++) expect(Math.abs(one.density[c] - less.density[c])).toBeLessThan(0.002);
  });

  it("is not moved by dust, and tells the scatter of the grain", () => {
    const clean = leader();
    const { uniform } = random(9);
    for (let k = 0; k < 900; k++) {
      const at = (Math.floor(uniform() * 400) * 600 + Math.floor(uniform() * 600)) * 3;
      clean.data.fill(700, at, at + 3);
    }
    const { density, scatter, pixels } = readBase(clean, [0.2, 0.2, 0.6, 0.6], { field, ratio: 1 });
    for (let c = 0; c < 3; c++) {
      expect(Math.abs(density[c] - BASE[c])).toBeLessThan(0.005);
      expect(scatter[c]).toBeGreaterThan(0.012);
      expect(scatter[c]).toBeLessThan(0.025);
    }
    expect(pixels).toBe(360 * 240);
  });

  it("reads relative densities without a blank", () => {
    const even = scanOf(100, 100, (_x, _y, c) => [0.5, 0.25, 0.1][c]);
    const { density } = readBase(even, [0, 0, 1, 1], { ratio: 1 });
    expect(density[0]).toBeCloseTo(-Math.log10(0.5), 3);
    expect(density[2]).toBeCloseTo(1, 3);
  });
});

describe("areas that give no base", () => {
  const fault = (scan: LinearScan, area: ReadingArea, ratio = 1): string => {
    try {
      readBase(scan, area, { field, ratio });
    } catch (error) {
      expect(error).toBeInstanceOf(ReadingError);
      const { code: name, message } = error as ReadingError;
      expect(message).toMatch(/^[A-Z0-9].*\.$/);
      return name;
    }
    return "none";
  };

  it("are refused with the reason", () => {
    expect(fault(leader(), [0.9, 0.1, 0.2, 0.2])).toBe("area-outside");
    expect(fault(leader(), [0.1, NaN, 0.2, 0.2])).toBe("area-outside");
    expect(fault(leader(), [0.1, 0.1, 0, 0.2])).toBe("area-outside");
    expect(fault(leader(), [0.1, 0.1, 0.01, 0.01])).toBe("area-too-small");
    expect(fault(scanOf(600, 400, unevenLight), [0.4, 0.4, 0.2, 0.2])).toBe("bare-light");
    expect(
      fault(
        scanOf(600, 400, () => 0),
        [0.4, 0.4, 0.2, 0.2],
      ),
    ).toBe("no-light");
    expect(
      fault(
        scanOf(600, 400, (x) => (x < 0.5 ? 1 : 0.2)),
        [0.4, 0.4, 0.2, 0.2],
      ),
    ).toBe("clipped");
    const edge = scanOf(600, 400, (x, y, c) => unevenLight(x, y, c) * (x < 0.5 ? 0.5 : 0.1));
    expect(fault(edge, [0.4, 0.4, 0.2, 0.2])).toBe("uneven");
    expect(fault(leader(), [0.4, 0.4, 0.2, 0.2])).toBe("none");
  });
});
