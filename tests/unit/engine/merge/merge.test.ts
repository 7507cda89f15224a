import { describe, expect, it } from "vitest";
import { displacementAt } from "../../../../extension/engine/merge/displacement.ts";
import { type PartReading, startMerge } from "../../../../extension/engine/merge/merge.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { deviations, exposed, HEIGHT, PHOTON, pictureOf, READ, signalAt, WIDTH } from "./exposures.ts";

/** Pictures and noise of these seeds were looked at while the limits of the engine were set; of those no number was. */
const TUNING = [1, 2, 3] as const;
const HELD_OUT = [101, 102, 103, 104] as const;

function merged(scans: readonly LinearScan[]) {
  const merge = startMerge(scans[0]!);
  const readings = scans.slice(1).map((scan) => merge.add(scan));
  const scan = merge.finish();
  return { scan, readings: readings as PartReading[], unit: merge.unit, noise: merge.noise! };
}

describe("registration of exposures", () => {
  it.each([...TUNING, ...HELD_OUT])("finds shift, rotation and ratio of picture %i", (seed) => {
    const picture = pictureOf(seed);
    const [shift, degrees] = [[1.37 + seed / 200, -2.61] as const, 0.05 * ((seed % 7) - 3)];
    const first = exposed({ exposure: 1, seed, picture });
    const second = exposed({ exposure: 3.87, seed: seed + 1000, picture, shift, degrees });
    const { readings } = merged([first, second]);
    const [{ displacement, exposure, uncertainty }] = readings as [PartReading];
    const angle = (degrees * Math.PI) / 180;
    let worst = 0;
    for (const [x, y] of [
      [20, 20],
      [WIDTH - 20, 20],
      [20, HEIGHT - 20],
      [WIDTH - 20, HEIGHT - 20],
    ] as const) {
      const [p, q] = [x - (WIDTH - 1) / 2, y - (HEIGHT - 1) / 2];
      const truth = [
        Math.cos(angle) * p - Math.sin(angle) * q + shift[0] - p,
        Math.sin(angle) * p + Math.cos(angle) * q + shift[1] - q,
      ];
      const found = displacementAt(displacement, x, y);
      worst = Math.max(worst, Math.hypot(found[0] - truth[0]!, found[1] - truth[1]!));
    }
    if (process.env["FIGURES"]) console.log(seed, worst.toFixed(3), exposure.toFixed(4), uncertainty.toFixed(4));
    expect(worst).toBeLessThan(0.1);
    expect(exposure / 3.87).toBeGreaterThan(0.99);
    expect(exposure / 3.87).toBeLessThan(1.01);
    expect(uncertainty).toBeLessThan(0.1);
  });
});

describe("noise measured from the differences of scans", () => {
  it.each(HELD_OUT)("is the sensor's, picture %i", (seed) => {
    const picture = pictureOf(seed);
    const { noise } = merged([
      exposed({ exposure: 1, seed, picture }),
      exposed({ exposure: 4, seed: seed + 1, picture, shift: [0.4, 0.3] }),
    ]);
    if (process.env["FIGURES"]) console.log(seed, noise);
    for (const c of [0, 1, 2]) {
      expect(noise.photon[c]! / PHOTON).toBeGreaterThan(0.75);
      expect(noise.photon[c]! / PHOTON).toBeLessThan(1.35);
      expect(noise.read[c]!).toBeLessThan(4 * READ);
    }
  });
});

