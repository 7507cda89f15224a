/**
 * The film's characteristic curve: density against log10 exposure, and the way back.
 * The way back holds its slope in the toe and beyond the shoulder: there the film says almost nothing about
 * exposure, and following the curve further would only blow up noise.
 */
import { monotoneCubic } from "../math/monotone-cubic.ts";
import type { CurveTable } from "../types.ts";

/** Where the local slope falls below this part of the straight-line slope, toe and shoulder end the usable curve. */
export const USABLE_SLOPE = 0.2;

/**
 * Density of mid-grey above base on a colour negative, and the gamma that belongs to it: 18 % grey lies 0.70 D above
 * base (SMPTE ST 2065-3 code 445 and the 10-bit printing-density log convention), gamma 0.55.
 */
export const MID_GREY_DENSITY = 0.7;
const MID_GREY_GAMMA = 0.55;

/** log10 exposure of mid-grey above the point where the straight line, drawn on, meets the base. */
export const MID_GREY_LOG_H = MID_GREY_DENSITY / MID_GREY_GAMMA;

/** One channel's characteristic curve. Densities are the table's own, base included. */
export interface FilmCurve {
  /** log10 exposure of the table's first and last point. */
  readonly first: number;
  readonly last: number;
  /** Least density of the table. */
  readonly dmin: number;
  /** Greatest density of the table. */
  readonly dmax: number;
  /** Slope of the straight part: mean from dmin + 0.30 over the next 1.2 log H, or to the table's end. */
  readonly gamma: number;
  /** log10 exposure below and above which `inverse` goes on as a straight line. */
  readonly toe: number;
  readonly shoulder: number;
  /** Density at log10 exposure. */
  readonly at: (logH: number) => number;
  /** Slope dD / dlog H there. */
  readonly slopeAt: (logH: number) => number;
  /** log10 exposure where the drawn curve reaches a density, exactly; no slope is held. */
  readonly logHAt: (density: number) => number;
  /** log10 exposure of a density, with the slope held in toe and shoulder: rising and continuous over all densities. */
  readonly inverse: (density: number) => number;
}

/**
 * The curve through a table of measured points. Slight falls (digitising noise) are levelled by pooling neighbours.
 * @param logH strictly ascending log10 exposures, at least two
 * @param density as many densities, rising on the whole
 * @throws RangeError where the table is too short, does not ascend, or holds no rise at all
 */
export function filmCurve(logH: readonly number[], density: readonly number[]): FilmCurve {
  const y = pooled(density);
  const cubic = monotoneCubic(logH, y);
  const first = logH[0];
  const last = logH[logH.length - 1];
  const [dmin, dmax] = [y[0], y[y.length - 1]];
  if (!(dmax > dmin))
    throw new RangeError("A characteristic curve must rise: its last density is not above its first. Check the table.");

  const start = Math.min(cubic.inverse(Math.min(dmin + 0.3, (dmin + dmax) / 2)), last);
  const end = Math.min(start + 1.2, last);
  const gamma = (cubic.at(end) - cubic.at(start)) / (end - start);
  const minSlope = USABLE_SLOPE * gamma;
  const toe = usableFrom(cubic.slopeAt, first, start, minSlope);
  const shoulder = usableFrom(cubic.slopeAt, last, end, minSlope);
  const [toeDensity, shoulderDensity] = [cubic.at(toe), cubic.at(shoulder)];
  const toeSlope = Math.max(cubic.slopeAt(toe), minSlope);
  const shoulderSlope = Math.max(cubic.slopeAt(shoulder), minSlope);

  return {
    first,
    last,
    dmin,
    dmax,
    gamma,
    toe,
    shoulder,
    at: cubic.at,
    slopeAt: cubic.slopeAt,
    logHAt: cubic.inverse,
    inverse(d) {
      if (d <= toeDensity) return toe + (d - toeDensity) / toeSlope;
      if (d >= shoulderDensity) return shoulder + (d - shoulderDensity) / shoulderSlope;
      return cubic.inverse(d);
    },
  };
}

/** The way back through a straight line of slope gamma: relative log10 exposure, 0 at mid-grey, of a density above base. */
export function straightLine(gamma: number): (density: number) => number {
  if (!(gamma > 0)) throw new RangeError(`A film's gamma must be above 0: got ${gamma}.`);
  return (density) => density / gamma - MID_GREY_LOG_H;
}

/** The curves of a table's red, green and blue. */
export const tableCurves = ({ logH, red, green, blue }: CurveTable): readonly [FilmCurve, FilmCurve, FilmCurve] => [
  filmCurve(logH, red),
  filmCurve(logH, green),
  filmCurve(logH, blue),
];

/**
 * The way back through a table: per channel, relative log10 exposure, 0 at mid-grey, of a density above base.
 * The table's least density stands for the base.
 */
export function tableInverse(table: CurveTable): readonly [Inverse, Inverse, Inverse] {
  const curves = tableCurves(table);
  const green = curves[1];
  const mid = table.mid ?? green.inverse(green.dmin + MID_GREY_DENSITY);
  const back = (curve: FilmCurve): Inverse => {
    return (density) => curve.inverse(density + curve.dmin) - mid;
  };
  return [back(curves[0]), back(curves[1]), back(curves[2])];
}
type Inverse = (density: number) => number;

/** Going from an end of the table towards the straight part, where the slope first reaches what is usable. */
function usableFrom(slopeAt: (x: number) => number, end: number, straight: number, minSlope: number): number {
  const steps = 400;
  const x = (i: number): number => end + ((straight - end) * i) / steps;
  // A lone wiggle of a digitised toe must not count, so the slope has to hold for a while (a twentieth of the way).
  const holds = (i: number): boolean => {
    for (let k = i; k <= Math.min(i + steps / 20, steps); k++) if (slopeAt(x(k)) < minSlope) return false;
    return true;
  };
  let i = 0;
  while (i < steps && !holds(i)) i++;
  if (i === 0) return end;
  let [low, high] = [x(i - 1), x(i)];
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2;
    if (slopeAt(middle) < minSlope) low = middle;
    else high = middle;
  }
  return high;
}

/** The nearest rising sequence in the least-squares sense: neighbours that fall are pooled to their mean. */
function pooled(values: readonly number[]): number[] {
  const blocks: { sum: number; count: number }[] = [];
  for (const value of values) {
    blocks.push({ sum: value, count: 1 });
    for (let k = blocks.length - 1; k > 0; k--) {
      const [before, after] = [blocks[k - 1], blocks[k]];
      if (before.sum / before.count <= after.sum / after.count) break;
      blocks.splice(k - 1, 2, { sum: before.sum + after.sum, count: before.count + after.count });
    }
  }
  return blocks.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
}
