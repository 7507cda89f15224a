/** Correcting a lens's faults, judged on a picture that is known everywhere: a sum of waves. */
import { describe, expect, it } from "vitest";
import { correctionReach, correctLens } from "../../../../extension/engine/lens/correct.ts";
import { largestShift } from "../../../../extension/engine/lens/radial.ts";
import type { LensFaults, LinearScan } from "../../../../extension/engine/types.ts";
import { lensDrawing } from "../../../witness/camera/project.ts";

const [WIDTH, HEIGHT] = [410, 274];
const FAULTS: LensFaults = {
  lateral: { red: [0.004, -0.002], blue: [-0.003, -0.004] },
  distortion: [0.03, -0.012],
};
const LENS = { distortion: [0.03, -0.012], red: [0.004, -0.002], blue: [-0.003, -0.004] } as const;

/** Light at a place of the true picture, 0 … 1; waves of five pixels and longer. */
const light = (x: number, y: number, c: number): number =>
  0.5 +
  0.16 * Math.sin(0.31 * x + 0.9 * y + c) +
  0.16 * Math.sin(1.1 * x - 0.2 * y + 2 * c) +
  0.1 * Math.cos(0.02 * x * c);

/** What a lens draws, each sample looked up at the place of the true picture that the witness names. */
function drawn(lens: Parameters<typeof lensDrawing>[0] | undefined, channels: 1 | 3 = 3): LinearScan {
  const data = new Uint16Array(WIDTH * HEIGHT * channels);
  const drawing = lens && lensDrawing(lens, WIDTH, HEIGHT);
  for (let y = 0, i = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      for (let c = 0; c < channels; c++, i++) {
        const channel = channels === 1 ? 1 : c;
        const [u, v] = drawing ? drawing.truth(x + 0.5, y + 0.5, channel) : [x + 0.5, y + 0.5];
        data[i] = Math.round(500 + 60_000 * light(u, v, channel));
      }
  return { width: WIDTH, height: HEIGHT, channels, data, black: 500, scale: 1 / 60_000 };
}

/** Largest difference in 60 000ths, leaving out a border where the photograph ends. */
function furthest(a: LinearScan, b: LinearScan, border: number): number {
  let most = 0;
  for (let y = border; y < HEIGHT - border; y++)
    for (let i = (y * WIDTH + border) * a.channels; i < (y * WIDTH + WIDTH - border) * a.channels; i++)
      most = Math.max(most, Math.abs(a.data[i] - b.data[i]));
  return most;
}

describe("correctLens", () => {
  it.each([3, 1] as const)("puts every sample of %i channels where it belongs", (channels) => {
    const scan = drawn(LENS, channels);
    const truth = drawn(undefined, channels);
    expect(furthest(scan, truth, 12)).toBeGreaterThan(10_000);
    correctLens(scan, FAULTS);
    // Lanczos weights pass waves of five pixels to a part in 150.
    expect(furthest(scan, truth, 12)).toBeLessThan(400);
  });

  it("leaves green's samples as they are where there is lateral colour alone", () => {
    const scan = drawn({ red: LENS.red, blue: LENS.blue });
    const before = scan.data.slice();
    correctLens(scan, { lateral: FAULTS.lateral });
    expect(scan.data.every((v, i) => i % 3 !== 1 || v === before[i])).toBe(true);
    expect(scan.data.some((v, i) => i % 3 === 0 && v !== before[i])).toBe(true);
  });

  it("makes the same samples of a part as of the whole", () => {
    const [whole, part] = [drawn(LENS), drawn(LENS)];
    correctLens(whole, FAULTS);
    const region = { left: 201, top: 37, width: 150, height: 200 };
    const reach = correctionReach(FAULTS, part);
    // What lies farther away than the reach is not looked at.
    for (let y = 0; y < HEIGHT; y++)
      for (let x = 0; x < WIDTH; x++)
        if (
          x < region.left - reach ||
          y < region.top - reach ||
          x >= region.left + region.width + reach ||
          y >= region.top + region.height + reach
        )
          part.data.fill(0, (y * WIDTH + x) * 3, (y * WIDTH + x) * 3 + 3);
    correctLens(part, FAULTS, region);
    for (let y = region.top; y < region.top + region.height; y++) {
      const [from, to] = [(y * WIDTH + region.left) * 3, (y * WIDTH + region.left + region.width) * 3];
      expect(part.data.subarray(from, to)).toEqual(whole.data.subarray(from, to));
    }
  });

  it("does the same to a scan of half the size", () => {
    const full = largestShift(FAULTS, { width: 6000, height: 4000 });
    expect(largestShift(FAULTS, { width: 3000, height: 2000 })).toBeCloseTo(full / 2, 9);
  });
});
