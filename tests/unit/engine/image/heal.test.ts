import { describe, expect, it } from "vitest";
import { heal } from "../../../../extension/engine/image/heal.ts";
import { discsAlong, type LineSpot, type RoundSpot } from "../../../../extension/engine/image/spot.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { BLACK, random, rms, scanOf } from "../simulated.ts";

const [W, H] = [400, 300];

/** Film with a gradient and grain, without specks. */
function film(channels: 1 | 3 = 3): LinearScan {
  const { normal } = random(31);
  return scanOf(W, H, (x, y, c) => (0.15 + 0.25 * x + 0.1 * y) * (1 + 0.1 * c) * (1 + 0.04 * normal()), { channels });
}

/** Puts black specks on a scan. */
function addSpecks(scan: LinearScan, spots: readonly RoundSpot[]): LinearScan {
  const data = scan.data.slice();
  for (const [sx, sy, sr] of spots)
    for (let y = 0; y < H; y++)
      for (let x = 0; x < W; x++)
        if (Math.hypot(x + 0.5 - sx * W, y + 0.5 - sy * W) < sr * W)
          for (let c = 0; c < scan.channels; c++) data[(y * W + x) * scan.channels + c] = BLACK + 200;
  return { ...scan, data };
}

/** Relative differences from the gradient within a disc. */
function inside(scan: LinearScan, [sx, sy, sr]: RoundSpot): number[] {
  const found: number[] = [];
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++)
      if (Math.hypot(x + 0.5 - sx * W, y + 0.5 - sy * W) < sr * W) {
        const truth = 0.15 + (0.25 * (x + 0.5)) / W + (0.1 * (y + 0.5)) / H;
        found.push(((scan.data[(y * W + x) * scan.channels] - BLACK) * scan.scale) / truth - 1);
      }
  return found;
}

const SPOTS: RoundSpot[] = [
  [0.2, 0.2, 0.012],
  [0.5, 0.4, 0.03],
  [0.55, 0.43, 0.008],
  [0.8, 0.6, 0.006],
];

describe("healing specks", () => {
  it.each([1, 3] as const)("puts film of the same tone and grain in their place (%i channels)", (channels) => {
    const dirty = addSpecks(film(channels), SPOTS);
    expect(
      heal(
        dirty,
        SPOTS.map(([x, y, r]) => [x, y, r * 1.15] as const),
      ),
    ).toBe(SPOTS.length);
    for (const spot of SPOTS) {
      const left = inside(dirty, spot);
      const mean = left.reduce((a, b) => a + b, 0) / left.length;
      // Three standard errors: the patch's own mean, and the means of two rings of about as many pixels.
      expect(Math.abs(mean)).toBeLessThan(3 * 0.04 * Math.sqrt(3 / left.length) + 0.004);
      // The grain goes on: no smooth blot, no doubled noise.
      const grain = rms(left.map((v) => v - mean));
      expect(grain).toBeGreaterThan(0.04 * 0.72);
      expect(grain).toBeLessThan(0.04 * 1.35);
    }
  });

  it("touches nothing but the specks and their feathered edges", () => {
    const clean = film();
    const dirty = addSpecks(clean, SPOTS);
    heal(dirty, SPOTS);
    let touched = 0;
    for (let y = 0; y < H; y++)
      for (let x = 0; x < W; x++) {
        const near = SPOTS.some(([sx, sy, sr]) => Math.hypot(x + 0.5 - sx * W, y + 0.5 - sy * W) < sr * W * 1.3 + 2);
        if (!near && dirty.data[(y * W + x) * 3] !== clean.data[(y * W + x) * 3]) touched++;
      }
    expect(touched).toBe(0);
  });

  it("does not take one speck's dust for another's patch", () => {
    const cluster: RoundSpot[] = Array.from({ length: 9 }, (_, k) => [
      0.3 + 0.035 * (k % 3),
      0.3 + 0.035 * Math.floor(k / 3),
      0.01,
    ]);
    const dirty = addSpecks(film(), cluster);
    heal(
      dirty,
      cluster.map(([x, y, r]) => [x, y, r * 1.1] as const),
    );
    for (const spot of cluster) expect(Math.min(...inside(dirty, spot))).toBeGreaterThan(-0.3);
  });

  it("heals a line along its course, across a gradient and with the film's grain", () => {
    const hair: LineSpot = {
      line: [
        [0.2, 0.5],
        [0.35, 0.42],
        [0.6, 0.55],
        [0.85, 0.5],
      ],
      width: 0.012,
    };
    const path = discsAlong(hair);
    const dirty = addSpecks(film(), path);
    expect(rms(path.flatMap((disc) => inside(dirty, disc)))).toBeGreaterThan(0.5);
    expect(heal(dirty, [{ ...hair, width: 1.3 * hair.width }])).toBe(1);
    const left = path.flatMap((disc) => inside(dirty, disc));
    expect(Math.abs(left.reduce((sum, v) => sum + v, 0) / left.length)).toBeLessThan(0.006);
    expect(rms(left)).toBeGreaterThan(0.04 * 0.72);
    expect(rms(left)).toBeLessThan(0.04 * 1.35);
  });

  it("is the same every time, and leaves spots outside the scan alone", () => {
    const a = addSpecks(film(), SPOTS);
    const b = addSpecks(film(), SPOTS);
    heal(a, SPOTS);
    heal(b, SPOTS);
    expect(Buffer.compare(Buffer.from(a.data.buffer), Buffer.from(b.data.buffer))).toBe(0);
    expect(heal(a, [[0.5, 3.5, 0.01]])).toBe(0);
    expect(Buffer.compare(Buffer.from(a.data.buffer), Buffer.from(b.data.buffer))).toBe(0);
  });

  it("heals at the scan's border, and gives up where there is no room for a patch", () => {
    const corner: RoundSpot[] = [[0.002, 0.002, 0.008]];
    const dirty = addSpecks(film(), corner);
    expect(heal(dirty, [[0.002, 0.002, 0.0095]])).toBe(1);
    expect(rms(inside(dirty, corner[0]))).toBeLessThan(0.1);
    const tiny = scanOf(12, 12, () => 0.5);
    const before = tiny.data.slice();
    expect(heal(tiny, [[0.5, 0.5, 0.1]])).toBe(0);
    expect(tiny.data).toEqual(before);
  });
});
