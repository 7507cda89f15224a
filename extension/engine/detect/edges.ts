/**
 * Where film turns from margin to picture, looked for line by line from the four sides of an overview. A line gives any
 * number of places, for a dark part of the picture looks like margin and a letter in the margin looks like picture; which
 * of them lie on the picture's edge is decided by all lines together (frame.ts).
 */
import type { Rgb, Side } from "../types.ts";
import type { DownsampledScan } from "./downsampled-scan.ts";
import { clamp } from "../math/clamp.ts";

export const SIDES: readonly Side[] = ["left", "top", "right", "bottom"];

/** Places on one side: across it (from the scan's left or top, in overview pixels) and along it. */
export interface EdgePoints {
  readonly side: Side;
  readonly across: Float32Array;
  readonly along: Float32Array;
  /** Lines that were looked along, and how many of them began at a holder that hides everything. */
  readonly lines: number;
  readonly masked: number;
  /** Whether places are the holder's border, because no margin is in view on this side. */
  readonly holder: boolean;
}

/** Density above base, the mean of the channels; NaN where the holder or a mask hides the film. */
export interface DensityAboveBase {
  readonly width: number;
  readonly height: number;
  readonly value: Float32Array;
}

/** Film that is denser than this above its base does not exist; a holder is. */
export const HOLDER_DENSITY = 2.3;
/** Thinner than base by this much is a hole, or light beside the film. */
const BARE = -0.07;
/** Denser than base by this much is picture; noise of a smoothed line stays below. */
const PICTURE = 0.016;
/** Lines are averaged over this many neighbours, and places must hold for so many pixels. */
const ALONG = 7;
const MIN_RUN = 4;
/** Margin needed before a picture's edge, pixels. */
const MARGIN = 3;
/** A holder lies out of focus: its border is this many pixels wide. */
const BORDER = 12;
/** Part of the scan that is looked at from each side. */
const REACH = 0.48;
/** A picture is at least this much lighter than the holder that masks it: transmittance. */
const MIN_TRANSMITTANCE = 0.004;

const held = (t: number): number => (t > 1e-4 ? t : 1e-4);

export function densityAboveBaseOf(o: DownsampledScan, base: Rgb): DensityAboveBase {
  const { width, height, t } = o;
  const value = new Float32Array(width * height);
  const opaque = base.map((d) => 10 ** -(d + HOLDER_DENSITY));
  const [red, green] = [Math.min(opaque[0], MIN_TRANSMITTANCE), opaque[1] * 1.6];
  const sum = base[0] + base[1] + base[2];
  for (let i = 0, k = 0; i < value.length; i++, k += 3) {
    if (t[k] < red && t[k + 1] < green) value[i] = NaN;
    // The three channels' logarithms in one.
    else value[i] = -(Math.log10(held(t[k]) * held(t[k + 1]) * held(t[k + 2])) + sum) / 3;
  }
  return { width, height, value };
}

/** Places of one side. */
export function edgePoints(densityAboveBase: DensityAboveBase, side: Side): EdgePoints {
  const upright = side === "left" || side === "right";
  const far = side === "right" || side === "bottom";
  const [length, depth] = upright
    ? [densityAboveBase.height, densityAboveBase.width]
    : [densityAboveBase.width, densityAboveBase.height];
  const reach = Math.floor(depth * REACH);
  const across: number[] = [];
  const along: number[] = [];
  const holderAcross: number[] = [];
  const holderAlong: number[] = [];
  let masked = 0;
  let bordering = 0;
  let lines = 0;
  const line = new Float32Array(reach);
  // The outermost lines lie under the holder's corners; every other line is enough for what is smoothed anyway.
  for (let k = ALONG; k < length - ALONG; k += 2) {
    readLine(densityAboveBase, upright, far, k, line);
    lines++;
    const place = (at: number): number => (far ? depth - at : at);
    let start = 0;
    while (start < reach && Number.isNaN(line[start])) start++;
    if (start > 0 && start < reach) {
      masked++;
      // Past the holder's soft border: what comes first there?
      const first = start + BORDER;
      holderAcross.push(place(openingAt(line, start)));
      holderAlong.push(k + 0.5);
      if (first < reach - 4 && line[first] > PICTURE * 2 && line[first + 3] > PICTURE * 2) bordering++;
    }
    for (const at of stepsOf(line, start)) {
      across.push(place(at));
      along.push(k + 0.5);
    }
  }
  const holder = masked > 0.6 * lines && bordering > 0.6 * masked;
  return {
    side,
    across: Float32Array.from(holder ? holderAcross : across),
    along: Float32Array.from(holder ? holderAlong : along),
    lines,
    masked,
    holder,
  };
}

/** Where the light is half of what it is past the holder's border: 0.30 denser, and on to parts of a pixel. */
function openingAt(line: Float32Array, start: number): number {
  const half = line[Math.min(start + BORDER, line.length - 1)] + 0.301;
  let d = start;
  while (d < start + BORDER && line[d] > half) d++;
  const [a, b] = [line[d - 1], line[d]];
  return d + 0.5 - (a > half && b < a ? (half - b) / (a - b) : 0);
}

/** One line inwards from a side, averaged over its neighbours; NaN where any of them is hidden. */
function readLine(e: DensityAboveBase, upright: boolean, far: boolean, k: number, out: Float32Array): void {
  const { width, height, value } = e;
  const half = ALONG >> 1;
  for (let d = 0; d < out.length; d++) {
    let sum = 0;
    for (let j = k - half; j <= k + half; j++) {
      const x = upright ? (far ? width - 1 - d : d) : j;
      const y = upright ? j : far ? height - 1 - d : d;
      sum += value[y * width + x];
    }
    out[d] = sum / ALONG;
  }
}

/** Distances at which a line goes from margin to picture, to parts of a pixel: half of the step in density. */
function stepsOf(line: Float32Array, start: number): number[] {
  const found: number[] = [];
  let margin = 0;
  for (let d = start; d < line.length - MIN_RUN - 4; d++) {
    const v = line[d];
    if (v > BARE && v < PICTURE) {
      margin++;
      continue;
    }
    if (v >= PICTURE && margin >= MARGIN) {
      let isSustained = true;
      for (let j = 1; j < MIN_RUN; j++) if (!(line[d + j] >= PICTURE)) isSustained = false;
      if (isSustained) found.push(halfWay(line, d));
    }
    margin = 0;
  }
  return found;
}

/** Half of the step's height, where the line crosses it; `d` is the first pixel beyond the margin's noise. */
function halfWay(line: Float32Array, d: number): number {
  let top = 0;
  for (let j = 3; j < 6; j++) top += Math.min(line[d + j], 1.2) / 3;
  const half = Math.max(PICTURE, top / 2);
  let i = d - 1;
  while (i < d + 6 && !(line[i + 1] >= half)) i++;
  const [a, b] = [line[i], line[i + 1]];
  // Pixel d covers d … d + 1, so its value stands at its middle.
  return i + 0.5 + (b > a ? clamp((half - a) / (b - a), 0, 1) : 0);
}
