/** Finds the picture's rectangle and tilt from the margin of film around it, or from the holder that masks it. */
import type { Area, Rgb, Side } from "../types.ts";
import { edgePoints, densityAboveBaseOf, type DensityAboveBase, SIDES } from "./edges.ts";
import { bestTilt, type Line, linesAt } from "./lines.ts";
import type { DownsampledScan } from "./downsampled-scan.ts";
import { fitRectangle, type FrameOptions } from "./rectangle.ts";

/** How a side of the rectangle was found: seen, or placed by the format's proportions or by the roll's other pictures. */
export type SideEvidence = "edge" | "holder" | "format" | "roll" | "none";

export interface FoundFrame {
  /** Fractions of the scan; tilt in degrees, clockwise. */
  readonly area: Area;
  /** 0 … 1. Below 0.5 it should be looked at. */
  readonly confidence: number;
  readonly sides: Readonly<Record<Side, SideEvidence>>;
  /** Part of each side's length along which an edge was seen, 0 … 1. */
  readonly support: Readonly<Record<Side, number>>;
}

/** Whether all four sides were seen. */
export const isWhole = ({ sides }: FoundFrame): boolean =>
  Object.values(sides).every((s) => s === "edge" || s === "holder");

/** A side counts as seen where its edge is visible along this part of it. */
const MIN_SUPPORT = 0.06;
/**
 * Widest margin between a picture and what comes next (perforation, neighbour, holder), in parts of the scan, that needs
 * no proof. A wider one (the end of a strip, a small piece of film photographed whole) counts where all four sides are
 * seen along most of their length and have the format's proportions: lit windows in a night do not.
 */
const MAX_MARGIN = 0.15;
const MIN_FULL_SUPPORT = 0.6;
/** Pictures of one format differ in proportion from camera to camera by this much, relative. */
const PROPORTION = 0.015;
/** Pictures of one roll are of one size, up to this, relative: one camera made them, another photographed them. */
export const SIZE = 0.008;

/**
 * @param base density of the film's base in this scan
 * @returns undefined where fewer than two neighbouring sides and no format, or fewer than one pair, were seen
 */
export function findFrame(scan: DownsampledScan, base: Rgb, frameOptions: FrameOptions = {}): FoundFrame | undefined {
  const { ratio, place } = frameOptions;
  const densityAboveBase = densityAboveBaseOf(scan, base);
  const points = SIDES.map((side) => edgePoints(densityAboveBase, side));
  const tilt = bestTilt(points, densityAboveBase);
  if (tilt === undefined) return undefined;
  const lines = points.map((p) => linesAt(p, tilt, densityAboveBase));
  const chosen = choose(lines, densityAboveBase, frameOptions);
  if (!chosen) return undefined;
  const fit = fitRectangle(points, chosen, tilt, densityAboveBase, frameOptions);
  if (!fit) return undefined;
  const implied = place ? "roll" : "format";
  const side = (k: number): SideEvidence =>
    chosen[k] ? (points[k].holder ? "holder" : "edge") : fit.implied[k] ? implied : "none";
  const support = chosen.map((l) => l?.support ?? 0);
  return {
    area: fit.area,
    confidence: confidenceOf(support, fit.implied, fit.scatter, proportionError(fit.wide, fit.high, ratio)),
    sides: { left: side(0), top: side(1), right: side(2), bottom: side(3) },
    support: { left: support[0], top: support[1], right: support[2], bottom: support[3] },
  };
}

function confidenceOf(support: number[], implied: boolean[], scatter: number, proportion: number | undefined): number {
  const each = support.map((s, k) => (implied[k] ? 0.45 : Math.min(1, 0.35 + 1.6 * s)));
  const weakest = Math.min(...each);
  const mean = each.reduce((a, b) => a + b) / 4;
  const straight = Math.min(1, 1.5 / Math.max(1.5, scatter));
  const shape = proportion === undefined ? 0.9 : proportion < PROPORTION ? 1 : Math.max(0.3, 1 - 8 * proportion);
  return Math.min(1, (0.5 * weakest + 0.5 * mean) * straight * shape);
}

const proportionError = (wide: number, high: number, ratio: number | undefined): number | undefined =>
  ratio === undefined ? undefined : Math.abs(Math.log(Math.max(wide, high) / Math.min(wide, high) / ratio));

type Choice = (Line | undefined)[];

/**
 * One line a side, or none: those that many places lie on, that have nothing but margin outside, and that together have
 * the format's proportions.
 */
function choose(
  lines: readonly Line[][],
  densityAboveBase: DensityAboveBase,
  frameOptions: FrameOptions,
): Choice | undefined {
  const options = lines.map((l) => [...l.filter((x) => x.support >= MIN_SUPPORT).slice(0, 6), undefined]);
  let best: Choice | undefined;
  let max = -Infinity;
  for (const left of options[0])
    for (const top of options[1])
      for (const right of options[2])
        for (const bottom of options[3]) {
          const choice: Choice = [left, top, right, bottom];
          const score = scoreOf(choice, densityAboveBase, frameOptions);
          if (score > max) {
            max = score;
            best = choice;
          }
        }
  return max > 0 ? best : undefined;
}

function scoreOf(choice: Choice, densityAboveBase: DensityAboveBase, { ratio, place }: FrameOptions): number {
  const [left, top, right, bottom] = choice;
  const seen = choice.filter((l) => l !== undefined);
  if (seen.length < (ratio === undefined ? 4 : 3)) return -Infinity;
  let score = 0;
  for (const l of seen) {
    score += 0.25 + Math.sqrt(l.support) + 0.4 * l.coverage - 2.2 * l.clutter;
  }
  const wide = left && right ? right.offset - left.offset : undefined;
  const high = top && bottom ? bottom.offset - top.offset : undefined;
  if (
    (wide !== undefined && wide < 0.3 * densityAboveBase.width) ||
    (high !== undefined && high < 0.3 * densityAboveBase.height)
  )
    return -Infinity;
  const off =
    ratio !== undefined && wide !== undefined && high !== undefined
      ? Math.abs(Math.log(Math.max(wide, high) / Math.min(wide, high) / ratio))
      : undefined;
  // Otherwise what lies outside is a black part of the picture, and this is the edge of a thing in it.
  const parts = [high, wide, high, wide].map(
    (long, k) => (long ?? NaN) / (k % 2 ? densityAboveBase.width : densityAboveBase.height),
  );
  const framed =
    off !== undefined && off < PROPORTION && choice.every((l, k) => l && l.support > MIN_FULL_SUPPORT * parts[k]);
  const size = place && sizeError(wide, high, place, densityAboveBase);
  if (!framed && !(size !== undefined && size < SIZE)) score -= 4 * seen.filter((l) => l.margin > MAX_MARGIN).length;
  if (off !== undefined) {
    score += off < PROPORTION ? 0.8 * (1 - off / PROPORTION) + 0.4 : -Math.min(2, 12 * off);
  }
  if (size !== undefined) score += size < SIZE ? 1.2 * (1 - size / SIZE) + 0.6 : -Math.min(3, 20 * size);
  return score;
}

/** How far a width and a height, or the one that is known, are from the roll's, relative. */
function sizeError(wide: number | undefined, high: number | undefined, place: Area, e: DensityAboveBase): number {
  const off = (size: number | undefined, known: number): number =>
    size === undefined ? 0 : Math.abs(Math.log(size / known));
  return Math.max(off(wide, place.width * e.width), off(high, place.height * e.height));
}
