/** Lateral colour of the lens, measured on the roll's own scans: their edges and their grain. */
import type { FilmPlane, PixelBox } from "../flat-field/film-plane.ts";
import { solveLinear } from "../math/least-squares.ts";
import { median } from "../math/statistics.ts";
import type { LensFaults, RadialTerms } from "../types.ts";
import { type ChannelShift, channelShifts, PATCH } from "./channel-shift.ts";
import { lateralAt, radialScale } from "./radial.ts";

/** A colour's shift against green at a place; lengths in halves of the scan's diagonal, from the middle of the scan. */
export interface PlacedShift extends ChannelShift {
  readonly x: number;
  readonly y: number;
}

/** What one scan shows of lateral colour. */
export interface LateralReading {
  readonly red: readonly PlacedShift[];
  readonly blue: readonly PlacedShift[];
}

/** Patches that are looked at: columns and rows of cells, one patch in each. A survey has less time than a measurement. */
export const LATERAL_GRIDS = { survey: [8, 6], whole: [18, 12] } as const;
/** Pixels between the samples by which a cell's richest patch is chosen. */
const STEP = 4;

/**
 * Compares the colours of a scan that was decoded at half size, where no colour is interpolated from another: in each
 * cell of a grid over `box`, at the patch with most detail.
 */
export function readLateralColour(
  plane: FilmPlane,
  box: PixelBox,
  [columns, rows]: readonly [number, number] = LATERAL_GRIDS.whole,
): LateralReading {
  const { centreX, centreY, unit } = radialScale(plane);
  const found = { red: [] as PlacedShift[], blue: [] as PlacedShift[] };
  const [wide, high] = [box.x1 - box.x0, box.y1 - box.y0];
  const across = Math.max(1, Math.min(columns, Math.floor(wide / PATCH)));
  const down = Math.max(1, Math.min(rows, Math.floor(high / PATCH)));
  if (wide < PATCH || high < PATCH) return found;
  for (let r = 0; r < down; r++)
    for (let q = 0; q < across; q++) {
      const [x0, y0] = richestPatch(plane, {
        x0: box.x0 + Math.floor((wide * q) / across),
        x1: box.x0 + Math.floor((wide * (q + 1)) / across),
        y0: box.y0 + Math.floor((high * r) / down),
        y1: box.y0 + Math.floor((high * (r + 1)) / down),
      });
      const shifts = channelShifts(plane, x0, y0);
      const x = (x0 + PATCH / 2 - centreX) / unit;
      const y = (y0 + PATCH / 2 - centreY) / unit;
      for (const colour of ["red", "blue"] as const) {
        const shift = shifts[colour];
        if (shift) found[colour].push({ x, y, ...inUnits(shift, unit) });
      }
    }
  return found;
}

const inUnits = ({ dx, dy, xx, xy, yy }: ChannelShift, unit: number): ChannelShift => ({
  dx: dx / unit,
  dy: dy / unit,
  xx: xx * unit * unit,
  xy: xy * unit * unit,
  yy: yy * unit * unit,
});

/** Of the patches of a cell, a few columns and rows of them, the one whose green changes most from place to place. */
function richestPatch(plane: FilmPlane, cell: PixelBox): [number, number] {
  const tries = (from: number, to: number): number[] => {
    const free = Math.max(0, to - from - PATCH);
    const count = Math.min(3, 1 + Math.floor(free / (PATCH / 2)));
    return Array.from({ length: count }, (_, i) => from + Math.floor((free * (i + 0.5)) / count));
  };
  let best: [number, number] = [cell.x0, cell.y0];
  let most = -1;
  for (const y of tries(cell.y0, cell.y1))
    for (const x of tries(cell.x0, cell.x1)) {
      const detail = detailOf(plane, x, y);
      if (detail > most) [most, best] = [detail, [x, y]];
    }
  return best;
}

function detailOf({ width, data }: FilmPlane, x0: number, y0: number): number {
  let [sum, level] = [0, 0];
  for (let y = y0; y < y0 + PATCH - STEP; y += STEP)
    for (let x = x0; x < x0 + PATCH - STEP; x += STEP) {
      const k = (y * width + x) * 3 + 1;
      sum += Math.abs(data[k + 3 * STEP] - data[k]) + Math.abs(data[k + 3 * STEP * width] - data[k]);
      level += data[k];
    }
  return level > 0 ? sum / level : 0;
}

/** One colour's radial scale against green. */
export interface LateralColour {
  /** a, b of a + b·r² (radial.ts). */
  readonly terms: readonly [number, number];
  /** Shift in the corner (r = 1) and its standard error, in halves of the diagonal. */
  readonly corner: number;
  readonly error: number;
  /** Patches that count. */
  readonly patches: number;
}

