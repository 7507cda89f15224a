import { describe, expect, it } from "vitest";
import type { Plan } from "../../../../extension/engine/plan/compile.ts";
import { AT_BLACK, AT_WHITE, endsOf, paintClipping, SATURATED } from "../../../../webview/render/clipping.ts";

const plan = { print: Float32Array.of(2 / 255, 0.5, 253.6 / 255) } as unknown as Plan;
const pixels = () => Uint8ClampedArray.of(254, 9, 9, 255, 2, 1, 2, 255, 2, 3, 2, 255, 90, 90, 90, 255);
const colour = (all: Uint8ClampedArray, i: number) => Array.from(all.slice(4 * i, 4 * i + 3));

describe("clipping", () => {
  it("lie at the ends that the print can reach, not at 0 and 255", () =>
    expect(endsOf(plan)).toEqual({ black: 2, white: 254 }));

  it("are painted: one channel at white, all at black, the scan's saturation before both", () => {
    const all = pixels();
    paintClipping(all, plan, "print", Uint8Array.of(0, 0, 0, 1));
    expect([0, 1, 2, 3].map((i) => colour(all, i))).toEqual([[...AT_WHITE], [...AT_BLACK], [2, 3, 2], [...SATURATED]]);
  });

  it("are the scan's alone where no print is shown", () => {
    const all = pixels();
    paintClipping(all, plan, "scan", Uint8Array.of(1, 0, 0, 0));
    expect(colour(all, 0)).toEqual([...SATURATED]);
    expect(all.slice(4)).toEqual(pixels().slice(4));
  });
});
