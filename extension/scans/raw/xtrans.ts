/**
 * Demosaicing of 6 × 6 (X-Trans) mosaics, in the way of `bayer.ts`: green along and across, blended by smoothness;
 * red and blue from their differences to green. A site's own colour has no neighbour of its kind on its row or column
 * here, so green is made twice: the second time it follows the site's own colour by way of the differences found first.
 *
 * The work runs down the picture in stages, each a few rows ahead of the next; only the result is as large as the
 * picture. Rows are kept by their numbers in rings.
 */
import { balanceOf, levelsOf, type Mosaic, newMemory, type Part, partOfMosaic } from "./mosaic.ts";
import { colourTaps, type GreenDistances, greenDistances, PERIOD, REACH, type Tap } from "./xtrans-layout.ts";

/** Rows in work: four stages, each two rows ahead, and whole blocks away at the edges. A power of two. */
const ROWS_KEPT = 32;
/** Share of the site's own detail that green follows; see bayer.ts. */
const SHARE = 0.8;
/** Keeps blends defined where all is smooth; in squared recorded numbers. */
const SMOOTH = 1;
/** Steps of green up to which neighbours count as the same thing: of the range, and of the site itself. */
const RANGE_TOLERANCE = 0.0013;
const SITE_TOLERANCE = 0.01;

/**
 * Interleaved RGB of the mosaic's picture part; recorded numbers are kept exactly.
 * @param balance factors that bring the three colours to one level while they are compared
 * @param memory gives the memory that they are put in
 * @param part that alone is wanted; what the memory holds elsewhere is left as it is
 */
export function demosaicXTrans(
  whole: Mosaic,
  balance = balanceOf(whole),
  memory = newMemory,
  part: Part = { left: 0, top: 0, width: whole.width, height: whole.height },
): Uint16Array {
  const out = memory(whole.width * whole.height * 3);
  const mosaic = partOfMosaic(whole, part);
  const { width, height, at } = mosaic;
  const work = new Stages(mosaic, balance);
  const { gain, pedestal } = levelsOf(mosaic);
  const offset = pedestal + 0.5;
  const row = new Float32Array(width);
  for (let y = 0; y < height; y++) {
    const green = work.finalGreen(y);
    const start = ((at[1] + y) * whole.width + at[0]) * 3;
    for (let x = 0; x < width; x++) out[start + 3 * x + 1] = clamp(green[x] * gain + offset);
    for (const colour of [0, 2] as const) {
      const scale = gain / balance[colour];
      work.finalDifference(y, colour, row);
      for (let x = 0; x < width; x++) out[start + 3 * x + colour] = clamp((green[x] + row[x]) * scale + offset);
    }
  }
  return out;
}

/** To a 16-bit number; the half for rounding is already added. */
function clamp(value: number): number {
  return value < 0 ? 0 : value > 65535 ? 65535 : value | 0;
}

/** A place outside the picture is answered by the site one block further in: it has the same filter. */
function inside(i: number, length: number): number {
  if (i < 0) return i + PERIOD;
  return i < length ? i : i - PERIOD;
}

/** The last rows of one stage, each continued on both sides by a block. */
class Ring {
  readonly data: Float32Array;
  readonly #stride: number;
  readonly #width: number;
  readonly #height: number;
  #made = -1;

