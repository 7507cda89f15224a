/**
 * The falloff without a blank, judged by the witness, whose light is known: its corners fall off by ellipses, its slope
 * is linear in light, so the model has to find something that it is not itself. Bar: 0.05 EV all over the scan.
 */
import { describe, expect, it } from "vitest";
import { readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import { falloffField } from "../../../../extension/engine/flat-field/falloff.ts";
import { falloffTerms, fitFalloff } from "../../../../extension/engine/lens/fit-falloff.ts";
import type { BaseCell } from "../../../../extension/engine/lens/base-cells.ts";
import { COALFISH_125 } from "../../../witness/film/stocks.ts";
import { RIG } from "../survey/rig.ts";
import { FALLOFF_ROLLS, falloffError, measuredFalloff } from "./falloff-rolls.ts";

const BAR = 0.05;

describe.each(FALLOFF_ROLLS)("$name", (roll) => {
  const fit = measuredFalloff(roll)!;

  it("is known to 0.05 EV all over the scan, and its error is told", () => {
    expect(falloffError(falloffTerms(fit), roll.falloff)).toBeLessThanOrEqual(BAR);
    expect(fit).toMatchObject({ covered: true, scans: 3 });
    expect(fit.error).toBeLessThanOrEqual(BAR);
    // The error is true: what is wrong lies within three of it.
    expect(falloffError(fit, roll.falloff)).toBeLessThan(3 * fit.error + 0.002);
  });

  it("takes most of it out, and invents nothing where there is none", () => {
    // Under even light what is left is an error against none at all.
    const none = falloffError({ radial: [0], gradient: [0, 0] }, roll.falloff);
    expect(falloffError(fit, roll.falloff)).toBeLessThan(Math.max(0.005, 0.2 * none));
  });
});

describe("black-and-white film", () => {
  it("shows its falloff as well, though its base has no colour of its own", () => {
    const roll = { ...FALLOFF_ROLLS[1], seed: 7700, rig: { ...RIG, stock: COALFISH_125 } };
    const fit = measuredFalloff(roll)!;
    expect(falloffError(fit, roll.falloff)).toBeLessThanOrEqual(BAR);
    expect(fit.error).toBeLessThanOrEqual(BAR);
  });
});

describe("too little clear film", () => {
  const cells = (of: (x: number, y: number) => boolean, light: (x: number, y: number) => number): BaseCell[] => {
    const all = Array.from({ length: 60 * 40 }, (_, i) => [
      ((i % 60) / 59 - 0.5) * 1.66,
      (Math.floor(i / 60) / 39 - 0.5) * 1.11,
    ]);
    return all.flatMap(([x, y]) => (of(x, y) ? [{ x, y, light: light(x, y) }] : []));
  };
  const bow = (x: number, y: number): number => -0.4 * (x * x + y * y);

  it("is not covered where only two sides show any, and says by its error that the middle is a guess", () => {
    const fit = fitFalloff([cells((x) => Math.abs(x) > 0.78, bow)], 1.5)!;
    expect(fit.covered).toBe(false);
  });

  it("is nothing without cells, and with a few", () => {
    expect(fitFalloff([], 1.5)).toBeUndefined();
    expect(fitFalloff([cells((x, y) => Math.hypot(x - 0.7, y) < 0.1, bow)], 1.5)).toBeUndefined();
  });

  it("is not sure where the scans contradict one another: light leaks, not the light's falloff", () => {
    const rim = (x: number, y: number): boolean => Math.abs(x) > 0.74 || Math.abs(y) > 0.48;
    const leaking = [1, -1, 1, -1].map((sign) => cells(rim, (x) => 0.3 * sign * x));
    expect(fitFalloff(leaking, 1.5)!.error).toBeGreaterThan(BAR);
  });

  it("fits a leader alone, and leaves fogged edges out", () => {
    const fogged = cells(
      () => true,
      (x, y) => bow(x, y) - (x > 0.75 ? 0.3 : 0),
    );
    const fit = fitFalloff([fogged], 1.5)!;
    expect(fit.covered).toBe(true);
    expect(fit.radial[0] + (fit.radial[1] ?? 0)).toBeCloseTo(-0.4, 2);
  });
});

describe("reading a scan by a falloff", () => {
  const falloff = { radial: [-0.5, -0.1], oval: 0.08, gradient: [0.12, -0.06] } as const;
  const scan = {
    width: 96,
    height: 64,
    channels: 3 as const,
    data: new Uint16Array(96 * 64 * 3),
    black: 0,
    scale: 1 / 65535,
  };
  const field = falloffField(falloff, 96, 64);
  const reader = (at?: readonly [number, number]) => readTransmittance(scan, { falloff: { ...falloff, at }, ratio: 1 });

  it("gives back what was there before the falloff, in signal; flare does not count without a blank", () => {
    const { x, y, unit } = { x: 80, y: 9, unit: Math.hypot(96, 64) / 2 };
    const [dx, dy] = [(x + 0.5 - 48) / unit, (y + 0.5 - 32) / unit];
    const r2 = dx * dx + dy * dy;
    const ev = r2 * (-0.5 - 0.1 * r2) + 0.08 * (dx * dx - dy * dy) + 0.12 * dx - 0.06 * dy;
    scan.data.fill(Math.round(65535 * 0.4 * 2 ** ev));
    const out = new Float32Array(96 * 3);
    reader().row(y, out);
    for (const c of [0, 1, 2]) expect(out[x * 3 + c]).toBeCloseTo(0.4, 3);
    const flared = new Float32Array(96 * 3);
    readTransmittance(scan, { falloff, flare: [0.01, 0.01, 0.01], ratio: 1 }).row(y, flared);
    expect(flared).toEqual(out);
  });

  it("leaves the place where the base was read as it is", () => {
    scan.data.fill(20_000);
    const out = new Float32Array(96 * 3);
    reader([(80 + 0.5) / 96, (9 + 0.5) / 64]).row(9, out);
    expect(out[80 * 3]).toBeCloseTo(20_000 / 65535, 4);
    expect(field.mean).toEqual([1, 1, 1]);
  });
});
