/** Rows of a scan's transmittance as they lie on the joined picture's grid. */
import { type LightSetup, readTransmittance } from "../../flat-field/transmittance.ts";
import type { LinearScan, Rgb } from "../../types.ts";
import { catmullRom } from "./match.ts";
import type { JoinFrame, JoinPlace } from "./place.ts";

/** A scan, how to read it, and where it lies. */
export interface JoinPart {
  readonly scan: LinearScan;
  readonly light: LightSetup;
  readonly place: JoinPlace;
}

/** Places between two pixels that have weights of their own. */
const PHASES = 256;
const WEIGHTS = Float32Array.from({ length: PHASES * 4 }, (_, k) => catmullRom(Math.floor(k / 4) / PHASES)[k % 4]);

export interface MovedRows {
  /**
   * Writes transmittance times gain of the pixels `from` … `to - 1` of row `y` of the part's own rectangle, every `step`th
   * of them, three channels interleaved and at their own columns; NaN in red where the scan does not reach. Rows are asked
   * for from the top down.
   */
  row(y: number, out: Float32Array, from: number, to: number, step?: number): void;
}

/** @param own the rectangle around the scan, on the grid */
export function movedRows({ scan, light, place: [px, py, degrees] }: JoinPart, own: JoinFrame, gain: Rgb): MovedRows {
  const { width, height } = scan;
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const reader = readTransmittance(scan, light);
  // A row of the grid crosses as many rows of the scan as its rotation lifts it, and four for the weights.
  const ring = Math.min(height, Math.ceil(Math.abs(s) * own.width) + 8);
  const rows = Array.from({ length: ring }, () => new Float32Array(width * 3));
  let read = -1;
  /** Row `j` of the scan; the rows before it that are still needed are kept. */
  const take = (j: number): void => {
    if (read < j - ring) read = j - ring;
    while (read < j) {
      read++;
      const row = rows[read % ring];
      reader.row(read, row);
      for (let i = 0; i < row.length; i += 3) {
        row[i] *= gain[0];
        row[i + 1] *= gain[1];
        row[i + 2] *= gain[2];
      }
    }
  };
  return {
    row(y, out, from, to, step = 1) {
      const dy = y + own.top - py;
      const ends = [from, to - 1].map((x) => -s * (x + own.left - px) + c * dy);
      const lowest = Math.min(height - 1, Math.floor(Math.max(...ends)) + 3);
      if (lowest >= 0) take(lowest);
      for (let x = from; x < to; x += step) {
        const dx = x + own.left - px;
        const u = Math.round((c * dx + s * dy) * PHASES);
        const v = Math.round((-s * dx + c * dy) * PHASES);
        const i = Math.floor(u / PHASES);
        const j = Math.floor(v / PHASES);
        const o = x * 3;
        if (i < 1 || j < 1 || i > width - 3 || j > height - 3) {
          out[o] = Number.NaN;
          continue;
        }
        const p = (u - i * PHASES) * 4;
        const q = (v - j * PHASES) * 4;
        const k = (i - 1) * 3;
        const [a, b, d, e] = [rows[(j - 1) % ring], rows[j % ring], rows[(j + 1) % ring], rows[(j + 2) % ring]];
        const [w0, w1, w2, w3] = [WEIGHTS[p], WEIGHTS[p + 1], WEIGHTS[p + 2], WEIGHTS[p + 3]];
        const [v0, v1, v2, v3] = [WEIGHTS[q], WEIGHTS[q + 1], WEIGHTS[q + 2], WEIGHTS[q + 3]];
        for (let ch = 0; ch < 3; ch++) {
          const m = k + ch;
          out[o + ch] =
            v0 * (w0 * a[m] + w1 * a[m + 3] + w2 * a[m + 6] + w3 * a[m + 9]) +
            v1 * (w0 * b[m] + w1 * b[m + 3] + w2 * b[m + 6] + w3 * b[m + 9]) +
            v2 * (w0 * d[m] + w1 * d[m + 3] + w2 * d[m + 6] + w3 * d[m + 9]) +
            v3 * (w0 * e[m] + w1 * e[m + 3] + w2 * e[m + 6] + w3 * e[m + 9]);
        }
      }
    },
  };
}