export interface LateralFit {
  readonly red: LateralColour;
  readonly blue: LateralColour;
}

/** Fewer patches than this tell nothing sure; they must reach so far from the middle. */
const [MIN_PATCHES, MIN_RADIUS] = [12, 0.45];
/** Of the scaled residuals, what Tukey's bisquare lets count (4.685 standard deviations). */
const REACH = 4.685;

/**
 * Lays the radial model through the shifts of all scans of a roll: one lens has drawn them. A shift that is the same
 * all over the scan (a camera that leans, a prism in the lens) is fitted beside it and left out.
 * @returns undefined where the scans show too little
 */
export function fitLateralColour(readings: readonly LateralReading[]): LateralFit | undefined {
  const red = fitColour(readings.flatMap((reading) => reading.red));
  const blue = fitColour(readings.flatMap((reading) => reading.blue));
  return red && blue ? { red, blue } : undefined;
}

function fitColour(shifts: readonly PlacedShift[]): LateralColour | undefined {
  if (shifts.length < MIN_PATCHES || !(Math.max(...shifts.map(({ x, y }) => Math.hypot(x, y))) > MIN_RADIUS))
    return undefined;
  let weights = shifts.map(() => 1);
  let fitted = [0, 0, 0, 0];
  let scale = 1;
  for (let round = 0; round < 12; round++) {
    fitted = solveLinear(...normalOf(shifts, weights));
    const away = shifts.map((shift) => distanceOf(shift, fitted));
    scale = Math.max(1e-9, median(away) / 1.1774); // the median of two normal residuals' length
    weights = away.map((d) => Math.max(0, 1 - (d / (REACH * scale)) ** 2) ** 2);
  }
  const [normal] = normalOf(shifts, weights);
  // The corner's shift is a + b: its variance is (1, 1, 0, 0) on both sides of the inverse.
  const inverse = solveLinear(normal, [1, 1, 0, 0]);
  const error = scale * Math.sqrt(Math.max(0, inverse[0] + inverse[1]));
  const terms = [fitted[0], fitted[1]] as const;
  return { terms, corner: lateralAt(terms, 1), error, patches: weights.filter((w) => w > 0.1).length };
}

/** Slopes of a shift's two parts by a, b and a shift all over. */
const slopesOf = ({ x, y }: PlacedShift): readonly [readonly number[], readonly number[]] => {
  const r2 = x * x + y * y;
  return [
    [x, x * r2, 1, 0],
    [y, y * r2, 0, 1],
  ];
};

function normalOf(shifts: readonly PlacedShift[], weights: readonly number[]): [number[][], number[]] {
  const normal = Array.from({ length: 4 }, () => [0, 0, 0, 0]);
  const right = [0, 0, 0, 0];
  shifts.forEach((shift, k) => {
    const [p, q] = slopesOf(shift);
    const { dx, dy, xx, xy, yy } = shift;
    for (let i = 0; i < 4; i++) {
      const [u, v] = [weights[k] * (xx * p[i] + xy * q[i]), weights[k] * (xy * p[i] + yy * q[i])];
      right[i] += u * dx + v * dy;
      for (let j = 0; j < 4; j++) normal[i][j] += u * p[j] + v * q[j];
    }
  });
  return [normal, right];
}

/** Residual of a shift in standard deviations of its own. */
function distanceOf(shift: PlacedShift, fitted: readonly number[]): number {
  const [p, q] = slopesOf(shift);
  const u = shift.dx - p.reduce((sum, v, i) => sum + v * fitted[i], 0);
  const v = shift.dy - q.reduce((sum, w, i) => sum + w * fitted[i], 0);
  return Math.sqrt(Math.max(0, shift.xx * u * u + 2 * shift.xy * u * v + shift.yy * v * v));
}

/**
 * The fit as a recipe states it.
 * @param corrected what was corrected already on the scans that were measured: what is left adds to it
 */
export function lateralFaults(
  { red, blue }: LateralFit,
  corrected?: LensFaults["lateral"],
): { readonly red: readonly [number, number]; readonly blue: readonly [number, number] } {
  const stated = ({ terms: [a, b] }: LateralColour, known: RadialTerms = [0]): [number, number] => [
    rounded(a + known[0]),
    rounded(b + (known[1] ?? 0)),
  ];
  return { red: stated(red, corrected?.red), blue: stated(blue, corrected?.blue) };
}

/** Six decimals: 0.004 px in the corner of a scan of 24 megapixels. */
const rounded = (value: number): number => Number(value.toFixed(6));
