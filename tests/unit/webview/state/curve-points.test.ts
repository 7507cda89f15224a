import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import {
  addedPoint,
  type CurvePoints,
  curveThrough,
  movedPoint,
  removedPoint,
} from "../../../../webview/state/curve-points.ts";

const place = fc.tuple(fc.double({ min: 0, max: 100, noNaN: true }), fc.double({ min: 0, max: 100, noNaN: true }));
/** Any curve that can be clicked together. */
const points = fc
  .array(place, { maxLength: 8 })
  .map((all) => all.reduce<CurvePoints>((now, p) => addedPoint(now, p).points, []));

describe("curve points", () => {
  it("ascend and never fall, whatever is clicked and dragged", () => {
    fc.assert(
      fc.property(points, fc.nat(), place, (now, which, to) => {
        const all = now.length ? movedPoint(now, which % now.length, to) : now;
        for (let i = 1; i < all.length; i++) {
          expect(all[i][0]).toBeGreaterThan(all[i - 1][0]);
          expect(all[i][1]).toBeGreaterThanOrEqual(all[i - 1][1]);
        }
        for (const [x, y] of all) expect(x >= 0 && x <= 100 && y >= 0 && y <= 100).toBe(true);
      }),
    );
  });

  it("draw a rising curve that goes through them", () => {
    fc.assert(
      fc.property(points, (now) => {
        const at = curveThrough(now);
        for (const [x, y] of now) expect(at(x)).toBeCloseTo(y, 6);
        for (let x = 1; x <= 100; x++) expect(at(x)).toBeGreaterThanOrEqual(at(x - 1) - 1e-9);
      }),
    );
  });

  it("bring black and white along with the first, and go with the last", () => {
    const { points: first, index } = addedPoint([], [40, 50]);
    expect(first).toEqual([
      [0, 0],
      [40, 50],
      [100, 100],
    ]);
    expect(index).toBe(1);
    expect(removedPoint(first, 1)).toEqual([]);
    expect(
      removedPoint(
        [
          [0, 5],
          [40, 50],
          [100, 100],
        ],
        1,
      ),
    ).toEqual([
      [0, 5],
      [100, 100],
    ]);
  });

  it("take hold of a point that is near instead of making another", () => {
    const { points: all, index } = addedPoint(
      [
        [0, 0],
        [40, 50],
        [100, 100],
      ],
      [41, 60],
    );
    expect([index, all]).toEqual([
      1,
      [
        [0, 0],
        [40, 60],
        [100, 100],
      ],
    ]);
  });
});
