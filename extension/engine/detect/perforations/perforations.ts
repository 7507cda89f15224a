/**
 * The scale of a scan from the film's perforations. ISO 1007 gives 135 film holes of 1.981 × 2.794 mm at a pitch of
 * 4.750 mm (figures from memory), so that evenly spaced holes are a ruler that lies on the film.
 */
import type { FilmPlane } from "../../flat-field/film-plane.ts";
import { median, quantile } from "../../math/statistics.ts";
import type { Side } from "../../types.ts";
import { SIDES } from "../edges.ts";
import { fitPitch, type HoleEdge, type PitchFit } from "./perforation-pitch.ts";

/** Pitch and length along the film of a hole of 135 film, mm (ISO 1007, from memory). */
export const PITCH_MM = 4.75;
const HOLE_MM = 1.981;
/** Relative standard deviation of the film's own pitch: tolerance of the perforator and shrinkage (from memory). */
const FILM_TOLERANCE = 0.001;

export interface Perforations {
  /** Pixels of the plane from one hole to the next, along the film. */
  readonly pitch: number;
  /** Standard deviation of `pitch`, the film's own tolerance included; pixels of the plane. */
  readonly deviation: number;
  /** Holes that were measured, on one side or two. */
  readonly holes: number;
  readonly sides: readonly Side[];
}

/** Part of the scan's depth that is searched from each side. */
const REACH = 0.25;
/** Lines that are read on the way in, at most. */
const LINES = 64;
/** Holes are clearer than the film between them by this factor at least. */
const CLEARER = 1.22;
/** Length of a hole in parts of the pitch, and how far a line's reading may lie from it. */
const [DUTY, DUTY_OFF] = [HOLE_MM / PITCH_MM, 0.05];
/** Spacings on one line agree within this part of the pitch. */
const EVEN = 0.03;
/** Holes on a line, and lines in parts of the pitch, that make a row of perforations. */
const [MIN_HOLES, MIN_DEPTH] = [3, 0.04];

/**
 * Looks for a row of holes along each side of a scan.
 *
 * @returns the pitch of all rows that agree with the surest one; undefined where no row is in view
 */
export function findPerforations(plane: FilmPlane): Perforations | undefined {
  const rows = SIDES.flatMap((side) => {
    const fit = rowOf(plane, side);
    return fit ? [{ side, ...fit }] : [];
  }).toSorted((a, b) => a.deviation - b.deviation);
  const [best] = rows;
  if (!best) return undefined;
  const agreeing = rows.filter((r) => Math.abs(r.pitch / best.pitch - 1) < EVEN);
  const weights = agreeing.map((r) => 1 / r.deviation ** 2);
  const total = weights.reduce((a, w) => a + w, 0);
  const pitch = agreeing.reduce((a, r, k) => a + r.pitch * weights[k], 0) / total;
  return {
    pitch,
    deviation: Math.hypot(1 / Math.sqrt(total), FILM_TOLERANCE * pitch),
    holes: agreeing.reduce((a, r) => a + r.holes, 0),
    sides: agreeing.map((r) => r.side),
  };
}

/** One line along a side that crosses evenly spaced holes. */
interface HoleLine {
  readonly depth: number;
  readonly spacing: number;
  /** Starts and ends of the holes; an end that the scan's border cuts is NaN. */
  readonly holes: readonly (readonly [start: number, end: number])[];
}

function rowOf(plane: FilmPlane, side: Side): PitchFit | undefined {
  const { width, height } = plane;
  const deep = side === "left" || side === "right" ? width : height;
  const step = Math.max(1, Math.floor((REACH * deep) / LINES));
  const lines: HoleLine[] = [];
  for (let depth = step; depth < REACH * deep; depth += step) {
    const line = lineAt(plane, side, depth, step);
    if (line) lines.push(line);
  }
  const spacing = median(lines.map((l) => l.spacing));
  const alike = lines.filter((l) => Math.abs(l.spacing / spacing - 1) < EVEN);
  if (alike.length < 2 || alike.length * step < MIN_DEPTH * spacing) return undefined;
  return fitPitch(edgesOf(alike, spacing));
}

