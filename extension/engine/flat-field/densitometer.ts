/** Reads density off an area of a scan, or says why the area cannot be read. */
import { median } from "../math/statistics.ts";
import { type LightSetup, readTransmittance } from "./transmittance.ts";
import type { LinearScan, Rgb } from "../types.ts";

/** Why an area cannot be read. */
export type ReadingProblem = "area-outside" | "area-too-small" | "no-light" | "clipped" | "bare-light" | "uneven";

/** An area that gives no honest base; `message` is a sentence that says why and what to do. */
export class ReadingError extends Error {
  readonly code: ReadingProblem;
  constructor(code: ReadingProblem, message: string) {
    super(message);
    this.name = "ReadingError";
    this.code = code;
  }
}

/** A base reading. */
export interface BaseReading {
  /** Median density per channel. */
  readonly density: Rgb;
  /** Robust standard deviation of the density within the area (1.4826 × median absolute deviation): grain and noise. */
  readonly scatter: Rgb;
  /** Pixels that were read. */
  readonly pixels: number;
}

/** left, top, width, height in fractions of the scan's sides. */
export type ReadingArea = readonly [left: number, top: number, width: number, height: number];

/** Fewest pixels of an area: below, the median of grain is uncertain by more than 0.005 D. */
const MIN_PIXELS = 400;
/** Most pixels that are kept; a larger area is thinned evenly. */
const MAX_SAMPLES = 400_000;
/** Part of the samples at saturation above which a channel counts as clipped. */
const CLIPPED = 0.01;
/** Film lets at most this much of the light through: clear base reflects about 4 % at each face (common practice). */
const BARE = 0.97;
/** A scatter above this is a picture or an edge, not an evenly dense margin. */
const UNEVEN = 0.15;

/**
 * Reads the density of film base in an area of a scan, per channel, after blank and exposure normalisation.
 *
 * @throws ReadingError when the area lies outside the scan, is too small, is dark, clipped, not film or not even.
 */
export function readBase(scan: LinearScan, area: ReadingArea, light: LightSetup): BaseReading {
  const { x0, y0, x1, y1 } = pixelsOf(scan, area);
  const { transmittance, pixels, clipped } = collect(scan, x0, y0, x1, y1, light);
  const worst = Math.max(...clipped);
  if (worst > CLIPPED)
    throw new ReadingError(
      "clipped",
      `${Math.round(worst * 100)} % of the area is at the sensor's limit in ${nameOf(clipped.indexOf(worst))}: ` +
        "photograph the base again with a shorter shutter time.",
    );
  const medians = transmittance.map(median);
  if (medians.some((t) => !(t > 1e-4)))
    throw new ReadingError("no-light", "No light came through here: this is a holder or a mask, not film base.");
  if (light.field && medians.every((t) => t > BARE))
    throw new ReadingError("bare-light", "This is bare light, not film: choose an area of the rebate or the leader.");
  const density = medians.map((t) => -Math.log10(t));
  const scatter = transmittance.map(
    (values, c) => 1.4826 * median(values.map((t) => Math.abs(-Math.log10(Math.max(t, 1e-6)) - density[c]))),
  );
  if (Math.max(...scatter) > UNEVEN)
    throw new ReadingError(
      "uneven",
      `The density varies by ${Math.max(...scatter).toFixed(2)} within the area: it reaches into a picture or over an edge.`,
    );
  return { density: [density[0], density[1], density[2]], scatter: [scatter[0], scatter[1], scatter[2]], pixels };
}

function pixelsOf(scan: LinearScan, area: ReadingArea): { x0: number; y0: number; x1: number; y1: number } {
  const [left, top, width, height] = area;
  const slack = 1e-9;
  const inside = left >= -slack && top >= -slack && left + width <= 1 + slack && top + height <= 1 + slack;
  if (!area.every(Number.isFinite) || !inside || !(width > 0) || !(height > 0))
    throw new ReadingError(
      "area-outside",
      "The area lies outside the scan: left, top, width and height are fractions between 0 and 1.",
    );
  const x0 = Math.min(scan.width - 1, Math.round(left * scan.width));
  const y0 = Math.min(scan.height - 1, Math.round(top * scan.height));
  const x1 = Math.min(scan.width, Math.max(x0 + 1, Math.round((left + width) * scan.width)));
  const y1 = Math.min(scan.height, Math.max(y0 + 1, Math.round((top + height) * scan.height)));
  if ((x1 - x0) * (y1 - y0) < MIN_PIXELS)
    throw new ReadingError("area-too-small", `The area holds fewer than ${MIN_PIXELS} pixels: make it larger.`);
  return { x0, y0, x1, y1 };
}

function collect(
  scan: LinearScan,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  light: LightSetup,
): { transmittance: [Float32Array, Float32Array, Float32Array]; pixels: number; clipped: number[] } {
  let step = 1;
  // Odd steps see every site of a mosaic alike.
  while (Math.ceil((x1 - x0) / step) * Math.ceil((y1 - y0) / step) > MAX_SAMPLES) step += 2;
  const pixels = Math.ceil((x1 - x0) / step) * Math.ceil((y1 - y0) / step);
  const values = [0, 1, 2].map(() => new Float32Array(pixels));
  const clipped = [0, 0, 0];
  // Demosaicing mixes neighbours, so a saturated area ends a little below 1.
  const limit = scan.black + 0.99 / scan.scale;
  const reader = readTransmittance(scan, light);
  const row = new Float32Array((x1 - x0) * 3);
  let n = 0;
  for (let y = y0; y < y1; y += step) {
    reader.row(y, row, x0, x1);
    for (let x = x0; x < x1; x += step, n++)
      for (let c = 0; c < 3; c++) {
        values[c][n] = row[(x - x0) * 3 + c];
        if (scan.data[(y * scan.width + x) * scan.channels + (scan.channels === 3 ? c : 0)] >= limit)
          clipped[c] += 1 / pixels;
      }
  }
  return { transmittance: [values[0], values[1], values[2]], pixels, clipped };
}

const nameOf = (channel: number): string => ["red", "green", "blue"][channel];
