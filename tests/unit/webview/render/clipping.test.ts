import { describe, expect, it } from "vitest";
import { PRINT_SAMPLES } from "../../../../extension/engine/plan/table-axes.ts";
import type { Plan } from "../../../../extension/engine/plan/compile.ts";
import { endsOf, hatchAt, hatchClipping } from "../../../../webview/render/clipping.ts";

const table = new Float32Array(PRINT_SAMPLES).fill(0.5);
table[0] = 2 / 255;
table[PRINT_SAMPLES - 1] = 253.6 / 255;
const plan = { print: table } as unknown as Plan;
const pixels = () => Uint8ClampedArray.of(254, 9, 9, 255, 2, 1, 2, 255, 2, 3, 2, 255, 90, 90, 90, 255);
const colour = (all: Uint8ClampedArray, i: number) => Array.from(all.slice(4 * i, 4 * i + 3));

describe("clipping", () => {
  it("lie at the ends that the print can reach, not at 0 and 255", () =>
    expect(endsOf(plan)).toEqual({ black: 2, white: 254 }));

  /** Columns 0 … 3 of one row: white at one channel, black, near black, and a tone. */
  const part = { x: 0, y: 0, width: 4, ratio: 1 };

  it("are hatched: one channel at white, all at black, the scan's saturation before both", () => {
    // Place 0 lies on a rising line; of the falling ones, places 0 and 1 in row 0.
    const all = pixels();
    hatchClipping(all, part, plan, "print", Uint8Array.of(0, 0, 0, 0));
    expect(colour(all, 0)).toEqual([70, 70, 70]);
    expect(colour(all, 1)).toEqual([170, 170, 170]);
    expect([2, 3].map((i) => colour(all, i))).toEqual([
      [2, 3, 2],
      [90, 90, 90],
    ]);
    const crossed = pixels();
    hatchClipping(crossed, part, plan, "print", Uint8Array.of(1, 0, 0, 0));
    expect(colour(crossed, 0)).toEqual([30, 30, 30]);
  });

  it("are the scan's alone where no print is shown", () => {
    const all = pixels();
    hatchClipping(all, part, plan, "scan", Uint8Array.of(1, 0, 0, 0));
    expect(colour(all, 0)).toEqual([30, 30, 30]);
    expect(all.slice(4)).toEqual(pixels().slice(4));
  });

  it("has neutral lines of two kinds, as broad on every screen, and leaves most of the picture to be seen", () => {
    for (const kind of [1, 2, 3] as const)
      for (const ratio of [1, 2]) {
        let lines = 0;
        for (let y = 0; y < 16 * ratio; y++)
          for (let x = 0; x < 16 * ratio; x++) if (hatchAt(kind, x, y, ratio) !== undefined) lines++;
        const part = lines / (16 * ratio) ** 2;
        expect(part).toBeGreaterThan(0.2);
        expect(part).toBeLessThan(0.5);
      }
    // White is hatched one way, black the other.
    expect(hatchAt(1, 7, 1, 1)).toBeDefined();
    expect(hatchAt(2, 7, 1, 1)).toBeUndefined();
    expect(hatchAt(2, 9, 1, 1)).toBeDefined();
  });
});