/** All edges of a row, numbered by hole: lines may miss some, and a tilted row shifts from line to line. */
function edgesOf(lines: readonly HoleLine[], spacing: number): HoleEdge[] {
  const middle = lines[lines.length >> 1];
  const origin = middle.holes.find(([start]) => !Number.isNaN(start))?.[0] ?? 0;
  return lines.flatMap(({ depth, holes }) =>
    holes.flatMap(([start, end]): HoleEdge[] => {
      const from = Number.isNaN(start) ? end - DUTY * spacing : start;
      const hole = Math.round((from - origin) / spacing);
      return [
        ...(Number.isNaN(start) ? [] : [{ hole, end: false, depth: depth - middle.depth, at: start }]),
        ...(Number.isNaN(end) ? [] : [{ hole, end: true, depth: depth - middle.depth, at: end }]),
      ];
    }),
  );
}

/** Blue: a colour negative's base lets least of it through, and silver lets through all colours alike. */
const CHANNEL = 2;
/** Every so many pixels of a line say how clear film and holes are. */
const SAMPLED = 4;

/** Reads one line, averaged over `step` pixels of depth, and looks for evenly spaced holes of the right length on it. */
function lineAt(plane: FilmPlane, side: Side, depth: number, step: number): HoleLine | undefined {
  const values = profileOf(plane, side, depth, step);
  const sample = values.filter((_, i) => i % SAMPLED === 0);
  const [film, clear] = [quantile(sample, 0.25), quantile(sample, 0.85)];
  if (!(clear > CLEARER * Math.max(film, 1e-4))) return undefined;
  const holes = brightRuns(values, (film + clear) / 2);
  const starts = holes.flatMap(([start]) => (Number.isNaN(start) ? [] : [start]));
  if (starts.length < MIN_HOLES) return undefined;
  const gaps = starts.slice(1).map((start, k) => start - starts[k]);
  const spacing = median(gaps);
  const isEven = gaps.every((gap) => Math.abs(gap / spacing - Math.round(gap / spacing)) < EVEN);
  const isLong = holes.every(
    ([start, end]) => Number.isNaN(start) || Number.isNaN(end) || Math.abs((end - start) / spacing - DUTY) < DUTY_OFF,
  );
  return isEven && isLong ? { depth, spacing, holes } : undefined;
}

function profileOf({ width, height, data }: FilmPlane, side: Side, depth: number, step: number): Float32Array {
  const upright = side === "left" || side === "right";
  const far = side === "right" || side === "bottom";
  const length = upright ? height : width;
  const out = new Float32Array(length);
  for (let k = 0; k < step; k++) {
    const d = far ? (upright ? width : height) - 1 - depth + k : depth - k;
    for (let a = 0; a < length; a++) out[a] += data[(upright ? a * width + d : d * width + a) * 3 + CHANNEL] / step;
  }
  return out;
}

/** Runs above a level, to parts of a pixel; the first pixel's middle is 0.5. Ends that lie outside are NaN. */
function brightRuns(values: Float32Array, level: number): [start: number, end: number][] {
  const runs: [number, number][] = [];
  const crossing = (i: number): number => i - 0.5 + (level - values[i - 1]) / (values[i] - values[i - 1]);
  let start = values[0] > level ? NaN : undefined;
  for (let i = 1; i < values.length; i++) {
    if (values[i] > level && values[i - 1] <= level) start = crossing(i);
    else if (values[i] <= level && values[i - 1] > level) {
      runs.push([start ?? NaN, crossing(i)]);
      start = undefined;
    }
  }
  if (start !== undefined) runs.push([start, NaN]);
  return runs;
}
