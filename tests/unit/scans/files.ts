/** Scans for tests: mosaics with known numbers, and a folder to put files into. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { type FilterPattern, RGGB } from "../../witness/raw/dng.ts";

/** Numbers 0 … 1 from a seed, the same on every computer. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

export interface MosaicOptions {
  readonly pattern?: FilterPattern;
  /** One level, or one for each site of the pattern. */
  readonly black?: number | readonly number[];
  readonly white?: number;
  readonly noise?: number;
  /** Signal of the three colours at full light. */
  readonly colour?: readonly [number, number, number];
  /** Light 0 … 1 at a place; default a ramp with ripples. */
  readonly light?: (x: number, y: number) => number;
}

/** Recorded numbers of a smooth scene under a colour filter pattern. */
export function drawMosaic(width: number, height: number, options: MosaicOptions = {}): Uint16Array {
  const { pattern = RGGB, black = 512, white = 15000, noise = 20, colour = [0.55, 1, 0.7] } = options;
  const light =
    options.light ??
    ((x, y) => 0.05 + 0.9 * (x / width) * (0.4 + (0.6 * y) / height) + 0.03 * Math.sin(x / 9) * Math.sin(y / 7));
  const random = seeded(1);
  const data = new Uint16Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const site = (y % pattern.rows) * pattern.columns + (x % pattern.columns);
      const level = typeof black === "number" ? black : black[site];
      const signal = Math.min(1, Math.max(0, light(x, y) * colour[pattern.colours[site]]));
      const value = level + signal * (white - level) + (random() - 0.5) * 2 * noise;
      data[y * width + x] = Math.min(white, Math.max(0, Math.round(value)));
    }
  return data;
}

/** A folder that goes when the test file is done. */
export function temporaryFolder(): { path: string; put: (name: string, bytes: Uint8Array | string) => string } {
  const path = mkdtempSync(join(tmpdir(), "rollbook-scans-"));
  afterAll(() => rmSync(path, { recursive: true, force: true }));
  return {
    path,
    put(name, bytes) {
      writeFileSync(join(path, name), bytes);
      return join(path, name);
    },
  };
}

/** Whether two rows of numbers are the same, one by one; fast on whole pictures. */
export function sameNumbers(a: Uint16Array, b: Uint16Array): boolean {
  const bytes = (numbers: Uint16Array) => Buffer.from(numbers.buffer, numbers.byteOffset, numbers.byteLength);
  return bytes(a).equals(bytes(b));
}
