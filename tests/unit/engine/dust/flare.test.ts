import { describe, expect, it } from "vitest";
import type { Candidate } from "../../../../extension/engine/dust/candidates.ts";
import { featuresOf } from "../../../../extension/engine/dust/features.ts";
import { flareKnown, residualFlare, withoutFlare } from "../../../../extension/engine/dust/flare.ts";
import type { Rgb } from "../../../../extension/engine/types.ts";

/** Parts of a grey speck's absorption that its pixels have: the lens blurs its edge. */
const PIXELS = [0.1, 0.2, 0.4, 0.6, 0.8, 0.9, 1, 1, 1];

/** A grey speck on film, as a scan shows it that holds some flare; its slopes are the least squares over its pixels. */
function speck(film: Rgb, through: number, flare: number, spread = 2): Candidate {
  const around = film.map((t) => t + flare) as unknown as Rgb;
  const [red, green, blue] = film.map((t, c) =>
    PIXELS.map((part) => Math.log((t * (1 - part * (1 - through)) + flare) / around[c])),
  );
  const slope = (other: readonly number[]): number =>
    other.reduce((sum, v, k) => sum + v * green[k], 0) / green.reduce((sum, v) => sum + v * v, 0);
  return {
    component: { pixels: [0], x0: 0, y0: 0, x1: 2, y1: 2, peak: 1, peakAt: 0 },
    x: 1,
    y: 1,
    radius: 2,
    elongation: 1,
    measurements: {
      red: slope(red),
      blue: slope(blue),
      depth: Math.min(...green),
      absorbed: (4 * spread * (1 - through) * film[1]) / around[1],
      spread,
      effectiveArea: 2.6,
      edge: 0.54,
      localNoise: 0.01,
      localSpread: 0.01,
      surroundContrast: 0,
      chromaNoise: 0.01,
      around,
    },
  };
}

const DENSE: Rgb = [0.06, 0.02, 0.012];
const CLEAR: Rgb = [0.4, 0.2, 0.1];

describe("a speck without the flare in its scan", () => {
  it("is what it is where there is none", () => {
    for (const flare of [-0.002, 0.001, 0.01])
      for (const film of [DENSE, CLEAR]) {
        const { measurements } = withoutFlare(speck(film, 0.3, flare), flare);
        const { measurements: bare } = speck(film, 0.3, 0);
        expect(measurements.depth).toBeCloseTo(Math.log(0.3), 9);
        expect(measurements.absorbed).toBeCloseTo(bare.absorbed, 9);
        for (const c of [0, 1, 2]) expect(measurements.around[c]).toBeCloseTo(film[c], 9);
        // Slopes are corrected at one depth for all of the speck's pixels.
        expect(Math.abs(measurements.red - 1)).toBeLessThan(0.02);
        expect(Math.abs(measurements.blue - 1)).toBeLessThan(0.02);
      }
  });
});

describe("a speck on film darker than the flare", () => {
  it("still has numbers", () => {
    const { measurements } = withoutFlare(speck(DENSE, 0.3, 0), 0.05);
    expect(Object.values(measurements).flat().every(Number.isFinite)).toBe(true);
    expect(measurements.depth).toBeCloseTo(0, 9);
  });
});

describe("the flare that specks tell", () => {
  const films = Array.from(
    { length: 12 },
    (_, k) => DENSE.map((t, c) => t + (k / 11) * (CLEAR[c] - t)) as unknown as Rgb,
  );
  /** Of many sizes, for what is alike counts once. */
  const specks = (flare: number): Candidate[] =>
    films.flatMap((film, k) =>
      [0.15, 0.25].map((t, l) => speck(film, t, flare, 0.5 * 1.2 ** (2 * ((5 * k) % 12) + l))),
    );
  /** Dust is grey; anything else may have any colour. */
  const evidence = (blob: Candidate): number => {
    const { red, blue, errorRed, errorBlue } = featuresOf(blob);
    return 4 - 0.5 * ((red / errorRed) ** 2 + (blue / errorBlue) ** 2);
  };

  it("is what is in the scan", () => {
    for (const flare of [0.002, 0.006, 0.012]) {
      const residual = residualFlare(specks(flare), evidence, flareKnown());
      // Dust is thought to be not quite grey, which is worth half a thousandth.
      expect(Math.abs(residual - flare)).toBeLessThan(0.0008 + 0.05 * flare);
    }
  });

  it("is none where there is none, or nothing to tell it by", () => {
    expect(residualFlare(specks(0), evidence, flareKnown())).toBe(0);
    expect(residualFlare([], evidence, flareKnown())).toBe(0);
  });

  it("is not more below none than was taken off", () => {
    const residual = (subtracted: number): number =>
      residualFlare(specks(-0.0015), evidence, flareKnown([subtracted, subtracted, subtracted]));
    expect(Math.abs(residual(0.006) + 0.0015)).toBeLessThan(0.0007);
    expect(residual(0.002)).toBeGreaterThanOrEqual(-0.001);
    expect(residual(0)).toBe(0);
  });

  it("is about what a holder shows, its sheen left out", () => {
    const known = flareKnown([0.002, 0.002, 0.002], [0.0035, 0.0035, 0.0035]);
    expect(known.expected).toBeCloseTo(0.003, 6);
    expect(known.min).toBeGreaterThan(0.001);
    expect(known.max).toBeLessThan(0.005);
    const residual = residualFlare(specks(0.0038), evidence, known);
    expect(residual).toBeGreaterThanOrEqual(known.expected);
    expect(residual).toBeLessThanOrEqual(known.max);
    expect(flareKnown([0.002, 0.002, 0.002], [-0.01, -0.01, -0.01]).expected).toBe(-0.002);
  });
});
