/**
 * Merging of a real bracket: three raw files of a 12-megapixel camera, taken by hand about two stops apart, from the
 * test pictures of Debian's source package hdrmerge 0.5+git20200117-2 (GPL-3). Kept beside the project, never in it.
 * Exposure ratios by the median of the raw files' own samples, before any registration, from the list of that material:
 * 3.958 and 4.135; the camera's times say 4 and 4. On samples that are laid on each other and well exposed in both, the
 * second ratio is 4.18 to 4.23 at every level and in every channel.
 */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { displacementAt } from "../../extension/engine/merge/displacement.ts";
import { type PartReading, startMerge } from "../../extension/engine/merge/merge.ts";
import { rowResampler } from "../../extension/engine/merge/resample-row.ts";
import type { LinearScan } from "../../extension/engine/types.ts";
import { decodeScan } from "../../extension/scans/decode.ts";

const FILES = [1, 2, 3].map((k) =>
  fileURLToPath(new URL(`../../../shared/real/raw/hdrmerge_sample${k}.dng`, import.meta.url)),
);

describe.skipIf(!FILES.every((file) => existsSync(file)))("a real bracket, taken by hand", () => {
  const scans: LinearScan[] = [];
  let merged: LinearScan;
  let readings: PartReading[];
  let unit = 1;

  beforeAll(async () => {
    for (const file of FILES) scans.push((await decodeScan(file, { half: true })).scan);
    const merge = startMerge(scans[0]!);
    readings = scans.slice(1).map((scan) => merge.add(scan) as PartReading);
    merged = merge.finish();
    unit = merge.unit;
  });

  it("has the ratios of exposure that the samples show", () => {
    const [shorter, longer] = readings as [PartReading, PartReading];
    expect(1 / shorter.exposure / 3.958).toBeGreaterThan(0.99);
    expect(1 / shorter.exposure / 3.958).toBeLessThan(1.01);
    expect(longer.exposure / 4.135).toBeGreaterThan(0.98);
    expect(longer.exposure / 4.135).toBeLessThan(1.025);
  });

  it("lays the scans on each other alike by either way round", () => {
    // From the first to the third straight, and over the second.
    const back = startMerge(scans[1]!).add(scans[2]!) as PartReading;
    for (const [x, y] of [
      [100, 100],
      [2000, 100],
      [1000, 700],
      [100, 1300],
      [2000, 1300],
    ] as const) {
      const [ax, ay] = displacementAt(readings[0]!.displacement, x, y);
      const [bx, by] = displacementAt(back.displacement, x + ax, y + ay);
      const [cx, cy] = displacementAt(readings[1]!.displacement, x, y);
      expect(Math.hypot(ax + bx - cx, ay + by - cy)).toBeLessThan(0.35);
    }
  });

  it("is linear to 1 % against each of its parts where both are well exposed", () => {
    const parts = [{ displacement: undefined, exposure: 1 }, ...readings];
    const { width, height } = merged;
    const [own, other] = [rowResampler(merged), parts.map((p, i) => rowResampler(scans[i]!, p.displacement))];
    const [a, b] = [new Float32Array(width * 3), new Float32Array(width * 3)];
    for (const [i, part] of parts.entries()) {
      const octaves = new Map<string, number[]>();
      for (let y = 40; y < height - 40; y += 6) {
        own.row(y, a);
        other[i]!.row(y, b);
        for (let k = 120; k < (width - 40) * 3; k += 5) {
          // Well above black's own errors and well below the limit, by the merged picture.
          const expected = (a[k]! * part.exposure) / unit;
          if (expected < 2 ** -5 || expected > 0.7) continue;
          const key = `${k % 3} ${Math.floor(Math.log2(expected))}`;
          if (!octaves.has(key)) octaves.set(key, []);
          octaves.get(key)!.push(b[k]! / expected);
        }
      }
      for (const [key, ratios] of octaves) {
        if (ratios.length < 300) continue;
        const middle = ratios.sort((p, q) => p - q)[ratios.length >> 1]!;
        if (process.env["FIGURES"]) console.log(i + 1, key, middle.toFixed(4), ratios.length);
        expect(Math.abs(middle - 1), `part ${i + 1}, channel and octave ${key}`).toBeLessThan(0.01);
      }
    }
  });

  it("doubles no edge: each is as steep as in the first scan", () => {
    // An edge that lies twice is half as steep. Strong edges across, where the first scan is well exposed.
    const [a, b] = [new Float32Array(merged.width * 3), new Float32Array(merged.width * 3)];
    const [own, first] = [rowResampler(merged), rowResampler(scans[0]!)];
    const steepness: number[] = [];
    const steepest = (row: Float32Array, k: number): number =>
      Math.max(...[-3, -2, -1, 0, 1, 2].map((d) => Math.abs(row[k + 3 * d + 3]! - row[k + 3 * d]!)));
    for (let y = 40; y < merged.height - 40; y += 3) {
      own.row(y, a);
      first.row(y, b);
      for (let x = 40; x < merged.width - 40; x++) {
        const k = x * 3 + 1;
        const values = [-3, -2, -1, 0, 1, 2, 3].map((d) => b[k + 3 * d]!);
        if (Math.max(...values) > 0.7 || Math.min(...values) < 0.02) continue;
        if (Math.abs(values[5]! - values[1]!) < 0.5 * values[3]!) continue;
        steepness.push(steepest(a, k) / unit / steepest(b, k));
      }
    }
    const at = (part: number): number => steepness.sort((p, q) => p - q)[Math.floor(part * steepness.length)]!;
    if (process.env["FIGURES"]) console.log("edges", steepness.length, [0.001, 0.005, 0.02, 0.1, 0.5, 0.9].map(at));
    expect(steepness.length).toBeGreaterThan(5000);
    expect(at(0.5)).toBeGreaterThan(0.95);
    // People who walked while the bracket was taken have edges that the other scans do not.
    expect(at(0.01)).toBeGreaterThan(0.65);
  });
});
