/** Small made-up scans for tests of the engine: a formula for the signal, seeded noise, specks. */
import type { LinearScan } from "../../../extension/engine/types.ts";

/** Seeded numbers: splitmix32, then Box–Muller for the normal distribution. */
export function random(seed: number): { uniform: () => number; normal: () => number } {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 2 ** 32;
  };
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}

export const BLACK = 600;
const WHITE = 60_000;

export interface ScanOptions {
  readonly channels?: 1 | 3;
  /** Photons at saturation; without it there is no noise. */
  readonly photons?: number;
  readonly seed?: number;
}

/** A scan whose signal (1.0 saturates) is a formula of the place in fractions of the sides. */
export function scanOf(
  width: number,
  height: number,
  signal: (x: number, y: number, c: number) => number,
  { channels = 3, photons = Infinity, seed = 1 }: ScanOptions = {},
): LinearScan {
  const { normal } = random(seed);
  const data = new Uint16Array(width * height * channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < channels; c++, i++) {
        const s = Math.min(1, signal((x + 0.5) / width, (y + 0.5) / height, c));
        const noise = photons === Infinity ? 0 : normal() * Math.sqrt(Math.max(0, s) / photons);
        data[i] = Math.max(0, Math.round(BLACK + (WHITE - BLACK) * Math.min(1, s + noise)));
      }
  return { width, height, channels, data, black: BLACK, scale: 1 / (WHITE - BLACK) };
}

/** An uneven light: falloff to the corners (cos⁴ of a lens), a hot spot off the middle and a slope from side to side. */
export function unevenLight(x: number, y: number, c: number): number {
  const r2 = (x - 0.5) ** 2 + (y - 0.5) ** 2 * 0.44;
  const falloff = 1 / (1 + r2 * 0.9) ** 2;
  const spot = 1 + 0.08 * Math.exp(-((x - 0.37) ** 2 + (y - 0.6) ** 2) / 0.02);
  return [0.62, 0.74, 0.55][c] * falloff * spot * (1 + 0.06 * (x - 0.5) * (c + 1));
}

/** Root mean square. */
export const rms = (values: ArrayLike<number>): number =>
  Math.sqrt(Array.from(values).reduce((a, v) => a + v * v, 0) / values.length);
