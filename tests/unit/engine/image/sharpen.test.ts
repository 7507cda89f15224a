import { describe, expect, it } from "vitest";
import { sharpen } from "../../../../extension/engine/image/sharpen.ts";
import type { Raster } from "../../../../extension/engine/types.ts";
import { random } from "../simulated.ts";

function edge(channels: 1 | 3, low = 20_000, high = 40_000): Raster<Uint16Array> {
  const [width, height] = [40, 12];
  const data = new Uint16Array(width * height * channels);
  for (let i = 0; i < data.length; i++) {
    const x = Math.floor(i / channels) % width;
    data[i] = Math.round(low + (high - low) / (1 + Math.exp(-(x - 20) / 1.2)));
  }
  return { width, height, channels, data };
}

const row = (r: Raster<Uint16Array>, y: number): number[] =>
  Array.from({ length: r.width }, (_, x) => r.data[(y * r.width + x) * r.channels]);

describe("output sharpening", () => {
  it("does nothing at 0 and on even tones", () => {
    const picture = edge(3);
    const before = picture.data.slice();
    sharpen(picture, 0);
    sharpen(picture, NaN);
    expect(picture.data).toEqual(before);
    const even = edge(3, 30_000, 30_000);
    sharpen(even, 1);
    expect(new Set(even.data)).toEqual(new Set([30_000]));
  });

  it.each([1, 3] as const)("makes an edge steeper, the more the higher the amount (%i channels)", (channels) => {
    const steepness = [0, 0.3, 0.6, 1].map((amount) => {
      const picture = edge(channels);
      sharpen(picture, amount);
      const values = row(picture, 6);
      return Math.max(...values.slice(1).map((v, x) => v - values[x]));
    });
    for (let k = 1; k < steepness.length; k++) expect(steepness[k]).toBeGreaterThan(steepness[k - 1] * 1.04);
  });

  it("keeps every pixel within a tenth of its neighbourhood's range: no halo", () => {
    const { uniform } = random(3);
    const picture = edge(1);
    for (let i = 0; i < picture.data.length; i++) picture.data[i] = 10_000 + Math.floor(uniform() * 40_000);
    const before = picture.data.slice();
    sharpen(picture, 1);
    const { width, height } = picture;
    for (let y = 1; y < height - 1; y++)
      for (let x = 1; x < width - 1; x++) {
        const around = [-1, 0, 1].flatMap((dy) => [-1, 0, 1].map((dx) => before[(y + dy) * width + x + dx]));
        const [low, high] = [Math.min(...around), Math.max(...around)];
        const v = picture.data[y * width + x];
        expect(v).toBeGreaterThanOrEqual(low - 0.1 * (high - low) - 1);
        expect(v).toBeLessThanOrEqual(high + 0.1 * (high - low) + 1);
      }
  });

  it("adds the same to all channels, so colours keep their differences", () => {
    const picture = edge(3);
    for (let i = 0; i < picture.data.length; i += 3) {
      picture.data[i] += 5000;
      picture.data[i + 2] -= 3000;
    }
    const before = picture.data.slice();
    sharpen(picture, 0.8);
    for (let i = 0; i < picture.data.length; i += 3) {
      const moved = [0, 1, 2].map((c) => picture.data[i + c] - before[i + c]);
      expect(Math.max(...moved) - Math.min(...moved)).toBeLessThanOrEqual(1);
    }
  });

  it("holds white and black", () => {
    const picture = edge(3, 0, 65_535);
    sharpen(picture, 1);
    expect(Math.min(...row(picture, 5))).toBe(0);
    expect(Math.max(...row(picture, 5))).toBe(65_535);
    const values = row(picture, 5);
    for (let x = 1; x < values.length; x++) expect(values[x]).toBeGreaterThanOrEqual(values[x - 1] - 700);
  });

  it.each([
    [1, 1, 1],
    [3, 2, 3],
    [3, 37, 9],
    [1, 38, 7],
  ] as const)("is the unsharp mask as defined (%i channels, %i × %i)", (channels, width, height) => {
    const { uniform } = random(8);
    const data = Uint16Array.from({ length: width * height * channels }, () => Math.floor(uniform() * 65_536));
    const before = data.slice();
    sharpen({ width, height, channels, data }, 0.7);
    const luma = (x: number, y: number): number => {
      const i = (Math.min(height - 1, Math.max(0, y)) * width + Math.min(width - 1, Math.max(0, x))) * channels;
      return channels === 1 ? 4 * before[i] : before[i] + 2 * before[i + 1] + before[i + 2];
    };
    const weights = [1, 4, 6, 4, 1];
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const around = [-1, 0, 1].flatMap((dy) => [-1, 0, 1].map((dx) => luma(x + dx, y + dy)));
        const [low, high] = [Math.min(...around), Math.max(...around)];
        let blur = 0;
        weights.forEach((wy, i) => weights.forEach((wx, j) => (blur += (wy * wx * luma(x + j - 2, y + i - 2)) / 256)));
        const wanted = luma(x, y) + 1.2 * 0.7 * (luma(x, y) - blur);
        const room = 0.1 * (high - low);
        const add = Math.round((Math.min(high + room, Math.max(low - room, wanted)) - luma(x, y)) / 4);
        for (let c = 0; c < channels; c++) {
          const i = (y * width + x) * channels + c;
          // Where the sum lies halfway between two codes, arithmetic in 32 bits may come down on the other side.
          expect(Math.abs(data[i] - Math.min(65_535, Math.max(0, before[i] + add)))).toBeLessThanOrEqual(1);
        }
      }
  });
});
