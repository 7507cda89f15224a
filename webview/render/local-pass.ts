/** What areas of local exposure add to pixels that a plan has made from codes: the CPU's part of both executors. */
import { NODE_VALUES, type PlaceRow, readGrid } from "../../extension/engine/local/grid.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { runLocal } from "../../extension/engine/plan/run-local.ts";

/** Rows of pixels, with where each of them lies. */
export interface LocalRows {
  readonly width: number;
  readonly height: number;
  /** Three codes a pixel; index of a row's first pixel. */
  readonly codes: Uint16Array;
  readonly codesAt: (y: number) => number;
  /** RGBA, row by row. */
  readonly pixels: Uint8ClampedArray;
  /** Places of a row's pixels in the scan. */
  readonly placeOf: (y: number) => PlaceRow;
}

/** Makes the pixels inside of a plan's areas again. Nothing to do for plans without areas. */
export function runLocalRows(plan: Plan, { width, height, codes, codesAt, pixels, placeOf }: LocalRows): void {
  const { local } = plan;
  if (!local) return;
  const table = codeTable();
  // The clamping array would round a second time.
  const out = new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.length);
  const t = new Float32Array(width * 3);
  const adjustments = new Float32Array(width * NODE_VALUES);
  for (let y = 0; y < height; y++) {
    if (!readGrid(local, placeOf(y), width, adjustments)) continue;
    for (let k = 0, i = 3 * codesAt(y); k < t.length; k++, i++) t[k] = table[codes[i]];
    runLocal(plan, 255, { n: width, t, from: 0, adjustments, out, to: y * width * 4, stride: 4 });
  }
}

/** The rows of a whole grid that lies on a part of a scan, in fractions of it. */
export function gridRows(
  grid: { readonly width: number; readonly height: number },
  part: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
): (y: number) => PlaceRow {
  const [dx, dy] = [part.width / grid.width, part.height / grid.height];
  return (y) => ({ x: part.left + dx / 2, y: part.top + (y + 0.5) * dy, dx, dy: 0 });
}
