import { expect, it } from "vitest";
import { simplified } from "../../../../webview/state/line-course.ts";
import type { Point } from "../../../../webview/state/affine.ts";

it("keeps the ends and the bends of a course, and none of the pointer's jitter", () => {
  const jitter = (k: number): number => (k % 2 === 0 ? 0.0002 : -0.0002);
  const course: Point[] = [
    ...Array.from({ length: 50 }, (_, k): Point => [0.2 + 0.006 * k, 0.3 + (k === 0 ? 0 : jitter(k))]),
    ...Array.from({ length: 51 }, (_, k): Point => [0.5 + (k === 0 || k === 50 ? 0 : jitter(k)), 0.3 + 0.004 * k]),
  ];
  const line = simplified(course, 0.0005);
  expect(line[0]).toEqual([0.2, 0.3]);
  expect(line.at(-1)).toEqual([0.5, 0.5]);
  expect(line).toHaveLength(3);
  expect(Math.hypot(line[1][0] - 0.5, line[1][1] - 0.3)).toBeLessThan(0.007);
});

it("follows a curve to the tolerance, with no more points than a recipe holds", () => {
  const circle = Array.from({ length: 5000 }, (_, k): Point => {
    const angle = (2 * Math.PI * k) / 4999;
    return [0.5 + 0.3 * Math.cos(angle), 0.5 + 0.3 * Math.sin(angle)];
  });
  const line = simplified(circle, 0.001);
  expect(line.length).toBeGreaterThan(20);
  for (let k = 1; k < line.length; k++) {
    // The sagitta of each chord is how far it lies off the circle.
    const chord = Math.hypot(line[k][0] - line[k - 1][0], line[k][1] - line[k - 1][1]);
    expect(0.3 - Math.sqrt(0.09 - (chord / 2) ** 2)).toBeLessThan(0.0011);
  }
  expect(simplified(circle, 1e-9).length).toBeLessThanOrEqual(200);
});

it("leaves two points as they are, and makes one point twice of a course that stays in place", () => {
  expect(
    simplified(
      [
        [0, 0],
        [1, 1],
      ],
      0.1,
    ),
  ).toEqual([
    [0, 0],
    [1, 1],
  ]);
  expect(
    simplified(
      [
        [0.5, 0.5],
        [0.5, 0.5],
        [0.5, 0.5],
      ],
      0.1,
    ),
  ).toEqual([
    [0.5, 0.5],
    [0.5, 0.5],
  ]);
});
