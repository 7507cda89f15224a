/**
 * Sensitometry: what a characteristic curve says of a film or paper, by the standards. log is log10; H in lux seconds
 * where the table's axis is absolute, otherwise speeds mean nothing and only slopes and ranges do.
 */
import type { FilmCurve } from "./characteristic-curve.ts";

/** What ISO 6:1993 reads from a black-and-white film's curve. */
export interface BlackAndWhiteSpeed {
  /** S = 0.8 / Hm, Hm at 0.10 above base plus fog. Not rounded to the standard's steps. */
  readonly speed: number;
  /** log10 Hm. */
  readonly logHm: number;
  /** Density gained from Hm over 1.30 log H. The speed is an ISO speed only where development makes it 0.80 ± 0.05. */
  readonly densityRange: number;
}

/** Speed of a black-and-white film (ISO 6:1993). */
export function blackAndWhiteSpeed(curve: FilmCurve): BlackAndWhiteSpeed {
  const logHm = curve.logHAt(curve.dmin + 0.1);
  return { speed: 0.8 / 10 ** logHm, logHm, densityRange: curve.at(logHm + 1.3) - curve.dmin - 0.1 };
}

/**
 * Speed of a colour negative film (ISO 5800:1987): S = √2 / Hm, where log Hm is the mean of green's log H and the
 * slowest layer's, each at 0.15 above its own least density. Not rounded to the standard's steps.
 */
export function colourNegativeSpeed(red: FilmCurve, green: FilmCurve, blue: FilmCurve): number {
  const logH = [red, green, blue].map((curve) => curve.logHAt(curve.dmin + 0.15));
  return Math.SQRT2 / 10 ** ((logH[1] + Math.max(...logH)) / 2);
}

/**
 * Contrast index: the slope of the straight line from a point A on base plus fog that meets the curve 0.2 and again
 * 2.2 away from A, in units of density and log H alike. Undefined where the table does not reach so far.
 */
export function contrastIndex(curve: FilmCurve): number | undefined {
  /** Slope of the line from A, at log H `a`, to where the curve is `reach` away. */
  const slope = (a: number, reach: number): number | undefined => {
    const away = (x: number): number => Math.hypot(x - a, curve.at(x) - curve.dmin) - reach;
    if (away(curve.last) < 0) return undefined;
    const x = crossing(away, a, a + reach);
    return (curve.at(x) - curve.dmin) / (x - a);
  };
  // The further right A lies, the more the near point gains on the far one.
  const gain = (a: number): number => (slope(a, 0.2) ?? Infinity) - (slope(a, 2.2) ?? -Infinity);
  const end = curve.last - 0.2;
  if (gain(curve.first) > 0 || !(gain(end) > 0)) return undefined;
  return slope(crossing(gain, curve.first, end), 2.2);
}

/**
 * Exposure range of a paper (ISO 6846:1992, clause 6.2): R = 100·(log HS − log HT), HT at 0.04 above the least density,
 * HS at nine tenths of the way to the greatest.
 */
export function paperRange(curve: FilmCurve): number {
  const dark = curve.logHAt(curve.dmin + 0.9 * (curve.dmax - curve.dmin));
  return 100 * (dark - curve.logHAt(curve.dmin + 0.04));
}

/** Where a function that is below 0 at `low` and above at `high` crosses, by halving. */
function crossing(f: (x: number) => number, low: number, high: number): number {
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
