/** A part of a scan, made small and log-coded: what the preview draws from. */
import type { readTransmittance } from "../flat-field/transmittance.ts";
import { clamp } from "../math/clamp.ts";
import type { LinearScan } from "../types.ts";
import { codesOf } from "./log-code.ts";

/** A rectangle in fractions of the scan's sides. */
export interface ScanPart {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A part in pixels: whole ones, at least one, within the scan. */
export function boxOf({ width, height }: Pick<LinearScan, "width" | "height">, part: ScanPart): Box {
  const side = (from: number, length: number, all: number): [number, number] => {
    const first = clamp(Math.floor(from * all), 0, all - 1);
    return [first, Math.min(all, Math.max(first + 1, Math.ceil((from + length) * all))) - first];
  };
  const [left, wide] = side(part.left, part.width, width);
  const [top, high] = side(part.top, part.height, height);
  return { left, top, width: wide, height: high };
}

export interface CodedMeans {
  readonly width: number;
  readonly height: number;
  /** Three codes a pixel (log-code.ts). */
  readonly codes: Uint16Array;
  /** What they show of the scan. */
  readonly part: ScanPart;
}

/**
 * Codes of the means of `step` × `step` transmittances. Pixels beyond the last whole group are left out.
 *
 * @param checkpoint called every 64 rows; it may throw to stop the work
 */
export function codedMeans(
  reader: ReturnType<typeof readTransmittance>,
  scan: Pick<LinearScan, "width" | "height">,
  box: Box,
  step: number,
  checkpoint: () => void,
): CodedMeans {
  const width = Math.max(1, Math.floor(box.width / step));
  const height = Math.max(1, Math.floor(box.height / step));
  const codes = new Uint16Array(width * height * 3);
  const row = new Float32Array(box.width * 3);
  const [rows, columns] = [Math.min(step, box.height), Math.min(step, box.width)];
  const sums = new Float32Array(columns * width * 3);
  const means = rows * columns > 1 ? new Float32Array(width * 3) : sums;
  for (let y = 0; y < height; y++) {
    if (y % 64 === 0) checkpoint();
    for (let j = 0; j < rows; j++) {
      reader.row(box.top + y * step + j, row, box.left, box.left + box.width);
      if (j === 0) sums.set(row.length === sums.length ? row : row.subarray(0, sums.length));
      else for (let i = 0; i < sums.length; i++) sums[i] += row[i];
    }
    if (means !== sums) meansOf(sums, columns, 1 / (rows * columns), means);
    codesOf(means, codes.subarray(y * means.length, (y + 1) * means.length));
  }
  const part = {
    left: box.left / scan.width,
    top: box.top / scan.height,
    width: (width * columns) / scan.width,
    height: (height * rows) / scan.height,
  };
  return { part, width, height, codes };
}

/** Means of so many columns each, three channels interleaved. */
function meansOf(sums: Float32Array, columns: number, scale: number, out: Float32Array): void {
  for (let x = 0, i = 0; x < out.length; x += 3) {
    let [r, g, b] = [0, 0, 0];
    for (let q = 0; q < columns; q++, i += 3) {
      r += sums[i];
      g += sums[i + 1];
      b += sums[i + 2];
    }
    out[x] = r * scale;
    out[x + 1] = g * scale;
    out[x + 2] = b * scale;
  }
}
