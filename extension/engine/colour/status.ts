/**
 * Status densities from a spectrum. Spectral products: ISO 5-3:1995 tables 2 to 4 (ANSI/NAPM IT2.18-1996), log10, peak
 * 5.000, every 10 nm. They are meant for filter instruments; from spectra they agree with the later weighting tables
 * within rounding up to about density 2.
 */
import type { Rgb } from "../types.ts";
import { densityOf } from "./density.ts";

/** Status A reads positives (transparencies and prints), Status M masked negatives. */
export type Status = "A" | "M";

/** Transmittance at a wavelength in nm. */
export type Spectrum = (nanometres: number) => number;

/** Weights at 340, 350 … 830 nm. */
type Product = Float64Array;
const FIRST = 340;
const LAST = 830;

/** @param below and `above`: log10 per nm that the standard prints for going on outside the table; 0 ends it there */
function product(start: number, log: readonly number[], below: number, above: number): Product {
  const end = start + 10 * (log.length - 1);
  return Float64Array.from({ length: (LAST - FIRST) / 10 + 1 }, (_, i) => {
    const nm = FIRST + 10 * i;
    if (nm < start) return below === 0 ? 0 : 10 ** (log[0] - 5 + below * (nm - start));
    if (nm > end) return above === 0 ? 0 : 10 ** (log[log.length - 1] - 5 + above * (nm - end));
    return 10 ** (log[(nm - start) / 10] - 5);
  });
}

const STATUS: Readonly<Record<Status, readonly [Product, Product, Product]>> = {
  A: [
    product(
      600,
      [2.568, 4.638, 5.0, 4.871, 4.604, 4.286, 3.9, 3.551, 3.165, 2.776, 2.383, 1.97, 1.551, 1.141, 0.741, 0.341],
      0.27,
      -0.04,
    ),
    product(500, [1.65, 3.822, 4.782, 5.0, 4.906, 4.644, 4.221, 3.609, 2.766, 1.579], 0.22, -0.17),
    product(420, [3.602, 4.819, 5.0, 4.912, 4.62, 4.04, 2.989, 1.566, 0.165], 0.38, -0.14),
  ],
  M: [
    product(
      620,
      [2.109, 4.479, 5.0, 4.899, 4.578, 4.252, 3.875, 3.491, 3.099, 2.687, 2.269, 1.859, 1.449, 1.054, 0.654, 0.254],
      0.26,
      -0.04,
    ),
    product(
      470,
      [1.152, 2.207, 3.156, 3.804, 4.272, 4.626, 4.872, 5.0, 4.995, 4.818, 4.458, 3.915, 3.172, 2.239, 1.07],
      0.106,
      -0.12,
    ),
    product(410, [2.103, 4.111, 4.632, 4.871, 5.0, 4.955, 4.743, 4.343, 3.743, 2.99, 1.852], 0.25, -0.22),
  ],
};

const VISUAL = product(
  410,
  [
    1.322, 1.914, 2.447, 2.811, 3.09, 3.346, 3.582, 3.818, 4.041, 4.276, 4.513, 4.702, 4.825, 4.905, 4.957, 4.989, 5.0,
    4.989, 4.956, 4.902, 4.827, 4.731, 4.593, 4.433, 4.238, 4.013, 3.749, 3.49, 3.188, 2.901, 2.622, 2.334, 2.041,
    1.732, 1.431, 1.146,
  ],
  0,
  0,
);

/** Red, green and blue status density of a spectrum; it is asked at 340, 350 … 830 nm. */
export function statusDensity(status: Status, transmittance: Spectrum): Rgb {
  const [r, g, b] = STATUS[status].map((weights) => integrated(weights, transmittance));
  return [r, g, b];
}

/** Visual density of a spectrum. */
export function visualDensity(transmittance: Spectrum): number {
  return integrated(VISUAL, transmittance);
}

function integrated(weights: Product, transmittance: Spectrum): number {
  let through = 0;
  let all = 0;
  weights.forEach((w, i) => {
    through += w * transmittance(FIRST + 10 * i);
    all += w;
  });
  return densityOf(through / all);
}
