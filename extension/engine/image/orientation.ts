/** Writes finished rows turned or mirrored. */
import type { Placement } from "./geometry.ts";
import type { Raster } from "../types.ts";

/** Rows kept before they are written sideways: a whole cache line of the target is then filled at once. */
const BLOCK = 32;

/** Takes an upright picture row by row and lays it down mirrored and turned. */
export interface TurnedWriter {
  /** The buffer for the next upright row; fill it, then call `next`. */
  readonly row: Uint16Array;
  next(): void;
  /** Writes what is left and returns the picture. */
  finish(): Raster<Uint16Array>;
}

/**
 * Mirror (left–right) first, then the clockwise turn; both by index alone, so samples are never changed.
 * @param memory where the picture is to lie, from its beginning; new memory where not given
 */
export function turnedWriter(p: Placement, channels: 1 | 3, memory?: Uint16Array): TurnedWriter {
  const { width, height, turn, mirror } = p;
  const length = width * height * channels;
  const data = memory ? memory.subarray(0, length) : new Uint16Array(length);
  const picture: Raster<Uint16Array> = { width: p.finalWidth, height: p.finalHeight, channels, data };
  const sideways = turn === 90 || turn === 270;
  const row = new Uint16Array(width * channels);
  const block = sideways ? new Uint16Array(row.length * BLOCK) : row;
  let v = 0;

  /** Lays one upright row down along a final row. */
  function along(): void {
    const at = (turn === 180 ? height - 1 - v : v) * row.length;
    if (mirror === (turn === 180)) data.set(row, at);
    else
      for (let u = 0, to = at + (width - 1) * channels; u < row.length; u += channels, to -= channels)
        for (let c = 0; c < channels; c++) data[to + c] = row[u + c];
  }

  /** Lays the last `count` upright rows, which end before v, down along final columns. */
  function across(count: number): void {
    for (let u = 0; u < width; u++) {
      const x = mirror ? width - 1 - u : u;
      // Clockwise: the upright picture's left edge becomes the final top edge, read from the bottom row on.
      const line = (turn === 90 ? x : width - 1 - x) * height;
      for (let k = 0; k < count; k++) {
        const w = v - count + k;
        const to = (line + (turn === 90 ? height - 1 - w : w)) * channels;
        const from = k * row.length + u * channels;
        for (let c = 0; c < channels; c++) data[to + c] = block[from + c];
      }
    }
  }

  return {
    row,
    next() {
      if (sideways) {
        block.set(row, (v % BLOCK) * row.length);
        v++;
        if (v % BLOCK === 0) across(BLOCK);
      } else {
        along();
        v++;
      }
    },
    finish() {
      if (sideways && v % BLOCK !== 0) across(v % BLOCK);
      return picture;
    },
  };
}
