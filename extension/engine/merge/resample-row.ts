/** Rows of one scan as they lie on another's pixels. */
import type { LinearScan } from "../types.ts";
import { type Displacement, displacer, largestDisplacement } from "./displacement.ts";

/** Places between two pixels that have weights of their own: a sixty-fourth of a pixel is finer than registration. */
const PHASES = 64;
/** Catmull–Rom weights of four neighbours, by phase (E. Catmull, R. Rom 1974). */
const WEIGHTS = Float32Array.from({ length: PHASES * 4 }, (_, k) => {
  const t = Math.floor(k / 4) / PHASES;
  return [((2 - t) * t - 1) * t, (3 * t - 5) * t * t + 2, ((4 - 3 * t) * t + 1) * t, (t - 1) * t * t][k % 4]! / 2;
});
/** Share of the noise's variance that is left between pixels, by phase. */
const NOISE = Float32Array.from({ length: PHASES }, (_, p) =>
  [0, 1, 2, 3].reduce((sum, k) => sum + WEIGHTS[p * 4 + k]! ** 2, 0),
);

/** A displacement that is smaller everywhere is none: nothing is gained by laying samples anew. Pixels. */
const NOTHING = 0.02;

export interface RowResampler {
  /**
   * Writes the signal of the pixels of row `y` of the scan that stays; a pixel that the other scan does not show is NaN.
   * @returns the share of the noise's variance that is left in the middle of the row
   */
  row(y: number, out: Float32Array): number;
  /** Where the middle of a pixel lies on the other scan, written to `at`. */
  place(x: number, y: number): void;
  readonly at: { x: number; y: number };
}

/** @param displacement where a pixel lies on the scan; absent for a scan that stays */
export function rowResampler(scan: LinearScan, displacement?: Displacement): RowResampler {
  const moved = displacement && largestDisplacement(displacement) > NOTHING ? displacement : undefined;
  return moved ? movedRows(scan, moved) : stillRows(scan);
}

function stillRows({ width, channels, data, black, scale }: LinearScan): RowResampler {
  const at = { x: 0, y: 0 };
  return {
    row(y, out) {
      const from = y * width * channels;
      for (let i = 0; i < width * channels; i++) out[i] = (data[from + i]! - black) * scale;
      return 1;
    },
    place(x, y) {
      at.x = x;
      at.y = y;
    },
    at,
  };
}

function movedRows(scan: LinearScan, displacement: Displacement): RowResampler {
  const { width, height, channels, data, black, scale } = scan;
  const move = displacer(displacement);
  const at = { x: 0, y: 0 };
  const place = (x: number, y: number): void => {
    move(x, y);
    at.x = x + move.to.dx;
    at.y = y + move.to.dy;
  };
  const stride = width * channels;
  const d1 = channels;
  const d2 = 2 * channels;
  const d3 = 3 * channels;
  function row(y: number, out: Float32Array): number {
    for (let x = 0, o = 0; x < width; x++, o += channels) {
      place(x, y);
      // Rounded to a phase first, so that a whole pixel is copied.
      const u = Math.round(at.x * PHASES);
      const v = Math.round(at.y * PHASES);
      const i = Math.floor(u / PHASES);
      const j = Math.floor(v / PHASES);
      if (i < 1 || j < 1 || i > width - 3 || j > height - 3) {
        for (let c = 0; c < channels; c++) out[o + c] = Number.NaN;
        continue;
      }
      const p = (u - i * PHASES) * 4;
      const q = (v - j * PHASES) * 4;
      const p0 = WEIGHTS[p]!;
      const p1 = WEIGHTS[p + 1]!;
      const p2 = WEIGHTS[p + 2]!;
      const p3 = WEIGHTS[p + 3]!;
      const q0 = WEIGHTS[q]!;
      const q1 = WEIGHTS[q + 1]!;
      const q2 = WEIGHTS[q + 2]!;
      const q3 = WEIGHTS[q + 3]!;
      for (let c = 0; c < channels; c++) {
        const k = (j - 1) * stride + (i - 1) * channels + c;
        const k1 = k + stride;
        const k2 = k1 + stride;
        const k3 = k2 + stride;
        const sum =
          q0 * (p0 * data[k]! + p1 * data[k + d1]! + p2 * data[k + d2]! + p3 * data[k + d3]!) +
          q1 * (p0 * data[k1]! + p1 * data[k1 + d1]! + p2 * data[k1 + d2]! + p3 * data[k1 + d3]!) +
          q2 * (p0 * data[k2]! + p1 * data[k2 + d1]! + p2 * data[k2 + d2]! + p3 * data[k2 + d3]!) +
          q3 * (p0 * data[k3]! + p1 * data[k3 + d1]! + p2 * data[k3 + d2]! + p3 * data[k3 + d3]!);
        out[o + c] = (sum - black) * scale;
      }
    }
    place((width - 1) / 2, y);
    return noiseLeft(at.x) * noiseLeft(at.y);
  }
  return { row, place, at };
}

const noiseLeft = (place: number): number => NOISE[Math.floor((place - Math.floor(place)) * PHASES) % PHASES]!;
