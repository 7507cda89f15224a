/** An overview cut into small squares, and which of them are evenly dense. */
import type { DownsampledScan } from "./downsampled-scan.ts";

/** Squares of an overview, row by row. */
export interface Cells {
  readonly columns: number;
  readonly rows: number;
  /** Overview pixels along a side of a square. */
  readonly size: number;
  /** Mean density per channel, interleaved. */
  readonly density: Float32Array;
  /** 1 where the square holds no edge, no picture detail and nothing clipped. */
  readonly flat: Uint8Array;
}

/** A square's quarters may differ by this much, in density, beside what noise does. */
const EVEN = 0.012;
/** Least transmittance that a density is taken of. */
const MIN_TRANSMITTANCE = 1e-4;

const known = new WeakMap<DownsampledScan, Cells>();

/** Cuts an overview into squares of about a 190th of its longer side; each overview is cut once. */
export function cellsOf(scan: DownsampledScan): Cells {
  const cells = known.get(scan) ?? cut(scan);
  known.set(scan, cells);
  return cells;
}

function cut(scan: DownsampledScan): Cells {
  const { width, height, t, clipped } = scan;
  const size = Math.max(4, Math.round(Math.max(width, height) / 190)) & ~1;
  const columns = Math.floor(width / size);
  const rows = Math.floor(height / size);
  const density = new Float32Array(columns * rows * 3);
  const flat = new Uint8Array(columns * rows);
  const half = size / 2;
  const quarter = new Float64Array(4);
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < columns; q++) {
      const cell = r * columns + q;
      let even = true;
      for (let y = 0, i = r * size * width + q * size; y < size; y++, i += width)
        for (let x = i; x < i + size; x++) if (clipped[x]) even = false;
      for (let c = 0; c < 3; c++) {
        let squares = 0;
        for (let k = 0; k < 4; k++) {
          const first = (r * size + (k >> 1) * half) * width + q * size + (k & 1) * half;
          let sum = 0;
          for (let y = 0, i = first * 3 + c; y < half; y++, i += 3 * width)
            for (let x = i; x < i + 3 * half; x += 3) {
              sum += t[x];
              squares += t[x] * t[x];
            }
          quarter[k] = sum;
        }
        const n = size * size;
        const mean = (quarter[0] + quarter[1] + quarter[2] + quarter[3]) / n;
        const spread = Math.sqrt(Math.max(0, squares / n - mean * mean)) / Math.max(mean, MIN_TRANSMITTANCE);
        const [q0, q1, q2, q3] = [quarter[0], quarter[1], quarter[2], quarter[3]];
        const [low, high] = [Math.min(q0, q1, q2, q3) / (n / 4), Math.max(q0, q1, q2, q3) / (n / 4)];
        // Two quarters of noise alone differ by their own standard errors; four standard errors are no accident.
        const noise = (4 * spread) / half / Math.LN10;
        density[cell * 3 + c] = -Math.log10(Math.max(mean, MIN_TRANSMITTANCE));
        if (
          Math.log10(Math.max(high, MIN_TRANSMITTANCE) / Math.max(low, MIN_TRANSMITTANCE)) >
          EVEN + Math.min(noise, 0.02)
        )
          even = false;
      }
      flat[cell] = even ? 1 : 0;
    }
  return { columns, rows, size, density, flat };
}