describe("a bracket", () => {
  const picture = pictureOf(HELD_OUT[0]);
  const parts = [
    exposed({ exposure: 1, seed: 11, picture }),
    exposed({ exposure: 4, seed: 12, picture, shift: [0.6, -0.4], degrees: 0.02 }),
    exposed({ exposure: 16, seed: 13, picture, shift: [-1.3, 0.8], degrees: -0.03 }),
  ] as const;
  const { scan, unit, readings } = merged(parts);
  if (process.env["FIGURES"]) console.log(readings);
  const isDense = (_x: number, _y: number, signal: number): boolean => signal < 0.01;
  const isThin = (_x: number, _y: number, signal: number): boolean => signal > 0.3;

  it("has less noise in dense film and the truth everywhere", () => {
    const [before, after] = [deviations(parts[0], picture, isDense), deviations(scan, picture, isDense)];
    if (process.env["FIGURES"]) console.log("dense", before, after);
    expect(unit).toBe(1);
    expect(after.rms).toBeLessThan(before.rms / 3);
    expect(Math.abs(after.mean)).toBeLessThan(0.01);
    const thin = deviations(scan, picture, isThin);
    expect(Math.abs(thin.mean)).toBeLessThan(0.003);
    expect(thin.rms).toBeLessThan(1.1 * deviations(parts[0], picture, isThin).rms);
  });

  it("shows no step where an exposure drops out, and no edge twice", () => {
    // Along lines of tone the merged picture over the truth stays 1 where the longest and the middle one reach the limit.
    for (const level of [1 / 16, 1 / 4]) {
      for (const part of [0.6, 0.75, 0.85, 0.95, 1.05, 1.3]) {
        const around = (_x: number, _y: number, signal: number): boolean =>
          Math.abs(Math.log2(signal / (level * part))) < 0.1;
        const { mean } = deviations(scan, picture, around);
        if (process.env["FIGURES"]) console.log("step", level * part, mean);
        expect(Math.abs(mean)).toBeLessThan(0.006);
      }
    }
    // The post's edges: no row deviates by more than noise and resampling explain.
    const edge = (x: number): boolean => Math.abs(x - 200) < 6 || Math.abs(x - 215) < 6;
    expect(deviations(scan, picture, edge).rms).toBeLessThan(0.02);
  });

  it("is in units of the shortest exposure, whichever is listed first", () => {
    const other = merged([parts[1], parts[0], parts[2]]);
    expect(other.unit).toBeCloseTo(0.25, 2);
    // Places are those of the scan that is listed first.
    expect(signalAt(other.scan, 300, 100) / signalAt(parts[1], 300, 100)).toBeCloseTo(0.25, 1);
  });

  it("leaves out what is of another size or another picture", () => {
    const merge = startMerge(parts[0]);
    expect(merge.add({ ...parts[1], width: HEIGHT, height: WIDTH })).toBe("size");
    expect(merge.add(exposed({ exposure: 1, seed: 5, picture: (x, y) => 0.5 / (1 + ((x * 7 + y * 3) % 11)) }))).toBe(
      "picture",
    );
    expect(merge.add(exposed({ exposure: 1e-4, seed: 5, picture }))).toBe("exposure");
    expect(merge.finish()).toBe(parts[0]);
  });
});

describe("an average", () => {
  const picture = pictureOf(HELD_OUT[1]);
  const shots = Array.from({ length: 9 }, (_, i) => exposed({ exposure: 1, seed: 40 + i, picture }));
  const isMiddle = (_x: number, _y: number, signal: number): boolean => signal > 0.02 && signal < 0.4;

  it("has noise that falls by the root of the count", () => {
    const alone = deviations(shots[0]!, picture, isMiddle).rms;
    for (const count of [2, 4, 9]) {
      const { rms } = deviations(merged(shots.slice(0, count)).scan, picture, isMiddle);
      if (process.env["FIGURES"]) console.log("average", count, alone / rms, Math.sqrt(count));
      expect(alone / rms / Math.sqrt(count)).toBeGreaterThan(0.92);
      expect(alone / rms / Math.sqrt(count)).toBeLessThan(1.08);
    }
  });

  it.each([0, 1, 2])("loses a speck that lies on one of three, number %i", (dusty) => {
    const parts = shots
      .slice(0, 3)
      .map((shot, i) => (i === dusty ? exposed({ exposure: 1, seed: 40 + i, picture, dust: [150, 120, 4] }) : shot));
    const around = (x: number, y: number): boolean => Math.hypot(x - 150, y - 120) < 7;
    expect(deviations(parts[dusty]!, picture, around).rms).toBeGreaterThan(0.4);
    const { rms } = deviations(merged(parts).scan, picture, around);
    if (process.env["FIGURES"]) console.log("dust", dusty, rms);
    expect(rms).toBeLessThan(1.3 * deviations(shots[0]!, picture, around).rms);
  });

  it("keeps out of the first of two what only the second shows", () => {
    const second = exposed({ exposure: 1, seed: 41, picture, dust: [150, 120, 4] });
    const around = (x: number, y: number): boolean => Math.hypot(x - 150, y - 120) < 7;
    expect(deviations(merged([shots[0]!, second]).scan, picture, around).rms).toBeLessThan(0.05);
  });
});
