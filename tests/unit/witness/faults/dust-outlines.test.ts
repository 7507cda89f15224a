import { describe, expect, it } from "vitest";
import { placeDust } from "../../../witness/faults/dust.ts";
import { centroid, OUTLINE_SETS, outlinesOf, realDust } from "../../../witness/faults/dust-outlines.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";

const SMALL = { ...FORMAT_135, picture: [9, 6] as const };

describe("outlines of real dust", () => {
  it("are all there, each frame in one set", () => {
    const frames = Object.values(OUTLINE_SETS).flat();
    expect(frames.toSorted((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    const counts: Record<string, number> = {};
    for (const outline of frames.flatMap(outlinesOf)) counts[outline.class] = (counts[outline.class] ?? 0) + 1;
    // Counted in the published annotations.
    expect(counts).toEqual({ Dust: 7631, Dirt: 2700, "Short hair": 1341, "Long hair": 399, Scratch: 66 });
  });

  it("lie inside the picture and repeat with the seed", () => {
    const dust = realDust(SMALL, "train", 4);
    expect(dust).toEqual(realDust(SMALL, "train", 4));
    expect(dust).not.toEqual(realDust(SMALL, "train", 5));
    for (const { x, y, outline } of dust)
      for (const [u, v] of outline!) {
        expect(Math.abs(x + u)).toBeLessThan(4.5);
        expect(Math.abs(y + v)).toBeLessThan(3);
      }
  });

  it("take light over as much area as they have", () => {
    const dust = realDust(SMALL, "tune", 2).slice(0, 1);
    const [fine, width, height] = [50, 450, 300];
    const plane = { width, height, channels: 3 as const, data: new Float32Array(width * height * 3).fill(1) };
    placeDust(plane, dust, fine, [width / 2, height / 2]);
    const taken = plane.data.reduce((sum, v, i) => sum + (i % 3 === 1 ? 1 - v : 0), 0);
    expect(taken / (centroid(dust[0].outline!)[0] * fine ** 2 * dust[0].opacity)).toBeCloseTo(1, 1);
  });
});
