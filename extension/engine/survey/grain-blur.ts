/** How much a lens, a movement or a tilt has blurred the grain. */
import { FREQUENCY, FREQUENCY_X, FREQUENCY_Y, type GrainSpectrum } from "./grain-spectrum.ts";
import type { BlurReading } from "./types.ts";

/** Frequencies that are fitted, cycles per pixel of the half-size scan. */
const [LOWEST, HIGHEST] = [0.1, 0.44];
/** Grain has to stand out of the sensor's noise by this at a frequency to count, and over so many bins in all. */
const LEAST_OVER_NOISE = 0.7;
const LEAST_BINS = 60;

/**
 * Grain is white until the lens sees it, so its spectrum is the square of the system's response: for a blur of
 * covariance C it falls as exp(−4π² fᵀ C f). The fit of its logarithm gives C, whatever the grain's size and the
 * film's density.
 *
 * @param kernel variance of what demosaicing and halving add by themselves, in pixels² of the half-size scan.
 * @returns variances in pixels² of the full scan (never below 0 along the axes); undefined where grain does not show.
 */
export function grainBlur(spectrum: GrainSpectrum, kernel: number): BlurReading | undefined {
  const { power, noise } = spectrum;
  // Neighbouring bins are averaged first: the logarithm of a noisy value is biased.
  const smooth = averaged(power);
  const used: number[] = [];
  for (let i = 0; i < power.length; i++)
    if (FREQUENCY[i] >= LOWEST && FREQUENCY[i] <= HIGHEST && smooth[i] > LEAST_OVER_NOISE * noise[i] && smooth[i] > 0)
      used.push(i);
  if (used.length < LEAST_BINS) return undefined;
  const normal = Array.from({ length: 4 }, () => new Float64Array(5));
  for (const i of used) {
    const [u, v] = [FREQUENCY_X[i], FREQUENCY_Y[i]];
    const row = [1, u * u, 2 * u * v, v * v];
    const weight = (smooth[i] / (smooth[i] + noise[i])) ** 2;
    for (let r = 0; r < 4; r++) {
      for (let c = 0; c < 4; c++) normal[r][c] += weight * row[r] * row[c];
      normal[r][4] += weight * row[r] * Math.log(smooth[i]);
    }
  }
  const [, xx, xy, yy] = solve(normal).map((v) => v / (-4 * Math.PI * Math.PI));
  return { xx: 4 * Math.max(0, xx - kernel), xy: 4 * xy, yy: 4 * Math.max(0, yy - kernel) };
}

const N = 32;

function averaged(power: Float32Array): Float32Array {
  const out = new Float32Array(power.length);
  for (let y = 0; y < N; y++)
    for (let x = 0; x < N; x++) {
      let sum = 0;
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) sum += power[((y + dy + N) % N) * N + ((x + dx + N) % N)];
      out[y * N + x] = sum / 9;
    }
  return out;
}

/** Gauss–Jordan on an augmented matrix of four equations. */
function solve(a: Float64Array[]): number[] {
  const n = a.length;
  for (let p = 0; p < n; p++) {
    let pivot = p;
    for (let r = p + 1; r < n; r++) if (Math.abs(a[r][p]) > Math.abs(a[pivot][p])) pivot = r;
    [a[p], a[pivot]] = [a[pivot], a[p]];
    for (let r = 0; r < n; r++) {
      if (r === p) continue;
      const f = a[r][p] / a[p][p];
      for (let c = p; c <= n; c++) a[r][c] -= f * a[p][c];
    }
  }
  return a.map((row, r) => row[n] / row[r]);
}

/** Standard deviation of a blur in pixels, the mean of all directions. */
export const sigmaOf = (b: BlurReading): number => Math.sqrt((b.xx + b.yy) / 2);

/** Direction in degrees (clockwise from the x axis, 0 … 180) of the strongest blur, and the two variances. */
export function principal(b: BlurReading): { most: number; least: number; angle: number } {
  const half = (b.xx - b.yy) / 2;
  const size = Math.hypot(half, b.xy);
  const middle = (b.xx + b.yy) / 2;
  const angle = ((Math.atan2(b.xy, half) / 2) * 180) / Math.PI;
  return { most: middle + size, least: Math.max(0, middle - size), angle: (angle + 180) % 180 };
}
