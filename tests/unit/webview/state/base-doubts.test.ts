import { describe, expect, it } from "vitest";
import { codeOf } from "../../../../extension/engine/plan/log-code.ts";
import type { Rgb } from "../../../../extension/engine/types.ts";
import type { Source } from "../../../../webview/render/source.ts";
import { baseDoubts } from "../../../../webview/state/base-doubts.ts";

const BASE: Rgb = [0.3, 0.6, 0.75];
const STILL: Rgb = [0.004, 0.005, 0.006];

/** A scan of pixels with given densities, each so many times. */
function sourceOf(...parts: readonly (readonly [density: Rgb, count: number])[]): Source {
  const codes = parts.flatMap(([d, count]) =>
    Array.from({ length: count }, () => d.map((v) => codeOf(10 ** -v))).flat(),
  );
  const grid = { width: codes.length / 3, height: 1, codes: Uint16Array.from(codes) };
  return { levels: [grid] } as unknown as Source;
}
const over = (by: number): Rgb => [BASE[0] + by, BASE[1] + by, BASE[2] + by];

describe("doubts about a reading of the base", () => {
  it("are none on clear rebate, with picture, holder and bare light around it", () => {
    const source = sourceOf([BASE, 200], [over(0.8), 700], [[4, 4, 4], 60], [[0, 0, 0], 40]);
    expect(baseDoubts({ density: BASE, scatter: STILL }, [0.28, 0.58, 0.73], source)).toEqual([]);
  });

  it("notice clearer film elsewhere, and how much of it", () => {
    const source = sourceOf([BASE, 100], [over(0.5), 900]);
    const [doubt, ...more] = baseDoubts({ density: over(0.12), scatter: STILL }, undefined, source);
    expect(more).toEqual([]);
    expect(doubt).toMatchObject({ kind: "clearer", part: 0.1 });
    expect(doubt?.kind === "clearer" && doubt.difference).toBeCloseTo(0.12, 2);
  });

  it("notice a base far from the one that is stated, to either side, and an uneven area", () => {
    const far = (by: number) => baseDoubts({ density: over(by), scatter: STILL }, BASE, undefined);
    expect(far(0.1)).toEqual([]);
    expect(far(0.3)).toEqual([{ kind: "far", difference: expect.closeTo(0.3, 6) }]);
    expect(far(-0.25)).toEqual([{ kind: "far", difference: expect.closeTo(-0.25, 6) }]);
    expect(baseDoubts({ density: BASE, scatter: [0.01, 0.2, 0.01] }, BASE, undefined)).toEqual([
      { kind: "uneven", deviation: 0.2 },
    ]);
  });
});
