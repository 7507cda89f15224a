/**
 * Transmittance and density (ISO 5-1): D = −log10 T. One stop is a factor of two in light,
 * hence log10 2 = 0.30103 in density or log exposure.
 */

/** One stop as log10 exposure, and as density of a neutral filter. */
export const STOP = Math.LOG10E * Math.LN2;

/** Reflectance of the mid-grey that metering and the print curve turn about. */
export const MID_GREY = 0.18;

/** Density of a transmittance; 0 for T = 1, infinite for T = 0, NaN below 0. */
export function densityOf(transmittance: number): number {
  return -Math.log10(transmittance);
}

/** Transmittance of a density. */
export function transmittanceOf(density: number): number {
  return 10 ** -density;
}
