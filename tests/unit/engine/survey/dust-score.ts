/** Compares the specks and lines that a survey proposes with what the witness laid on the film. */
import { dustOf } from "../../../../extension/engine/survey/dust.ts";
import type { Speck } from "../../../../extension/engine/survey/types.ts";
import type { DustTruth } from "../../../witness/camera.ts";
import type { MeasuredRoll } from "./rig.ts";

type Point = readonly [x: number, y: number];

/** Least radius of a speck that has to be found, and least length of a line, in pixels of the full scan. */
const [LEAST_RADIUS, LEAST_LENGTH] = [1.5, 20];
/** How far beside an outline, in pixels, a found thing's middle may lie. */
const SLACK = 1.5;
/** A line is this many times as long as wide. */
const ELONGATION = 5;
/** Part of a true line that has to be covered, and of a found one that has to lie on true things. */
const MOST_OF_IT = 0.6;

export interface DustScore {
  /** Part of what was proposed that lies on something true. */
  readonly precision: number;
  /** Part of the true specks that was proposed. */
  readonly recall: number;
  /** Part of the true hairs and scratches most of which was proposed, and of which most was proposed as a line. */
  readonly lineRecall: number;
  readonly asLines: number;
  /** Proposed things that are dirt. */
  readonly dirt: number;
  /** Numbers behind the parts. */
  readonly counts: {
    readonly found: number;
    readonly right: number;
    readonly specks: number;
    readonly seen: number;
    readonly lines: number;
    readonly covered: number;
    readonly drawn: number;
  };
}

/** Discs in pixels that cover a proposed thing. */
const discsOf = ({ discs }: Speck, width: number): [x: number, y: number, radius: number][] =>
  discs.map(([x, y, r]) => [x * width, y * width, r * width]);

/** Whether the middle of a proposed speck lies on a true thing, or healing it covers the true thing's middle. */
function meets(found: Speck, truth: DustTruth, width: number): boolean {
  const [x, y] = [found.x * width, found.y * width];
  if (truth.outline) {
    const on = (p: Point): boolean => isInside(truth.outline!, p) || toOutline(truth.outline!, p) < SLACK;
    if (on([x, y])) return true;
    // A bent hair's middle may lie beside it: then most of what covers it has to lie on it.
    const discs = discsOf(found, width);
    return discs.filter(([u, v]) => on([u, v])).length >= MOST_OF_IT * discs.length;
  }
  const near = Math.hypot(x - truth.x, y - truth.y) < Math.max(3, truth.radius + SLACK);
  return near || discsOf(found, width).some(([u, v, r]) => Math.hypot(u - truth.x, v - truth.y) < r);
}

export const isTrueLine = ({ kind, length, radius, outline }: DustTruth): boolean =>
  kind !== "speck" && outline !== undefined && length >= Math.max(LEAST_LENGTH, ELONGATION * 2 * radius);

/** Scores one roll, frame by frame. */
export function scoreOf({ roll, scans }: MeasuredRoll): DustScore {
  let [right, found, seen, specks, dirt, lines, covered, drawn] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (const [i, scan] of roll.scans.entries()) {
    const { truth, width } = scans[i];
    const dust = dustOf(roll, scan);
    const isRight = dust.map((d) => truth.dust.some((t) => meets(d, t, width)));
    found += dust.length;
    right += isRight.filter(Boolean).length;
    const needed = truth.dust.filter((t) => !isTrueLine(t) && t.radius >= LEAST_RADIUS);
    specks += needed.length;
    seen += needed.filter((t) => dust.some((d) => meets(d, t, width) || covers([d], t, width))).length;
    for (const t of truth.dust.filter(isTrueLine)) {
      lines++;
      if (covers(dust, t, width)) covered++;
      if (
        covers(
          dust.filter((d) => d.discs.length > 1),
          t,
          width,
        )
      )
        drawn++;
    }
    // A true speck may lie close to dirt.
    dirt += dust.filter((d, k) => !isRight[k] && truth.dirt.some((t) => meets(d, asDust(t), width))).length;
  }
  return {
    precision: right / found,
    recall: seen / specks,
    lineRecall: covered / lines,
    asLines: drawn / lines,
    dirt,
    counts: { found, right, specks, seen, lines, covered, drawn },
  };
}

const asDust = (t: { x: number; y: number; radius: number }): DustTruth => ({
  ...t,
  kind: "speck",
  length: 0,
  opacity: 1,
});

/** Whether some proposed things cover most of an outline's area. */
function covers(found: readonly Speck[], { outline }: DustTruth, width: number): boolean {
  if (!outline) return false;
  const points = within(outline);
  const discs = found.flatMap((d) => discsOf(d, width));
  const hit = points.filter(([x, y]) => discs.some(([u, v, r]) => Math.hypot(x - u, y - v) < r));
  return hit.length >= MOST_OF_IT * points.length;
}

/** Points of a polygon's inside, one a pixel. */
function within(outline: readonly Point[]): Point[] {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  const points: Point[] = [];
  for (let y = Math.floor(Math.min(...ys)) + 0.5; y < Math.max(...ys); y++)
    for (let x = Math.floor(Math.min(...xs)) + 0.5; x < Math.max(...xs); x++)
      if (isInside(outline, [x, y])) points.push([x, y]);
  return points;
}

function isInside(outline: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  for (const [k, [ax, ay]] of outline.entries()) {
    const [bx, by] = outline[(k + 1) % outline.length];
    if (ay <= y !== by <= y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

/** Distance of a point from an outline's nearest side. */
function toOutline(outline: readonly Point[], [x, y]: Point): number {
  return Math.min(
    ...outline.map(([ax, ay], k) => {
      const [bx, by] = outline[(k + 1) % outline.length];
      const square = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square)) : 0;
      return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
    }),
  );
}
