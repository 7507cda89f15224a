/**
 * Areas of the picture that are printed otherwise (the trade's dodging and burning): how strongly each counts at a place
 * of the picture as it is shown. Lengths are in the picture's longest sides, so that a feather is equally wide all round.
 */
import { clamp } from "../math/clamp.ts";
import type { LocalArea, LocalShape, ShownPoint } from "../types.ts";

/** A feather is at least this wide, in longest sides: an edge without any would show steps. */
export const MIN_FEATHER = 0.005;

/** What the areas add up to at a place. */
export interface LocalAdjustment {
  /** Added to the red, green and blue density of the negative. */
  readonly density: readonly [number, number, number];
  /** In EV. */
  readonly exposure: number;
  /** Factor of the contrast. */
  readonly contrast: number;
}

/** Width and height in longest sides. */
export type Aspect = readonly [width: number, height: number];

/** Width and height of a picture in its longest sides, from any units. */
export function aspectOf(width: number, height: number): Aspect {
  const longest = Math.max(width, height);
  return [width / longest, height / longest];
}

/** How strongly a shape counts, 0 … 1, at a place of the picture in fractions of width and height. */
export type Strength = (x: number, y: number) => number;

/** Prepares a shape for a picture of an aspect. */
export function strengthOf(shape: LocalShape, aspect: Aspect): Strength {
  const at = ([x, y]: ShownPoint): ShownPoint => [x * aspect[0], y * aspect[1]];
  if (shape.kind === "line") return lineStrength(at(shape.from), at(shape.to), aspect);
  if (shape.kind === "oval") return ovalStrength(shape, at, aspect);
  return polygonStrength(shape.points.map(at), shape.feather, aspect);
}

/** 0 up to 0, 1 from 1 on, with level ends: 3t² − 2t³. */
const smooth = (t: number): number => {
  const clamped = clamp(t, 0, 1);
  return clamped * clamped * (3 - 2 * clamped);
};

/** 1 well inside, ½ at the outline, 0 well outside. @param inside distance from the outline, negative outside */
const feathered = (inside: number, feather: number): number => smooth(inside / Math.max(feather, MIN_FEATHER) + 0.5);

function lineStrength(from: ShownPoint, to: ShownPoint, [width, height]: Aspect): Strength {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const square = Math.max(dx * dx + dy * dy, MIN_FEATHER ** 2);
  return (x, y) => 1 - smooth(((x * width - from[0]) * dx + (y * height - from[1]) * dy) / square);
}

function ovalStrength(
  { centre, radii, turn, feather }: LocalShape & { readonly kind: "oval" },
  at: (point: ShownPoint) => ShownPoint,
  [width, height]: Aspect,
): Strength {
  const [cx, cy] = at(centre);
  const [a, b] = at(radii);
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const smaller = Math.min(a, b);
  // Wider than the oval itself, its middle would no longer count whole.
  const edge = Math.min(feather, 2 * smaller);
  return (x, y) => {
    const [dx, dy] = [x * width - cx, y * height - cy];
    const [p, q] = [(cos * dx + sin * dy) / a, (cos * dy - sin * dx) / b];
    const r = Math.hypot(p, q);
    // Distance from the outline to first order: (1 − r) over the gradient of r.
    const inside = r < 1e-6 ? smaller : (r * (1 - r)) / Math.hypot(p / a, q / b);
    return feathered(inside, edge);
  };
}

function polygonStrength(points: readonly ShownPoint[], feather: number, [width, height]: Aspect): Strength {
  const half = Math.max(feather, MIN_FEATHER) / 2;
  const [left, right] = [Math.min(...points.map((p) => p[0])) - half, Math.max(...points.map((p) => p[0])) + half];
  const [top, bottom] = [Math.min(...points.map((p) => p[1])) - half, Math.max(...points.map((p) => p[1])) + half];
  return (fx, fy) => {
    const [x, y] = [fx * width, fy * height];
    if (x < left || x > right || y < top || y > bottom) return 0;
    let isInside = false;
    let nearest = Infinity;
    for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
      const [ax, ay] = points[j];
      const [bx, by] = points[i];
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) isInside = !isInside;
      const [ex, ey] = [bx - ax, by - ay];
      const along = clamp(((x - ax) * ex + (y - ay) * ey) / Math.max(ex * ex + ey * ey, 1e-18), 0, 1);
      nearest = Math.min(nearest, (x - ax - along * ex) ** 2 + (y - ay - along * ey) ** 2);
    }
    return feathered((isInside ? 1 : -1) * Math.sqrt(nearest), feather);
  };
}

/** Whether any two sides of a polygon cross or lie on one another: then inside and outside mean nothing. */
export function crossesItself(points: readonly ShownPoint[]): boolean {
  const n = points.length;
  const turnOf = (a: ShownPoint, b: ShownPoint, c: ShownPoint): number =>
    Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  const isOn = (a: ShownPoint, b: ShownPoint, p: ShownPoint): boolean =>
    turnOf(a, b, p) === 0 &&
    Math.min(a[0], b[0]) <= p[0] &&
    p[0] <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= p[1] &&
    p[1] <= Math.max(a[1], b[1]);
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const [a, b, c, d] = [points[i], points[(i + 1) % n], points[j], points[(j + 1) % n]];
      if ((i + 1) % n === j) {
        if (isOn(a, b, d) || isOn(c, d, a)) return true;
      } else if ((j + 1) % n === i) {
        if (isOn(c, d, b) || isOn(a, b, c)) return true;
      } else if (
        (turnOf(a, b, c) !== turnOf(a, b, d) && turnOf(c, d, a) !== turnOf(c, d, b)) ||
        isOn(a, b, c) ||
        isOn(a, b, d) ||
        isOn(c, d, a) ||
        isOn(c, d, b)
      )
        return true;
    }
  return false;
}

/** Adds up areas at places of a picture: exposures and filters add, contrasts multiply, each by its strength. */
export function adjuster(areas: readonly LocalArea[], aspect: Aspect): (x: number, y: number) => LocalAdjustment {
  const parts = areas.map((area) => ({ area, strength: strengthOf(area.shape, aspect) }));
  return (x, y) => {
    let [cyan, magenta, yellow, exposure, contrast] = [0, 0, 0, 0, 0];
    for (const { area, strength } of parts) {
      const s = strength(x, y);
      if (s === 0) continue;
      cyan += s * area.filtration.cyan;
      magenta += s * area.filtration.magenta;
      yellow += s * area.filtration.yellow;
      exposure += s * area.exposure;
      contrast += s * Math.log2(area.contrast);
    }
    return { density: [cyan / 100, magenta / 100, yellow / 100], exposure, contrast: 2 ** contrast };
  };
}
