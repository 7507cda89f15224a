/** The crop rectangle as it is dragged over the whole scan. */
import type { Area } from "../../extension/engine/types.ts";
import type { Point } from "./affine.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";

/** A handle: −1, 0 or 1 to the left/right and to the top/bottom of the picture as it lies in the scan; [0, 0] is its middle. */
export type Handle = readonly [x: -1 | 0 | 1, y: -1 | 0 | 1];

export const HANDLES: readonly Handle[] = [
  [-1, -1],
  [0, -1],
  [1, -1],
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
  [-1, 0],
];

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Shortest side of a crop, in pixels of the scan. */
const MIN_SIDE = 24;

/** The rectangle in pixels, about its centre. */
interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly tilt: number;
}

const boxOf = (a: Area, s: Size): Box => ({
  x: (a.left + a.width / 2) * s.width,
  y: (a.top + a.height / 2) * s.height,
  width: a.width * s.width,
  height: a.height * s.height,
  tilt: a.tilt,
});

const areaOf = (b: Box, s: Size): Area => ({
  left: (b.x - b.width / 2) / s.width,
  top: (b.y - b.height / 2) / s.height,
  width: b.width / s.width,
  height: b.height / s.height,
  tilt: b.tilt,
});

function turned([x, y]: Point, degrees: number): Point {
  const angle = (degrees * Math.PI) / 180;
  return [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)];
}

/** Place of a handle in pixels of the scan. */
export function handleAt(area: Area, size: Size, [hx, hy]: Handle): Point {
  const b = boxOf(area, size);
  const [dx, dy] = turned([(hx * b.width) / 2, (hy * b.height) / 2], b.tilt);
  return [b.x + dx, b.y + dy];
}

/** The rectangle moved into the scan; made smaller where it is larger than the scan. */
export function insideScan(area: Area): Area {
  const width = Math.min(1, area.width);
  const height = Math.min(1, area.height);
  return {
    ...area,
    width,
    height,
    left: clamp(area.left, 0, 1 - width),
    top: clamp(area.top, 0, 1 - height),
  };
}

/**
 * The crop after a handle was dragged to a place of the scan (pixels). The opposite side stays where it is; the middle
 * moves the whole. `ratio` (width over height, as the picture lies in the scan) is kept where given.
 */
export function dragged(area: Area, size: Size, [hx, hy]: Handle, to: Point, ratio?: number): Area {
  const b = boxOf(area, size);
  if (hx === 0 && hy === 0) return insideScan(areaOf({ ...b, x: to[0], y: to[1] }, size));
  const [lx, ly] = turned([to[0] - b.x, to[1] - b.y], -b.tilt);
  let width = hx === 0 ? b.width : Math.max(MIN_SIDE, hx * lx + b.width / 2);
  let height = hy === 0 ? b.height : Math.max(MIN_SIDE, hy * ly + b.height / 2);
  if (ratio !== undefined) {
    if (hy === 0 || (hx !== 0 && width / ratio > height)) height = width / ratio;
    else width = height * ratio;
  }
  [width, height] = [Math.min(width, size.width), Math.min(height, size.height)];
  // The opposite handle stays; without one on an axis the middle of that axis does.
  const [dx, dy] = turned([(hx * (width - b.width)) / 2, (hy * (height - b.height)) / 2], b.tilt);
  const moved = areaOf({ x: b.x + dx, y: b.y + dy, width, height, tilt: b.tilt }, size);
  return cutToScan(moved);
}

/** Sides that reach beyond the scan are cut off at its edge. */
function cutToScan(a: Area): Area {
  const left = Math.max(0, a.left);
  const top = Math.max(0, a.top);
  return { ...a, left, top, width: Math.min(1, a.left + a.width) - left, height: Math.min(1, a.top + a.height) - top };
}

/** The crop after its tilt was set, about its own middle. */
export const tilted = (area: Area, tilt: number): Area => ({ ...area, tilt: clamp(tilt, -45, 45) });

/** Tilt that makes the line between two places of the scan (pixels) level, or upright where it is nearer to that. */
export function levelling(from: Point, to: Point): number {
  const angle = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  return angle - 90 * Math.round(angle / 90);
}
