/**
 * Looks at what was decoded before a picture is made of it: a decoder that lost its data gives zeros, or one number,
 * without an error. Everything here stops at the first sample that differs, so that a real scan costs next to nothing.
 */
import { ScanError, type ScanWarning } from "../errors.ts";

/** Samples of a picture, row by row. */
export interface SampleGrid {
  readonly width: number;
  readonly height: number;
  /** Samples from one row to the next, and before the first. */
  readonly stride: number;
  readonly start: number;
  readonly data: Uint16Array | Uint8Array;
  /** Columns and rows after which the kinds of samples repeat: channels in a row, filters of a mosaic. */
  readonly period: readonly [across: number, down: number];
}

const REMEDY = "Copy it from the camera's card again, or make the scan again.";

/**
 * @returns a warning where every pixel has the same colour
 * @throws ScanError "corrupt" where all samples are zero
 */
export function checkVariation(file: string, grid: SampleGrid): ScanWarning[] {
  if (!isFlat(grid)) return [];
  const { start, stride, data, period } = grid;
  const kinds = Array.from({ length: period[1] }, (_, y) => [
    ...data.subarray(start + y * stride).subarray(0, period[0]),
  ]);
  if (kinds.flat().every((sample) => sample === 0))
    throw new ScanError("corrupt", file, "holds nothing but zeros: its data are missing, or it saw no light", REMEDY);
  const message = "Every pixel of this scan has the same colour, as no camera records it: it is damaged or saturated.";
  return [{ code: "flat", message }];
}

function isFlat({ width, height, stride, start, data, period: [across, down] }: SampleGrid): boolean {
  for (let y = 0; y < height; y++) {
    const [row, first] = [start + y * stride, start + (y % down) * stride];
    for (let x = 0; x < width; x++) if (data[row + x] !== data[first + (x % across)]) return false;
  }
  return true;
}

/** Side of the squares that are looked for among zeros. No sensor records so many zeros side by side above its black. */
const SQUARE = 32;

/** Part of a picture's squares in which every sample is zero; those at the far edges reach back over their neighbours. */
export function emptyPart({ width, height, stride, start, data }: SampleGrid): number {
  if (Math.min(width, height) < SQUARE) return 0;
  const [columns, rows] = [Math.ceil(width / SQUARE), Math.ceil(height / SQUARE)];
  let empty = 0;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [x, y] = [Math.min(column * SQUARE, width - SQUARE), Math.min(row * SQUARE, height - SQUARE)];
      if (isEmpty(data, start + y * stride + x, stride)) empty++;
    }
  return empty / (columns * rows);
}

function isEmpty(data: SampleGrid["data"], from: number, stride: number): boolean {
  for (let y = 0; y < SQUARE; y++) for (let x = 0; x < SQUARE; x++) if (data[from + y * stride + x] !== 0) return false;
  return true;
}
