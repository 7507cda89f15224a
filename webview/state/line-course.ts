/** The course of a hair or a scratch that was drawn by hand: as few points as keep its shape. */
import type { Point } from "./affine.ts";

/** Points that a recipe's line may have (schemas/recipe.parts.json). */
const MAX_POINTS = 200;

/**
 * Keeps those points of a course that lie farther than `tolerance` from the straight line between their neighbours, ends
 * included (Ramer 1972; Douglas and Peucker 1973). Tolerance and points are of one unit.
 */
export function simplified(course: readonly Point[], tolerance: number): Point[] {
  const kept = keep(course, tolerance);
  return kept.length <= MAX_POINTS ? kept : simplified(course, 2 * tolerance);
}

function keep(course: readonly Point[], tolerance: number): Point[] {
  if (course.length <= 2) return [...course];
  const [first, last] = [course[0], course[course.length - 1]];
  let [farthest, at] = [0, 0];
  for (let k = 1; k < course.length - 1; k++) {
    const distance = distanceFromSegment(course[k], first, last);
    if (distance > farthest) [farthest, at] = [distance, k];
  }
  if (farthest <= tolerance) return [first, last];
  return [...keep(course.slice(0, at + 1), tolerance).slice(0, -1), ...keep(course.slice(at), tolerance)];
}

function distanceFromSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const square = (bx - ax) ** 2 + (by - ay) ** 2;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}
