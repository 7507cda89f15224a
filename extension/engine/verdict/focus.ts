/** Sharpness of the grain in the middle and the corners of a scan, and whether it got better or worse. */
import { median } from "../math/statistics.ts";
import { leastBlur } from "../survey/sharpness/fine-grain.ts";
import { sigmaOf } from "../survey/sharpness/grain-blur.ts";
import { halfResponse } from "../survey/sharpness/sharpness-map.ts";
import type { BlurCell, ScanReading } from "../survey/types.ts";

export const FOCUS_PLACES = ["middle", "topLeft", "topRight", "bottomLeft", "bottomRight"] as const;
export type FocusPlace = (typeof FOCUS_PLACES)[number];

export interface FocusReading {
  /** Blur of the grain, one sigma, in pixels of the full scan. */
  readonly sigma: number;
  /** Frequency at which the response falls to half (MTF50), in percent of half the sampling frequency. */
  readonly response: number;
  /** The blur may be more: no even tone shows it, and fine grain is weaker than the film's by so much. */
  readonly atLeast?: true;
}

/** A place is absent where its film shows too little even grain to be measured. */
export type Focus = Partial<Readonly<Record<FocusPlace, FocusReading>>>;

/** Columns and rows of the survey's 5 × 5 cells that make up each place. */
const CELLS: Readonly<Record<FocusPlace, readonly [columns: readonly number[], rows: readonly number[]]>> = {
  middle: [
    [1, 2, 3],
    [1, 2, 3],
  ],
  topLeft: [
    [0, 1],
    [0, 1],
  ],
  topRight: [
    [3, 4],
    [0, 1],
  ],
  bottomLeft: [
    [0, 1],
    [3, 4],
  ],
  bottomRight: [
    [3, 4],
    [3, 4],
  ],
};
const GRID = 5;

/** The sharper half of a place's cells counts: what a picture's own detail adds is only ever more blur. */
export function focusOf(scan: Pick<ScanReading, "cells">): Focus {
  const measured = FOCUS_PLACES.flatMap((place): [FocusPlace, FocusReading][] => {
    const sigmas = cellsOf(scan, place)
      .flatMap(({ blur }) => (blur ? [sigmaOf(blur)] : []))
      .sort((a, b) => a - b);
    if (sigmas.length === 0) return [];
    const sigma = sigmas[Math.floor((sigmas.length - 1) / 3)];
    return [[place, { sigma, response: halfResponse(sigma) }]];
  });
  return Object.fromEntries(measured);
}

/** Cells of a place that have to say so, of those without even tone. */
const MIN_CELLS = 2;

/**
 * The blur that a scan has at least in places without even tone, by the fine grain of other scans of the film: half of a
 * place's cells have as much.
 * @param film scans of the same film, as large as this one
 */
export function leastFocusOf(scan: Pick<ScanReading, "cells">, film: readonly Pick<ScanReading, "cells">[]): Focus {
  const unblurred = film.flatMap(({ cells }) => cells.flatMap(({ blur, grain }) => (blur && grain ? [grain] : [])));
  const least = FOCUS_PLACES.flatMap((place): [FocusPlace, FocusReading][] => {
    const variances = cellsOf(scan, place).flatMap(({ blur, grain }) =>
      !blur && grain ? (leastBlur(grain, unblurred) ?? []) : [],
    );
    if (variances.length < MIN_CELLS) return [];
    const sigma = Math.sqrt(median(variances));
    return [[place, { sigma, response: halfResponse(sigma), atLeast: true }]];
  });
  return Object.fromEntries(least);
}

function cellsOf({ cells }: Pick<ScanReading, "cells">, place: FocusPlace): BlurCell[] {
  const [columns, rows] = CELLS[place];
  return rows.flatMap((r) => columns.flatMap((c): BlurCell[] => (cells[r * GRID + c] ? [cells[r * GRID + c]] : [])));
}

/** The least blur at each place of several scans. */
export function bestFocus(readings: readonly Focus[]): Focus {
  const best = FOCUS_PLACES.flatMap((place) => {
    const seen = readings.flatMap((reading) => reading[place] ?? []);
    return seen.length === 0 ? [] : [[place, seen.reduce((a, b) => (b.sigma < a.sigma ? b : a))] as const];
  });
  return Object.fromEntries(best);
}

/** Blur that one reading has more than another, in pixels of one sigma; negative where it has less. */
export function addedBlur(now: FocusReading, before: FocusReading): number {
  const difference = now.sigma ** 2 - before.sigma ** 2;
  return Math.sign(difference) * Math.sqrt(Math.abs(difference));
}

export type Change = "better" | "same" | "worse";

/** The response must change by this part of itself to count: two scans of one frame differ by less (docs/copy-stand.md). */
export const MIN_CHANGE = 0.06;

/** How a place's sharpness changed from one scan to the next. */
export function focusChange(now: FocusReading, before: FocusReading): Change {
  const ratio = now.response / before.response;
  return ratio > 1 + MIN_CHANGE ? "better" : ratio < 1 - MIN_CHANGE ? "worse" : "same";
}
