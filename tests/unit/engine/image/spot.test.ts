import { describe, expect, it } from "vitest";
import {
  discsAlong,
  distanceFrom,
  type LineSpot,
  middleOf,
  radiusOf,
  roundedSpot,
} from "../../../../extension/engine/image/spot.ts";

const HAIR: LineSpot = {
  line: [
    [0.1, 0.1],
    [0.4, 0.1],
    [0.4, 0.5],
  ],
  width: 0.01,
};

describe("a spot that is a line", () => {
  it("has its middle half-way along its course", () => {
    const [x, y] = middleOf(HAIR);
    expect(x).toBeCloseTo(0.4, 12);
    expect(y).toBeCloseTo(0.15, 12);
    expect(radiusOf(HAIR)).toBe(0.005);
  });

  it("is as far from a point as the nearest place of its course", () => {
    expect(distanceFrom(HAIR, [0.25, 0.13])).toBeCloseTo(0.03, 12);
    expect(distanceFrom(HAIR, [0, 0.1])).toBeCloseTo(0.1, 12);
    expect(distanceFrom([0.3, 0.3, 0.01], [0.3, 0.34])).toBeCloseTo(0.04, 12);
  });

  it("is covered by discs without a gap from end to end", () => {
    const discs = discsAlong(HAIR);
    expect(discs[0].slice(0, 2)).toEqual([0.1, 0.1]);
    expect(discs.at(-1)!.slice(0, 2)).toEqual([0.4, 0.5]);
    for (let t = 0; t <= 1; t += 0.001) {
      const place = t < 3 / 7 ? [0.1 + 0.7 * t, 0.1] : [0.4, 0.1 + 0.7 * (t - 3 / 7)];
      expect(Math.min(...discs.map(([x, y]) => Math.hypot(x - place[0], y - place[1])))).toBeLessThanOrEqual(0.0026);
    }
  });

  it("is rounded point by point", () => {
    expect(
      roundedSpot(
        {
          line: [
            [0.123456, 0.2],
            [0.3, 0.400004],
          ],
          width: 0.00123456,
        },
        5,
        5,
      ),
    ).toEqual({
      line: [
        [0.12346, 0.2],
        [0.3, 0.4],
      ],
      width: 0.00123,
    });
  });
});
