/** Base where nothing of the film's margin is in view but what lies between its perforations. */
import { expect, it } from "vitest";
import { findBase } from "../../../../extension/engine/detect/base.ts";
import type { DownsampledScan } from "../../../../extension/engine/detect/downsampled-scan.ts";

const BASE = [0.3, 0.55, 0.75];
const [WIDTH, HEIGHT] = [1140, 760];

/** A picture of many tones with one edge of film above it: 30 px to the millimetre, perforations cut by the scan's edge. */
function scanOf(hole: (x: number, y: number) => boolean): DownsampledScan {
  const t = new Float32Array(WIDTH * HEIGHT * 3);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      for (let c = 0; c < 3; c++) {
        const picture = y > 62 ? 0.3 + 0.25 * Math.sin(x / 3 + c) * Math.sin(y / 4) : 0;
        t[(y * WIDTH + x) * 3 + c] = hole(x, y) ? 1 : 10 ** -(BASE[c] + picture);
      }
  return {
    width: WIDTH,
    height: HEIGHT,
    t,
    clipped: new Uint8Array(WIDTH * HEIGHT),
    absolute: true,
  } as DownsampledScan;
}

// 4.750 mm pitch, holes 2.8 mm long and 1.98 mm wide along the film (ISO 1007, KS perforation; from memory).
const perforated = scanOf((x, y) => y < 60 && x % 142 < 60);
const plain = scanOf(() => false);
const below = { left: 0, top: 63 / HEIGHT, width: 1, height: 1 - 63 / HEIGHT, tilt: 0 };

it("is read between two perforations, and said to be", () => {
  const base = findBase(perforated, below)!;
  expect(base.isBetweenHoles).toBe(true);
  for (let c = 0; c < 3; c++) expect(Math.abs(base.density[c] - BASE[c])).toBeLessThan(0.002);
});

it("is no such thing on a margin without perforations", () => {
  expect(findBase(plain, below)!.isBetweenHoles).toBe(false);
});