  constructor({ width, height }: Mosaic) {
    this.#width = width;
    this.#height = height;
    this.#stride = width + 2 * PERIOD;
    this.data = new Float32Array(this.#stride * ROWS_KEPT);
  }

  /** Index in `data` of column 0 of row y, which may lie a little outside the picture. */
  at(y: number): number {
    return (inside(y, this.#height) & (ROWS_KEPT - 1)) * this.#stride + PERIOD;
  }

  row(y: number): Float32Array {
    return this.data.subarray(this.at(y), this.at(y) + this.#width);
  }

  /** Makes all rows up to the last that a look at row y ± REACH may touch; at the top that is a block further down. */
  prepareAround(y: number, make: (row: number) => void): void {
    const last = Math.min(this.#height - 1, Math.max(y + REACH, y < REACH ? PERIOD - 1 : 0));
    while (this.#made < last) make(++this.#made);
  }

  /** Fills the continuations of row y. */
  continueSides(y: number): void {
    const start = this.at(y);
    for (let i = 1; i <= PERIOD; i++) {
      this.data[start - i] = this.data[start + inside(-i, this.#width)];
      const beyond = this.#width - 1 + i;
      this.data[start + beyond] = this.data[start + inside(beyond, this.#width)];
    }
  }
}

type Colour = 0 | 2;

class Stages {
  readonly #mosaic: Mosaic;
  readonly #balance: readonly number[];
  readonly #same: number;
  readonly #distances: readonly (GreenDistances | undefined)[];
  readonly #taps: Readonly<Record<Colour, readonly (readonly Tap[])[]>>;
  readonly #recorded: Ring;
  /** Green and recorded colour less green: first made, then made again. */
  readonly #first: { readonly green: Ring; readonly difference: Ring };
  readonly #again: { readonly green: Ring; readonly difference: Ring };
  /** Differences of both colours at green sites, from the first green. */
  readonly #spread: Readonly<Record<Colour, Ring>>;

  constructor(mosaic: Mosaic, balance: readonly number[]) {
    this.#mosaic = mosaic;
    this.#balance = balance;
    this.#same = RANGE_TOLERANCE * (mosaic.white - Math.max(...mosaic.black));
    this.#distances = greenDistances(mosaic.colours);
    this.#taps = { 0: colourTaps(mosaic.colours, 0), 2: colourTaps(mosaic.colours, 2) };
    const ring = () => new Ring(mosaic);
    this.#recorded = ring();
    this.#first = { green: ring(), difference: ring() };
    this.#again = { green: ring(), difference: ring() };
    this.#spread = { 0: ring(), 2: ring() };
  }

  finalGreen(y: number): Float32Array {
    this.#again.green.prepareAround(y, (row) => this.#greenAgain(row));
    return this.#again.green.row(y);
  }

  /** Differences of one colour at every site of row y; call `finalGreen` for the row first. */
  finalDifference(y: number, colour: Colour, row: Float32Array): void {
    for (let phase = 0; phase < PERIOD; phase++) this.#spreadPhase(this.#again, colour, y, phase, row, 0);
  }

  #load(y: number): void {
    const { width, stride, left, top, data, colours, black } = this.#mosaic;
    const row = this.#recorded.row(y);
    const from = (top + y) * stride + left;
    for (let phase = 0; phase < PERIOD; phase++) {
      const site = (y % PERIOD) * PERIOD + phase;
      const level = black[site];
      const factor = this.#balance[colours[site]];
      for (let x = phase; x < width; x += PERIOD) row[x] = (data[from + x] - level) * factor;
    }
    this.#recorded.continueSides(y);
  }

  #greenFirst(y: number): void {
    this.#recorded.prepareAround(y, (row) => this.#load(row));
    this.#greenRow(y, this.#first, undefined);
  }

  #greenAgain(y: number): void {
    this.#spread[0].prepareAround(y, (row) => this.#spreadFirst(row));
    this.#greenRow(y, this.#again, this.#spread);
  }

  /** Differences of both colours at the green sites of row y. */
  #spreadFirst(y: number): void {
    this.#first.green.prepareAround(y, (row) => this.#greenFirst(row));
    for (const colour of [0, 2] as const) {
      const ring = this.#spread[colour];
      for (let phase = 0; phase < PERIOD; phase++)
        if (this.#mosaic.colours[(y % PERIOD) * PERIOD + phase] === 1)
          this.#spreadPhase(this.#first, colour, y, phase, ring.data, ring.at(y));
      ring.continueSides(y);
    }
  }

  #greenRow(
    y: number,
    into: { green: Ring; difference: Ring },
    spread: Readonly<Record<Colour, Ring>> | undefined,
  ): void {
    for (let phase = 0; phase < PERIOD; phase++) {
      const site = (y % PERIOD) * PERIOD + phase;
      const distances = this.#distances[site];
      const colour = this.#mosaic.colours[site];
      if (!distances) this.#copyGreen(y, phase, into.green);
      else this.#greenPhase(y, phase, distances, into, spread?.[colour as Colour]);
    }
    into.green.continueSides(y);
    into.difference.continueSides(y);
  }

  #copyGreen(y: number, phase: number, green: Ring): void {
    const from = this.#recorded.at(y);
    const to = green.at(y);
    for (let x = phase; x < this.#mosaic.width; x += PERIOD) green.data[to + x] = this.#recorded.data[from + x];
  }

  /** Green at every sixth site of a row, between the nearest green sites each way. */
  #greenPhase(
    y: number,
    phase: number,
    { left, right, up, down }: GreenDistances,
    into: { green: Ring; difference: Ring },
    spread: Ring | undefined,
  ): void {
    const recorded = this.#recorded.data;
    const here = this.#recorded.at(y);
    const above = this.#recorded.at(y - up);
    const below = this.#recorded.at(y + down);
    const to = into.green.at(y);
    const shareLeft = right / (left + right);
    const shareUp = down / (up + down);
    const across1 = 1 / (left + right);
    const down1 = 1 / (up + down);
    for (let x = phase; x < this.#mosaic.width; x += PERIOD) {
      const own = recorded[here + x];
      const l = recorded[here + x - left];
      const r = recorded[here + x + right];
      const u = recorded[above + x];
      const d = recorded[below + x];
      let along = r + (l - r) * shareLeft;
      let across = d + (u - d) * shareUp;
      let roughAlong = Math.abs(l - r) * across1;
      let roughAcross = Math.abs(u - d) * down1;
      if (spread) {
        // Rows of a spread ring lie where those of the recorded one do: same width, same rows kept.
        const difference = spread.data;
        const dl = difference[here + x - left];
        const dr = difference[here + x + right];
        const du = difference[above + x];
        const dd = difference[below + x];
        const detailAlong = own - (dr + (dl - dr) * shareLeft) - along;
        const detailAcross = own - (dd + (du - dd) * shareUp) - across;
        along += detailAlong * SHARE;
        across += detailAcross * SHARE;
        roughAlong += Math.abs(detailAlong);
        roughAcross += Math.abs(detailAcross);
      }
      const weightAlong = roughAcross * roughAcross + SMOOTH;
      const weightAcross = roughAlong * roughAlong + SMOOTH;
      const value = (along * weightAlong + across * weightAcross) / (weightAlong + weightAcross);
      into.green.data[to + x] = value;
      into.difference.data[to + x] = own - value;
    }
  }

  /**
   * One colour's difference to green at every sixth site of row y: the mean of its neighbours', those first whose
   * green is like the site's own.
   */
  #spreadPhase(
    from: { green: Ring; difference: Ring },
    colour: Colour,
    y: number,
    phase: number,
    target: Float32Array,
    targetAt: number,
  ): void {
    const { width } = this.#mosaic;
    const taps = this.#taps[colour][(y % PERIOD) * PERIOD + phase];
    const green = from.green.data;
    const difference = from.difference.data;
    const here = from.green.at(y);
    const places = Int32Array.from(taps, ({ dy, dx }) => from.green.at(y + dy) + dx);
    const shares = Float64Array.from(taps, (tap) => tap.weight);
    for (let x = phase; x < width; x += PERIOD) {
      const own = green[here + x];
      const same = this.#same + (own > 0 ? own * SITE_TOLERANCE : 0);
      let sum = 0;
      let total = 0;
      for (let t = 0; t < shares.length; t++) {
        const place = places[t] + x;
        const weight = shares[t] / (Math.abs(green[place] - own) + same);
        sum += weight * difference[place];
        total += weight;
      }
      target[targetAt + x] = sum / total;
    }
  }
}
