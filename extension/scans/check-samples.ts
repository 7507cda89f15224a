/**
 * Looks at what was decoded before a picture is made of it: a decoder that lost its data gives zeros, or one number,
 * without an error. Everything here stops at the first sample that differs, so that a real scan costs next to nothing.
 */
import { ScanError, type ScanWarning } from "./errors.ts";

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
 * @throws ScanError "corrupt" where all samples are zero, or all are the same number
 */
export function checkVariation(file: string, grid: SampleGrid): ScanWarning[] {
  if (!isFlat(grid)) return [];
  const [across, down] = grid.period;
  const first = grid.data[grid.start];
  for (let y = 0; y < down; y++)
    for (let x = 0; x < across; x++)
      if (grid.data[grid.start + y * grid.stride + x] !== first)
        return [
          {
            code: "flat",
            message: "Every pixel of this scan has the same colour, as no camera records it; check the file.",
          },
        ];
  const what = first === 0 ? "holds nothing but zeros" : `holds the same number, ${first}, everywhere`;
  throw new ScanError("corrupt", file, `${what}: it is damaged, or it was exposed far too much or too little`, REMEDY);
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
