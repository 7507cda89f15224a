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

/** Bits of a 32-bit float below its exponent (IEEE 754), and of those, below the index of a segment. */
const [MANTISSA, BELOW] = [23, 12];
/** Segments of an octave over which log2 is taken for straight: off by less than 0.0002 of a code. */
const SEGMENTS = 2 ** (MANTISSA - BELOW);
const EXPONENT_OF_ONE = 127;
const INFINITE = 0x7f800000;

/** Codes from an octave's beginning to each of its segments', and by how much one bit more is further. */
let octave: { readonly start: Float64Array; readonly rise: Float64Array } | undefined;

function octaveTable(): NonNullable<typeof octave> {
  const at = (k: number): number => Math.log2(1 + k / SEGMENTS) * CODES_PER_OCTAVE;
  return {
    start: Float64Array.from({ length: SEGMENTS }, (_, k) => at(k)),
    rise: Float64Array.from({ length: SEGMENTS }, (_, k) => (at(k + 1) - at(k)) / 2 ** BELOW),
  };
}

/** Codes of many transmittances, as `codeOf` has them (halfway between two it may give the other one), eight times as fast. */
export function codesOf(transmittances: Float32Array, out: Uint16Array): void {
  const { start, rise } = (octave ??= octaveTable());
  const { buffer, byteOffset, length } = transmittances;
  const bits = new Int32Array(buffer, byteOffset, length);
  const zero = -(EXPONENT_OF_ONE + MIN_OCTAVE) * CODES_PER_OCTAVE + 0.5;
  // Locals: the loop reads them as integers.
  const [mantissa, below, segments, rest, each] = [MANTISSA, BELOW, SEGMENTS - 1, 2 ** BELOW - 1, CODES_PER_OCTAVE];
  for (let i = 0; i < length; i++) {
    const b = bits[i];
    const segment = (b >> below) & segments;
    const code = zero + (b >> mantissa) * each + start[segment] + (b & rest) * rise[segment];
    out[i] = b > INFINITE || code < 0 ? 0 : code > 65535 ? 65535 : code;
  }
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
