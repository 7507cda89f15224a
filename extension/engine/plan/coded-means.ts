/** A part of a scan, made small and log-coded: what the preview draws from. */
import type { readTransmittance } from "../flat-field/transmittance.ts";
import { clamp } from "../math/clamp.ts";
import type { LinearScan } from "../types.ts";
import { codeOf } from "./log-code.ts";

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
  const sum = new Float32Array(width * 3);
  const rows = Math.min(step, box.height);
  const columns = Math.min(step, box.width);
  for (let y = 0, k = 0; y < height; y++) {
    if (y % 64 === 0) checkpoint();
    sum.fill(0);
    for (let j = 0; j < rows; j++) {
      reader.row(box.top + y * step + j, row, box.left, box.left + box.width);
      for (let x = 0, i = 0; x < width; x++)
        for (let q = 0; q < columns; q++, i += 3) {
          sum[3 * x] += row[i];
          sum[3 * x + 1] += row[i + 1];
          sum[3 * x + 2] += row[i + 2];
        }
    }
    const scale = 1 / (rows * columns);
    for (let x = 0; x < sum.length; x++) codes[k++] = codeOf(sum[x] * scale);
  }
  const part = {
    left: box.left / scan.width,
    top: box.top / scan.height,
    width: (width * columns) / scan.width,
    height: (height * rows) / scan.height,
  };
  return { part, width, height, codes };
}
