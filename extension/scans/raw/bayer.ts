/**
 * Demosaicing of 2 × 2 (Bayer) mosaics. Chosen by measurement on simulated scans of film; the table of candidates
 * is in docs/decisions/demosaic.md.
 *
 * Green first, along and across, each corrected by the curvature of the site's own colour (after Hamilton and Adams,
 * 1997) and kept between its neighbours; the two are blended by how smooth each direction is instead of switched, so
 * that grain does not turn into mazes. Red and blue follow from their differences to green. All of it on numbers
 * balanced to one level, because film's orange base leaves blue far weaker than red.
 *
 * The work runs down the picture over a few rows at a time; only the result is as large as the picture.
 */
import { balanceOf, levelsOf, type Mosaic, newMemory, type Part, partOfMosaic } from "./mosaic.ts";

/** Columns that rows are continued by on both sides, mirrored, so that no loop needs to ask for the edge. */
const PAD = 3;
/** Rows kept: green of row y + 1 looks two rows further down, differences one row up. Powers of two. */
const ROWS_KEPT = 8;
/** Share of the site's own curvature that green follows. A noiseless picture would ask for 0.25; grain for less. */
const CURVATURE = 0.2;
/** Keeps the blend defined where both directions are perfectly smooth; in squared recorded numbers. */
const SMOOTH = 1;

/**
 * Interleaved RGB of the mosaic's picture part; recorded numbers are kept exactly.
 * @param balance factors that bring the three colours to one level while they are compared
 * @param memory gives the memory that they are put in
 * @param part that alone is wanted; what the memory holds elsewhere is left as it is
 */
export function demosaicBayer(
  whole: Mosaic,
  balance = balanceOf(whole),
  memory = newMemory,
  part: Part = { left: 0, top: 0, width: whole.width, height: whole.height },
): Uint16Array {
  const out = memory(whole.width * whole.height * 3);
  const mosaic = partOfMosaic(whole, part);
  const { height, at } = mosaic;
  const rows = new RowsInWork(mosaic, balance);
  const writer = writerFor(mosaic, out, (at[1] * whole.width + at[0]) * 3, whole.width * 3);
  rows.loadTo(Math.min(height - 1, 3));
  rows.greenTo(0);
  for (let y = 0; y < height; y++) {
    rows.loadTo(Math.min(height - 1, y + 3));
    rows.greenTo(Math.min(height - 1, y + 1));
    writer(rows, y);
  }
  return out;
}

/** Mirrored at the edges without repeating the edge itself, which keeps each colour on its columns and rows. */
function mirror(i: number, length: number): number {
  if (i < 0) return -i;
  return i < length ? i : 2 * length - 2 - i;
}

class RowsInWork {
  readonly mosaic: Mosaic;
  readonly balance: readonly [number, number, number];
  readonly #recorded: readonly Float32Array[];
  readonly #green: readonly Float32Array[];
  readonly #difference: readonly Float32Array[];
  #loaded = -1;
  #greened = -1;

  constructor(mosaic: Mosaic, balance: readonly [number, number, number]) {
    this.mosaic = mosaic;
    this.balance = balance;
    const ring = () => Array.from({ length: ROWS_KEPT }, () => new Float32Array(mosaic.width + 2 * PAD));
    this.#recorded = ring();
    this.#green = ring();
    this.#difference = ring();
  }

  /** Balanced recorded numbers of row y. */
  recorded(y: number): Float32Array {
    return this.#recorded[mirror(y, this.mosaic.height) & (ROWS_KEPT - 1)];
  }

  green(y: number): Float32Array {
    return this.#green[mirror(y, this.mosaic.height) & (ROWS_KEPT - 1)];
  }

  /** Recorded colour less green, at the red or blue sites of row y. */
  difference(y: number): Float32Array {
    return this.#difference[mirror(y, this.mosaic.height) & (ROWS_KEPT - 1)];
  }

  /** Which colour row y has besides green, and on which columns: even (0) or odd (1). */
  otherColour(y: number): { colour: 0 | 2; column: 0 | 1 } {
    const [first, second] = this.mosaic.colours.slice((y % 2) * 2, (y % 2) * 2 + 2);
    return first === 1 ? { colour: second as 0 | 2, column: 1 } : { colour: first as 0 | 2, column: 0 };
  }

