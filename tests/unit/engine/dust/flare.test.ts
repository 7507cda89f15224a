import { describe, expect, it } from "vitest";
import type { Candidate } from "../../../../extension/engine/dust/candidates.ts";
import { featuresOf } from "../../../../extension/engine/dust/features.ts";
import { flareKnown, flareLeft, withoutFlare } from "../../../../extension/engine/dust/flare.ts";
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
    stretch: 1,
    nature: {
      red: slope(red),
      blue: slope(blue),
      depth: Math.min(...green),
      absorbed: (4 * spread * (1 - through) * film[1]) / around[1],
      spread,
      filled: 2.6,
      edge: 0.54,
      calm: 0.01,
      unrest: 0.01,
      beside: 0,
      apart: 0.01,
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
        const { nature } = withoutFlare(speck(film, 0.3, flare), flare);
        const { nature: bare } = speck(film, 0.3, 0);
        expect(nature.depth).toBeCloseTo(Math.log(0.3), 9);
        expect(nature.absorbed).toBeCloseTo(bare.absorbed, 9);
        for (const c of [0, 1, 2]) expect(nature.around[c]).toBeCloseTo(film[c], 9);
        // Slopes are corrected at one depth for all of the speck's pixels.
        expect(Math.abs(nature.red - 1)).toBeLessThan(0.02);
        expect(Math.abs(nature.blue - 1)).toBeLessThan(0.02);
      }
  });
});

describe("a speck on film darker than the flare", () => {
  it("still has numbers", () => {
    const { nature } = withoutFlare(speck(DENSE, 0.3, 0), 0.05);
    expect(Object.values(nature).flat().every(Number.isFinite)).toBe(true);
    expect(nature.depth).toBeCloseTo(0, 9);
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
  const evidence = (thing: Candidate): number => {
    const { red, blue, errorRed, errorBlue } = featuresOf(thing);
    return 4 - 0.5 * ((red / errorRed) ** 2 + (blue / errorBlue) ** 2);
  };

  it("is what is in the scan", () => {
    for (const flare of [0.002, 0.006, 0.012]) {
      const told = flareLeft(specks(flare), evidence, flareKnown());
      // Dust is thought to be not quite grey, which is worth half a thousandth.
      expect(Math.abs(told - flare)).toBeLessThan(0.0008 + 0.05 * flare);
    }
  });

  it("is none where there is none, or nothing to tell it by", () => {
    expect(flareLeft(specks(0), evidence, flareKnown())).toBe(0);
    expect(flareLeft([], evidence, flareKnown())).toBe(0);
  });

  it("is not more below none than was taken off", () => {
    const told = (taken: number): number => flareLeft(specks(-0.0015), evidence, flareKnown([taken, taken, taken]));
    expect(Math.abs(told(0.006) + 0.0015)).toBeLessThan(0.0007);
    expect(told(0.002)).toBeGreaterThanOrEqual(-0.001);
    expect(told(0)).toBe(0);
  });

  it("is about what a holder shows, its sheen left out", () => {
    const known = flareKnown([0.002, 0.002, 0.002], [0.0035, 0.0035, 0.0035]);
    expect(known.likely).toBeCloseTo(0.003, 6);
    expect(known.least).toBeGreaterThan(0.001);
    expect(known.most).toBeLessThan(0.005);
    const told = flareLeft(specks(0.0038), evidence, known);
    expect(told).toBeGreaterThanOrEqual(known.likely);
    expect(told).toBeLessThanOrEqual(known.most);
    expect(flareKnown([0.002, 0.002, 0.002], [-0.01, -0.01, -0.01]).likely).toBe(-0.002);
  });
});
