/** Points of the tone curve, L* in to L* out, as they are dragged. */
import { monotoneCubic } from "../../extension/engine/math/monotone-cubic.ts";

export type CurvePoint = readonly [lightnessIn: number, lightnessOut: number];
export type CurvePoints = readonly CurvePoint[];

/** Least distance of two points along L* in. */
const GAP = 1;
/** A new point nearer than this to an old one takes hold of the old one. */
const MIN_DISTANCE = 2.5;

const clamp = (v: number, least: number, most: number): number => Math.min(most, Math.max(least, v));

/** L* out over L* in; without points tones stay as they are. The ends are black and white where no point says otherwise. */
export function curveThrough(points: CurvePoints): (lightness: number) => number {
  const all = withEnds(points);
  const curve = monotoneCubic(
    all.map((p) => p[0]),
    all.map((p) => p[1]),
  );
  return (lightness) => clamp(curve.at(lightness), 0, 100);
}

function withEnds(points: CurvePoints): CurvePoint[] {
  const all = [...points];
  if (all.length === 0 || all[0][0] > 0) all.unshift([0, 0]);
  if (all[all.length - 1][0] < 100) all.push([100, 100]);
  return all;
}

/** Moves point `index`, held between its neighbours so that the curve never falls. */
export function movedPoint(points: CurvePoints, index: number, [x, y]: CurvePoint): CurvePoints {
  const before = points[index - 1];
  const after = points[index + 1];
  const left = before ? before[0] + GAP : 0;
  const right = after ? after[0] - GAP : 100;
  const moved: CurvePoint = [clamp(x, left, right), clamp(y, before ? before[1] : 0, after ? after[1] : 100)];
  return points.map((p, i) => (i === index ? moved : p));
}

/** Adds a point, or finds the one that is already there. The first one brings black and white along. */
export function addedPoint(points: CurvePoints, [x, y]: CurvePoint): { points: CurvePoints; index: number } {
  const all = points.length === 0 ? withEnds([]) : [...points];
  const near = all.findIndex((p) => Math.abs(p[0] - x) < MIN_DISTANCE);
  if (near >= 0) return { points: movedPoint(all, near, [all[near][0], y]), index: near };
  const at = all.findIndex((p) => p[0] > x);
  const index = at < 0 ? all.length : at;
  all.splice(index, 0, [x, y]);
  return { points: movedPoint(all, index, [x, y]), index };
}

/** Takes a point out; when nothing but a straight line is left, all go. */
export function removedPoint(points: CurvePoints, index: number): CurvePoints {
  const left = points.filter((_, i) => i !== index);
  return left.every(([x, y]) => x === y) ? [] : left;
}
