/** Marked shutter times: which times they stand for, and when the base of one film tells that a camera writes them. */
import { describe, expect, it } from "vitest";
import { markedTime, readShutterTimes } from "../../../../extension/engine/flat-field/shutter-times.ts";
import type { Rgb } from "../../../../extension/engine/types.ts";

describe("a mark", () => {
  // EXIF 2.32, Annex C: APEX time values of the usual marks; 1/30 is Tv 5, 1/60 is Tv 6, 1/125 is Tv 7, 1/2 is Tv 1.
  it.each([
    [1 / 30, 5],
    [1 / 60, 6],
    [1 / 125, 7],
    [1 / 250, 8],
    [1 / 2, 1],
    [1 / 4, 2],
    [1 / 8, 3],
    [1 / 15, 4],
    [1, 0],
    [2, -1],
    [15, -4],
    [30, -5],
  ])("of %f s stands for Tv %d", (seconds, apex) => expect(markedTime(seconds)).toBeCloseTo(2 ** -apex, 10));

  it("in thirds and halves lies between them, and what is no mark is itself", () => {
    expect(markedTime(1 / 40)).toBeCloseTo(2 ** (-16 / 3), 10);
    expect(markedTime(1 / 90)).toBeCloseTo(2 ** -6.5, 10);
    expect(markedTime(0.3)).toBeCloseTo(2 ** (-5 / 3), 10);
    for (const time of [1 / 32, 1 / 33.3, 0.0171, 1 / 64]) expect(markedTime(time)).toBe(time);
  });
});

describe("the shutter times of a roll", () => {
  const BASE: Rgb = [0.3, 0.6, 0.75];
  const shifted = (by: number): Rgb => [BASE[0] + by, BASE[1] + by, BASE[2] + by];
  /** What is read of a base where the camera opens for the series and writes its marks. */
  const read = (shutter: number, reference: number, noise = 0) => ({
    shutter,
    density: shifted(Math.log10(shutter / markedTime(shutter)) - Math.log10(reference / markedTime(reference)) + noise),
  });
  const blank = 1 / 500;

  it("are marks where bases at different times agree by the series only", () => {
    const bases = [read(1 / 30, blank, 0.001), read(1 / 60, blank), read(1 / 100, blank, -0.001)];
    const found = readShutterTimes(bases, blank)!;
    expect([found.times, found.from]).toEqual(["nominal", "scans"]);
    expect(found.nominal).toBeLessThan(0.003);
    expect(found.written).toBeGreaterThan(0.018);
  });

  it("are as written where they agree as written", () => {
    const bases = [1 / 30, 1 / 60, 1 / 100].map((shutter) => ({ shutter, density: BASE }));
    expect(readShutterTimes(bases, blank)).toMatchObject({ times: "written", from: "scans" });
  });

  it("are told by the stock's base where all scans of film have one time", () => {
    expect(readShutterTimes([read(1 / 30, blank)], blank, BASE)).toMatchObject({ times: "nominal", from: "stock" });
    expect(readShutterTimes([{ shutter: 1 / 30, density: BASE }], blank, BASE)).toMatchObject({ times: "written" });
    // Another colour of the base is another light, and a step that is none of the series is another development.
    const { density } = read(1 / 30, blank);
    const yellow: Rgb = [density[0], density[1], density[2] + 0.02];
    expect(readShutterTimes([{ shutter: 1 / 30, density: yellow }], blank, BASE)).toBeUndefined();
    expect(readShutterTimes([{ shutter: 1 / 30, density: shifted(0.05) }], blank, BASE)).toBeUndefined();
  });

  it("stay open where nothing tells", () => {
    expect(readShutterTimes([read(1 / 30, blank)], blank)).toBeUndefined();
    expect(readShutterTimes([read(1 / 30, 1 / 30), read(1 / 30, 1 / 30)], 1 / 30, BASE)).toBeUndefined();
    expect(readShutterTimes([{ density: BASE }], undefined, BASE)).toBeUndefined();
    const apart = [
      { shutter: 1 / 30, density: BASE },
      { shutter: 1 / 100, density: shifted(0.06) },
    ];
    expect(readShutterTimes(apart, blank)).toBeUndefined();
  });
});
