/** Straight lines through the places where a side's edge may be. */
import type { EdgePoints, DensityAboveBase } from "./edges.ts";

/** A line across one side, at the scan's middle along it. */
export interface Line {
  /** Overview pixels from the scan's left or top, where the line crosses the scan's middle. */
  readonly offset: number;
  /** Part of the side's lines that have a place on it. */
  readonly support: number;
  /** Part of the strip just inside that is picture. */
  readonly coverage: number;
  /** Part of the film outside that is denser than margin. */
  readonly clutter: number;
  /** Width of bare margin outside, in parts of the scan's depth on this side: the median along the line. */
  readonly margin: number;
}

/** Tilts that are looked at, and the step between them, degrees. A strip in a holder lies straighter than this. */
const MAX_TILT = 4;
const STEP = 0.05;
/** Width of a bin across a line, pixels. */
const BIN = 1.5;
const PICTURE = 0.02;
const RADIAN = Math.PI / 180;

/** How a side's places shift across it per pixel along it, for a clockwise tilt: upright sides lean the other way. */
export const slopeOf = (side: EdgePoints["side"], tilt: number): number =>
  (side === "left" || side === "right" ? -1 : 1) * Math.tan(tilt * RADIAN);

export const middleAlong = (side: EdgePoints["side"], e: DensityAboveBase): number =>
  (side === "left" || side === "right" ? e.height : e.width) / 2;

/** The tilt at which the places of all sides fall best together; undefined where there are too few. */
export function bestTilt(points: readonly EdgePoints[], densityAboveBase: DensityAboveBase): number | undefined {
  let best: number | undefined;
  let max = 0;
  const steps = Math.round(MAX_TILT / STEP);
  for (let k = -steps; k <= steps; k++) {
    const tilt = k * STEP;
    let score = 0;
    for (const p of points) {
      const counts = votes(p, tilt, densityAboveBase);
      let top = 0;
      for (let i = 1; i < counts.length; i++) top = Math.max(top, counts[i - 1] + counts[i]);
      // A long side says more of the angle; squares favour few sharp peaks over many blunt ones.
      score += (top / Math.max(1, p.lines)) ** 2 * p.lines;
    }
    if (score > max) {
      max = score;
      best = tilt;
    }
  }
  return max > 4 ? best : undefined;
}

function votes(p: EdgePoints, tilt: number, densityAboveBase: DensityAboveBase): Float64Array {
  const depth = p.side === "left" || p.side === "right" ? densityAboveBase.width : densityAboveBase.height;
  const counts = new Float64Array(Math.ceil(depth / BIN) + 2);
  const slope = slopeOf(p.side, tilt);
  const middle = middleAlong(p.side, densityAboveBase);
  for (let i = 0; i < p.across.length; i++) {
    const bin = Math.floor((p.across[i] - slope * (p.along[i] - middle)) / BIN);
    if (bin >= 0 && bin < counts.length) counts[bin]++;
  }
  return counts;
}

/** The lines of a side at a tilt, best supported first. */
export function linesAt(p: EdgePoints, tilt: number, densityAboveBase: DensityAboveBase): Line[] {
  const counts = votes(p, tilt, densityAboveBase);
  const both = counts.map((v, i) => v + (counts[i + 1] ?? 0));
  const lines: Line[] = [];
  for (let i = 0; i < both.length; i++) {
    const support = both[i] / Math.max(1, p.lines);
    let isPeak = support > 0.03;
    for (let k = Math.max(0, i - 3); isPeak && k <= Math.min(both.length - 1, i + 3); k++)
      if (both[k] > both[i] || (both[k] === both[i] && k < i)) isPeak = false;
    if (!isPeak) continue;
    const offset = (i + 1) * BIN;
    lines.push({ offset, support: Math.min(1, support), ...stripsAt(p, tilt, offset, densityAboveBase) });
  }
  return lines.toSorted((a, b) => b.support - a.support);
}

/** What lies just inside of a line, and what lies outside of it. */
function stripsAt(
  p: EdgePoints,
  tilt: number,
  offset: number,
  e: DensityAboveBase,
): Pick<Line, "coverage" | "clutter" | "margin"> {
  const upright = p.side === "left" || p.side === "right";
  const far = p.side === "right" || p.side === "bottom";
  const length = upright ? e.height : e.width;
  const depth = upright ? e.width : e.height;
  const slope = slopeOf(p.side, tilt);
  const inwards = far ? -1 : 1;
  const at = (k: number, d: number): number => {
    const a = Math.round(offset + slope * (k - length / 2) + inwards * d);
    if (a < 0 || a >= depth) return NaN;
    return e.value[upright ? k * e.width + a : a * e.width + k];
  };
  let inside = 0;
  let picture = 0;
  let outside = 0;
  let clutter = 0;
  const margins: number[] = [];
  // The ends of a side are not counted: there the neighbouring margins and the holder's corners lie.
  for (let k = Math.floor(0.08 * length); k < 0.92 * length; k += 3) {
    for (let d = 4; d <= 10; d += 3) {
      inside++;
      if (at(k, d) > PICTURE) picture++;
    }
    for (let d = -4; d >= -40; d -= 4) {
      const v = at(k, d);
      if (Number.isNaN(v)) break;
      outside++;
      if (v > PICTURE && v < 1.9) clutter++;
    }
    if (k % 4 === 0) {
      let d = -4;
      while (Math.abs(at(k, d)) < PICTURE) d -= 4;
      margins.push(-d);
    }
  }
  margins.sort((a, b) => a - b);
  return {
    coverage: picture / Math.max(1, inside),
    clutter: p.holder ? 0 : clutter / Math.max(8, outside),
    margin: (margins[margins.length >> 1] ?? 0) / depth,
  };
}
