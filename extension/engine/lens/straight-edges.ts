/** Where the picture's four edges lie on a scan, place by place: in a camera's film gate they were straight. */
import type { FilmPlane } from "../flat-field/film-plane.ts";
import { median } from "../math/statistics.ts";
import type { Area, Film, Side } from "../types.ts";
import { radialScale } from "./radial.ts";

/** Places on one edge; lengths in halves of the scan's diagonal, from the middle of the scan. */
export interface EdgePlaces {
  readonly side: Side;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

const SIDES: readonly Side[] = ["left", "top", "right", "bottom"];
/** Pixels of the half-size scan that are averaged along an edge for one place, and the step to the next. */
const [ALONG, STEP] = [6, 6];
/** Part of an edge at both of its ends that is left out: gates have round corners. */
const ENDS = 0.06;
/** How far from the recipe's edge it is looked for, in parts of the scan's width, and at least, pixels. */
const [REACH, MIN_REACH] = [0.02, 10];
/** The two levels of a step are read so many pixels from its middle: beyond what lens and demosaicing blur. */
const [NEAR, FAR] = [4, 8];
/** A step takes at least this part of the clearer side's light. */
const MIN_STEP = 0.15;
/** Beside an edge lies rebate: places where it differs from the side's own level by more are the picture's own lines. */
const REBATE = 0.12;

/**
 * Places on the picture's edges, where unexposed film turns to picture by a clear step. The place is where the light is
 * half way between both: a blur keeps it there.
 * @param area the picture as the recipe has it; edges are looked for within 2 % of the width of it
 */
export function readEdges(plane: FilmPlane, area: Area, film: Film): EdgePlaces[] {
  const { width, height } = plane;
  const { centreX, centreY, unit } = radialScale(plane);
  const reach = Math.max(MIN_REACH, Math.round(REACH * width));
  const angle = (area.tilt * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [cx, cy] = [(area.left + area.width / 2) * width, (area.top + area.height / 2) * height];
  const [wide, high] = [area.width * width, area.height * height];
  return SIDES.map((side) => {
    const upright = side === "left" || side === "right";
    const outward = side === "left" || side === "top" ? -1 : 1;
    const [long, deep] = upright ? [high, wide] : [wide, high];
    const found: { x: number; y: number; outside: number }[] = [];
    for (let along = (ENDS - 0.5) * long; along < (0.5 - ENDS) * long; along += STEP) {
      // A point of the edge as the recipe has it; the scan is read straight across, along its rows or columns.
      const [u, v] = upright ? [(outward * deep) / 2, along] : [along, (outward * deep) / 2];
      const [px, py] = [cx + cos * u - sin * v, cy + sin * u + cos * v];
      const line = upright
        ? profileOf(plane, Math.round(py), Math.round(px), reach, outward, true)
        : profileOf(plane, Math.round(px), Math.round(py), reach, outward, false);
      const step = line && stepIn(line, film === "slide");
      if (!step) continue;
      const [origin, from] = upright ? [Math.round(px), Math.round(py)] : [Math.round(py), Math.round(px)];
      const across = origin + outward * (reach - step.at) + 0.5;
      found.push(
        upright ? { x: across, y: from, outside: step.outside } : { x: from, y: across, outside: step.outside },
      );
    }
    const level = median(found.map(({ outside }) => outside));
    const kept = found.filter(({ outside }) => Math.abs(outside / level - 1) < REBATE);
    return {
      side,
      x: kept.map(({ x }) => (x - centreX) / unit),
      y: kept.map(({ y }) => (y - centreY) / unit),
    };
  });
}

/**
 * Green light across an edge from outside inwards, 2·reach + 1 pixels about `across`, the mean of ALONG lines about `at`.
 * @returns undefined where the scan ends
 */
function profileOf(
  { width, height, data }: FilmPlane,
  at: number,
  across: number,
  reach: number,
  outward: number,
  upright: boolean,
): Float32Array | undefined {
  const [deep, long] = upright ? [width, height] : [height, width];
  if (across - reach < 0 || across + reach >= deep || at - ALONG / 2 < 0 || at + ALONG / 2 > long) return undefined;
  const out = new Float32Array(2 * reach + 1);
  for (let d = 0; d < out.length; d++) {
    const place = across + outward * (reach - d);
    for (let k = at - ALONG / 2; k < at + ALONG / 2; k++)
      out[d] += data[(upright ? k * width + place : place * width + k) * 3 + 1] / ALONG;
  }
  return out;
}

/** The first clear step inwards: where it crosses half of its height, and the level outside of it. */
function stepIn(line: Float32Array, rises: boolean): { readonly at: number; readonly outside: number } | undefined {
  let best: { at: number; outside: number } | undefined;
  let largest = MIN_STEP;
  for (let d = FAR; d < line.length - FAR; d++) {
    const [outside, inside] = [meanOf(line, d - FAR, d - NEAR), meanOf(line, d + NEAR, d + FAR)];
    const height = rises ? 1 - outside / inside : 1 - inside / outside;
    if (!(height > largest)) continue;
    const half = (outside + inside) / 2;
    for (let i = d - NEAR; i < d + NEAR; i++) {
      const [a, b] = [line[i], line[i + 1]];
      if (rises ? a <= half && b > half : a >= half && b < half) {
        largest = height;
        best = { at: i + (half - a) / (b - a), outside };
        break;
      }
    }
  }
  return best;
}

function meanOf(line: Float32Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i <= to; i++) sum += line[i];
  return sum / (to - from + 1);
}
