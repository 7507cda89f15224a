/**
 * Transmittance in 16 bits, in even steps of density: code = (log2 T + 16) · 65535/24, so 0 is D 4.82 and 65535 is
 * D −2.41. A step is 0.00011 D; rounding is never off by more than 0.000056 D. Proxies travel to the panel like this.
 */
import { MIN_T, MAX_T } from "../film/look-steps.ts";

const MIN_OCTAVE = Math.log2(MIN_T);
const OCTAVES = Math.log2(MAX_T) - MIN_OCTAVE;

/** Codes per octave of light. */
export const CODES_PER_OCTAVE = 65535 / OCTAVES;

/** Density of code 0, and the density by which each further code is less. */
export const CODE_DENSITY = -Math.log10(MIN_T);
export const CODE_STEP = Math.log10(2) / CODES_PER_OCTAVE;

/** Code of a transmittance; outside the limits of the chain, and for NaN, the nearest end. */
export function codeOf(transmittance: number): number {
  if (!(transmittance > MIN_T)) return 0;
  return Math.min(65535, Math.round((Math.log2(transmittance) - MIN_OCTAVE) * CODES_PER_OCTAVE));
}

/** Transmittance of a code. */
export function transmittanceOfCode(code: number): number {
  return 2 ** (MIN_OCTAVE + code / CODES_PER_OCTAVE);
}

/** Density of a code. */
export function densityOfCode(code: number): number {
  return CODE_DENSITY - code * CODE_STEP;
}

let table: Float32Array | undefined;

/** Transmittances of all codes, `table[code]`. */
export function codeTable(): Float32Array {
  table ??= Float32Array.from({ length: 65536 }, (_, code) => transmittanceOfCode(code));
  return table;
}
