/** Laying scans together: what is seen of the seams. */
import { describe, expect, it } from "vitest";
import { layingOrder, startJoin } from "../../../../../extension/engine/image/join/lay.ts";
import { joinFrame, type JoinPlace } from "../../../../../extension/engine/image/join/place.ts";
import { CELL, seamShares } from "../../../../../extension/engine/image/join/seam.ts";
import type { LinearScan } from "../../../../../extension/engine/types.ts";
import { random } from "../../../../witness/random.ts";

const [WIDE, HIGH, SHIFT] = [600, 400, 420];

/** A scan of film of one tone, by its transmittance, with a little noise. */
function scanOf(toneAt: (x: number, y: number) => number, seed: number, noise = 0.01): LinearScan {
  const next = random(seed);
  const data = new Uint16Array(WIDE * HIGH * 3);
  for (let y = 0, k = 0; y < HIGH; y++)
    for (let x = 0; x < WIDE; x++) {
      const tone = toneAt(x, y);
      for (let c = 0; c < 3; c++, k++) data[k] = 500 + 40_000 * tone * (1 + noise * next.normal());
    }
  return { width: WIDE, height: HIGH, channels: 3, data, black: 500, scale: 1 / 40_000 };
}

function laid(scans: readonly LinearScan[], places: readonly JoinPlace[]): LinearScan {
  const parts = scans.map((scan, i) => ({ scan, light: { ratio: 1 }, place: places[i]! }));
  const join = startJoin(joinFrame(parts), 1, () => {});
  for (const i of layingOrder(places)) join.add(parts[i]!);
  return join.finish();
}

const toneOf = ({ width, data, black, scale }: LinearScan, x: number, y: number): number =>
  (data[(y * width + x) * 3 + 1]! - black) * scale;

/** Means of columns eight pixels wide. */
const columnsOf = (scan: LinearScan): number[] =>
  Array.from({ length: Math.floor(scan.width / 8) - 2 }, (_, k) => {
    let sum = 0;
    for (let y = 20; y < scan.height - 20; y++) for (let x = 0; x < 8; x++) sum += toneOf(scan, (k + 1) * 8 + x, y);
    return sum / (8 * (scan.height - 40));
  });

const ROW: readonly JoinPlace[] = [
  [0, 0, 0, 0],
  [SHIFT, 3, 0.2, 0],
];

describe("a seam on even density", () => {
  it("is not seen where the light was not taken out quite: it changes slowly across the overlap", () => {
    // The second scan's light falls off by 3 % to its left, as a blank of another lens position leaves it.
    const joined = laid([scanOf(() => 0.2, 1), scanOf((x) => 0.2 * (1 - 0.03 * (1 - x / WIDE)), 2)], ROW);
    const means = columnsOf(joined);
    const steps = means.slice(1).map((v, k) => Math.abs(v / means[k]! - 1));
    // A step of 2 to 3 % without that; a print shows 0.5 % at best.
    expect(Math.max(...steps)).toBeLessThan(0.003);
    expect(Math.min(...means) / Math.max(...means)).toBeLessThan(0.985);
  });

  it("has the noise of one scan on its whole length", () => {
    const joined = laid([scanOf(() => 0.2, 3), scanOf(() => 0.2, 4)], [ROW[0]!, [SHIFT, 0, 0, 0]]);
    const deviation = (x: number): number => {
      const tones = Array.from({ length: 200 * 12 }, (_, i) => toneOf(joined, x + (i % 12), 100 + Math.floor(i / 12)));
      const mean = tones.reduce((p, v) => p + v, 0) / tones.length;
      return Math.sqrt(tones.reduce((p, v) => p + (v - mean) ** 2, 0) / tones.length);
    };
    // In the overlap, away from the seam in its middle.
    for (const x of [440, 570]) expect(deviation(x) / deviation(100)).toBeGreaterThan(0.93);
  });
});

describe("a seam and what lies in its way", () => {
  it("leaves a speck whole, or leaves it out", () => {
    // On the second scan alone, in the middle of the overlap, where the seam would run.
    const speck = (x: number, y: number): boolean => Math.hypot(x - 90, y - 200) < 14;
    const joined = laid(
      [scanOf(() => 0.2, 5), scanOf((x, y) => (speck(x, y) ? 0.02 : 0.2), 6)],
      [ROW[0]!, [SHIFT, 0, 0, 0]],
    );
    const tones: number[] = [];
    for (let y = 192; y < 208; y++) for (let x = SHIFT + 82; x < SHIFT + 98; x++) tones.push(toneOf(joined, x, y));
    const dark = tones.filter((tone) => tone < 0.05).length;
    expect([0, tones.length]).toContain(dark);
  });

  it("runs where two pictures agree", () => {
    // They differ everywhere but in a lane that is not in the middle.
    const [columns, rows] = [40, 30];
    const state = Uint8Array.from({ length: columns * rows }, (_, k) => {
      const x = k % columns;
      return x < 5 ? CELL.old : x >= 35 ? CELL.new : CELL.both;
    });
    const lane = (x: number): boolean => x >= 9 && x < 12;
    const difference = Float32Array.from({ length: columns * rows }, (_, k) => (lane(k % columns) ? 0.01 : 0.3));
    const share = seamShares({ columns, rows, state, difference });
    for (let y = 0; y < rows; y++) {
      const seam = share.subarray(y * columns, (y + 1) * columns).indexOf(1);
      expect(seam).toBeGreaterThanOrEqual(9);
      expect(seam).toBeLessThanOrEqual(12);
    }
  });
});

describe("four scans that meet", () => {
  const places: readonly JoinPlace[] = [
    [0, 0, 0, 0],
    [SHIFT, 5, 0.3, [0.1, 0.12, 0.08]],
    [-4, 280, -0.2, 0],
    [SHIFT + 6, 283, 0.1, -0.2],
  ];
  it("give one picture in one exposure without a gap", () => {
    const exposures = [1, 2 ** -0.12, 1, 2 ** 0.2];
    const joined = laid(
      exposures.map((factor, i) => scanOf(() => 0.3 * factor, 10 + i, 0)),
      places,
    );
    let [least, most] = [1, 0];
    for (let y = 12; y < joined.height - 16; y++)
      for (let x = 12; x < joined.width - 16; x++) {
        const tone = toneOf(joined, x, y);
        [least, most] = [Math.min(least, tone), Math.max(most, tone)];
      }
    expect(least).toBeGreaterThan(0.297);
    expect(most).toBeLessThan(0.303);
  });

  it("fill the same rectangle whatever their sizes were taken for", () => {
    const scans = [1, 2, 3, 4].map((seed) => scanOf(() => 0.3, seed));
    const parts = scans.map((scan, i) => ({ scan, light: { ratio: 1 }, place: places[i]! }));
    const join = startJoin({ left: 0, top: 0, width: 900, height: 900 }, 1, () => {});
    for (const i of layingOrder(places)) join.add(parts[i]!);
    const made = join.finish();
    const expected = laid(scans, places);
    expect([made.width, made.height]).toEqual([expected.width, expected.height]);
    for (const [x, y] of [
      [50, 50],
      [500, 60],
      [60, 500],
      [700, 500],
      [510, 340],
    ] as const)
      expect(Math.abs(toneOf(made, x, y) - toneOf(expected, x, y))).toBeLessThan(0.02);
  });
});
