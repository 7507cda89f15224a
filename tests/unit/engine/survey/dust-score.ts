/** Compares the specks and lines that a survey proposes with what the witness laid on the film. */
import { dustOf } from "../../../../extension/engine/survey/dust.ts";
import { discsAlong, distanceFrom, isLine, type Point } from "../../../../extension/engine/image/spot.ts";
import type { Speck } from "../../../../extension/engine/survey/types.ts";
import type { DustTruth } from "../../../witness/camera/camera.ts";
import type { MeasuredRoll } from "./rig.ts";

/** Least radius of a speck that has to be found, and least length of a line, in pixels of the full scan. */
const [MIN_RADIUS, MIN_LENGTH] = [1.5, 20];
/** How far beside an outline, in pixels, a found thing's middle may lie. */
const SLACK = 1.5;
/** A line is this many times as long as wide. */
const ELONGATION = 5;
/** Part of a true line that has to be covered, and of a found one that has to lie on true things. */
const MIN_COVERED = 0.6;

export interface DustScore {
  /** Part of what was proposed that lies on something true. */
  readonly precision: number;
  /** Part of the true specks that was proposed. */
  readonly recall: number;
  /** Part of the true hairs and scratches most of which was proposed, and of which most was proposed as a line. */
  readonly lineRecall: number;
  readonly asLines: number;
  /** Proposed things that are sensor dust. */
  readonly sensorDust: number;
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

/** A found thing: its middle and radius, and a line's course. */
export interface Found {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly centreline?: readonly Point[];
}

/**
 * Whether a found thing is a true one: the middle of one lies on the other, or of a line most of its course does.
 * @param scale pixels of the full scan in the unit of the found thing's numbers
 */
export function meets(found: Found, truth: DustTruth, scale: number): boolean {
  const { outline, x, y, radius } = truth;
  const isOn = ([u, v]: Point): boolean => {
    const p = [u * scale, v * scale] as const;
    if (outline) return isInside(outline, p) || toOutline(outline, p) < SLACK;
    return Math.hypot(p[0] - x, p[1] - y) < Math.max(3, radius + SLACK);
  };
  if (!found.centreline)
    return isOn([found.x, found.y]) || Math.hypot(found.x * scale - x, found.y * scale - y) < found.radius * scale;
  const points = along(found.centreline, 1 / scale);
  return points.filter(isOn).length >= MIN_COVERED * points.length;
}

/** Points along a course, so far apart. */
function along(course: readonly Point[], step: number): Point[] {
  return course.flatMap(([x, y], k): Point[] => {
    const [u, v] = course[Math.min(k + 1, course.length - 1)];
    const steps = Math.max(1, Math.ceil(Math.hypot(u - x, v - y) / step));
    return Array.from({ length: steps }, (_, i) => [x + ((u - x) * i) / steps, y + ((v - y) * i) / steps]);
  });
}

export const isTrueLine = ({ kind, length, radius, outline }: DustTruth): boolean =>
  kind !== "speck" && outline !== undefined && length >= Math.max(MIN_LENGTH, ELONGATION * 2 * radius);

/** A proposal as it is compared with the truth. */
function foundOf(speck: Speck): Found {
  const line = speck.spots.find(isLine);
  return { x: speck.x, y: speck.y, radius: speck.radius, ...(line ? { centreline: line.line } : {}) };
}

/** Scores rolls, frame by frame. */
export function scoreOf(...rolls: readonly MeasuredRoll[]): DustScore {
  let [right, found, seen, specks, sensorDust, lines, covered, drawn] = [0, 0, 0, 0, 0, 0, 0, 0];
  const frames = rolls.flatMap(({ roll, scans }) =>
    roll.scans.map((scan, i) => ({ roll, scan, truth: scans[i].truth, width: scans[i].width })),
  );
  for (const { roll, scan, truth, width } of frames) {
    const dust = dustOf(roll, scan);
    const isOn = (d: Speck, t: DustTruth): boolean => meets(foundOf(d), t, width);
    const isRight = dust.map((d) => truth.dust.some((t) => isOn(d, t)));
    found += dust.length;
    right += isRight.filter(Boolean).length;
    const needed = truth.dust.filter((t) => !isTrueLine(t) && t.radius >= MIN_RADIUS);
    specks += needed.length;
    seen += needed.filter((t) => dust.some((d) => isOn(d, t)) || covers(dust, t, width)).length;
    for (const t of truth.dust.filter(isTrueLine)) {
      lines++;
      if (covers(dust, t, width)) covered++;
      const drawnOnes = dust.filter((d) => d.spots.some(isLine));
      if (covers(drawnOnes, t, width)) drawn++;
    }
    // A true speck may lie close to sensor dust.
    sensorDust += dust.filter((d, k) => !isRight[k] && truth.sensorDust.some((t) => isOn(d, asDust(t)))).length;
  }
  return {
    precision: right / found,
    recall: seen / specks,
    lineRecall: covered / lines,
    asLines: drawn / lines,
    sensorDust,
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
  const discs = found.flatMap(({ spots }) => spots.flatMap(discsAlong));
  const hit = points.filter(([x, y]) =>
    discs.some(([u, v, r]) => Math.hypot(x - u * width, y - v * width) < r * width),
  );
  return hit.length >= MIN_COVERED * points.length;
}

/** Points of a polygon's inside, one a pixel. */
export function within(outline: readonly Point[]): Point[] {
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
const toOutline = (outline: readonly Point[], point: Point): number =>
  distanceFrom({ line: [...outline, outline[0]], width: 0 }, point);