  loadTo(last: number): void {
    const { mosaic, balance } = this;
    const { width, stride, left, top, data, colours, black } = mosaic;
    while (this.#loaded < last) {
      const y = ++this.#loaded;
      const row = this.recorded(y);
      const from = (top + y) * stride + left;
      for (const column of [0, 1]) {
        const site = (y % 2) * 2 + column;
        const level = black[site];
        const factor = balance[colours[site]];
        for (let x = column; x < width; x += 2) row[x + PAD] = (data[from + x] - level) * factor;
      }
      continueRow(row, width);
    }
  }

  greenTo(last: number): void {
    while (this.#greened < last) {
      const y = ++this.#greened;
      interpolateGreen(this, y);
      continueRow(this.green(y), this.mosaic.width);
      continueRow(this.difference(y), this.mosaic.width);
    }
  }
}

function continueRow(row: Float32Array, width: number): void {
  for (let i = 1; i <= PAD; i++) {
    row[PAD - i] = row[PAD + mirror(-i, width)];
    row[PAD + width - 1 + i] = row[PAD + mirror(width - 1 + i, width)];
  }
}

function interpolateGreen(rows: RowsInWork, y: number): void {
  const { width } = rows.mosaic;
  const row = rows.recorded(y);
  const up = rows.recorded(y - 1);
  const down = rows.recorded(y + 1);
  const up2 = rows.recorded(y - 2);
  const down2 = rows.recorded(y + 2);
  const green = rows.green(y);
  const difference = rows.difference(y);
  const { column } = rows.otherColour(y);
  for (let i = PAD + 1 - column; i < width + PAD; i += 2) green[i] = row[i];
  for (let i = PAD + column; i < width + PAD; i += 2) {
    const centre = row[i];
    const left = row[i - 1];
    const right = row[i + 1];
    const above = up[i];
    const below = down[i];
    const curvatureAlong = 2 * centre - row[i - 2] - row[i + 2];
    const curvatureAcross = 2 * centre - up2[i] - down2[i];
    const roughAlong = Math.abs(left - right) + Math.abs(curvatureAlong);
    const roughAcross = Math.abs(above - below) + Math.abs(curvatureAcross);
    const along = between((left + right) * 0.5 + curvatureAlong * CURVATURE, left, right);
    const across = between((above + below) * 0.5 + curvatureAcross * CURVATURE, above, below);
    const weightAlong = roughAcross * roughAcross + SMOOTH;
    const weightAcross = roughAlong * roughAlong + SMOOTH;
    const value = (along * weightAlong + across * weightAcross) / (weightAlong + weightAcross);
    green[i] = value;
    difference[i] = centre - value;
  }
}

/** Green never leaves the range of its two neighbours: overshoot would double the grain. */
function between(value: number, a: number, b: number): number {
  const low = a < b ? a : b;
  const high = a < b ? b : a;
  return value < low ? low : value > high ? high : value;
}

/**
 * Writes one finished row: undoes the balance and puts the numbers on the scan's levels.
 * @param first where in `out` the first row begins
 * @param rowSamples from one row to the next
 */
function writerFor(
  mosaic: Mosaic,
  out: Uint16Array,
  first: number,
  rowSamples: number,
): (rows: RowsInWork, y: number) => void {
  const { width } = mosaic;
  const { gain, pedestal } = levelsOf(mosaic);
  const offset = pedestal + 0.5;
  return (rows, y) => {
    const green = rows.green(y);
    const own = rows.difference(y);
    const above = rows.difference(y - 1);
    const below = rows.difference(y + 1);
    const { colour, column } = rows.otherColour(y);
    const other = 2 - colour;
    const toOwn = gain / rows.balance[colour];
    const toOther = gain / rows.balance[other];
    const start = first + y * rowSamples;
    for (let x = column, i = x + PAD, at = start + x * 3; x < width; x += 2, i += 2, at += 6) {
      const g = green[i];
      const diagonal = (above[i - 1] + above[i + 1] + below[i - 1] + below[i + 1]) * 0.25;
      out[at + colour] = clamp((g + own[i]) * toOwn + offset);
      out[at + 1] = clamp(g * gain + offset);
      out[at + other] = clamp((g + diagonal) * toOther + offset);
    }
    for (let x = 1 - column, i = x + PAD, at = start + x * 3; x < width; x += 2, i += 2, at += 6) {
      const g = green[i];
      out[at + colour] = clamp((g + (own[i - 1] + own[i + 1]) * 0.5) * toOwn + offset);
      out[at + 1] = clamp(g * gain + offset);
      out[at + other] = clamp((g + (above[i] + below[i]) * 0.5) * toOther + offset);
    }
  };
}

/** To a 16-bit number; the half for rounding is already added. */
function clamp(value: number): number {
  return value < 0 ? 0 : value > 65535 ? 65535 : value | 0;
}
