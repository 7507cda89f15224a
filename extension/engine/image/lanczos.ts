/** Lanczos-3 weights as tables: one row of taps for each sub-pixel phase. */

/** Sub-pixel positions that are told apart; the position error is at most 1/512 pixel. */
export const PHASES = 256;

/** Weights for a position p in sample coordinates: taps start at floor(p) + first, row round(frac(p) · PHASES). */
export interface Kernel {
  readonly taps: number;
  /** Offset of the first tap from floor(position). */
  readonly first: number;
  /** (PHASES + 1) × taps; each row sums to 1. */
  readonly weights: Float32Array;
}

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/** Lanczos' window with three lobes (Duchon 1979; Turkowski 1990). */
const lanczos3 = (x: number): number => (Math.abs(x) < 3 ? sinc(x) * sinc(x / 3) : 0);

/**
 * The kernel for sampling every `step` source samples. When shrinking (`step` > 1) it is widened by `step`, so that it
 * takes in the whole area that an output pixel stands for and lets no finer pattern through as moiré.
 */
export function lanczosKernel(step: number): Kernel {
  const stretch = Math.max(1, step);
  // A step of 1.0001 (a straightened picture) is still an enlargement of detail: keep its six taps.
  const reach = stretch < 1.02 ? 3 : 3 * stretch;
  const half = Math.ceil(reach);
  const taps = 2 * half;
  const first = 1 - half;
  const weights = new Float32Array((PHASES + 1) * taps);
  for (let p = 0; p <= PHASES; p++) {
    let sum = 0;
    const raw = Array.from({ length: taps }, (_, k) => lanczos3(((first + k - p / PHASES) * 3) / reach));
    for (const w of raw) sum += w;
    for (let k = 0; k < taps; k++) weights[p * taps + k] = raw[k] / sum;
  }
  return { taps, first, weights };
}
