/**
 * Demosaicing of 2 × 2 (Bayer) mosaics. Chosen by measurement on simulated scans of film; the table of candidates
 * is in docs/decisions/demosaic.md.
 *
 * Green first, along and across, each corrected by the curvature of the site's own colour (after Hamilton and Adams,
 * 1997) and kept between its neighbours; the two are blended by how smooth each direction is instead of switched, so
 * that grain does not turn into mazes. Red and blue follow from their differences to green. All of it on numbers
 * balanced to one level, because film's orange base leaves blue far weaker than red.
 *
 * The work runs down the picture over a few rows at a time, by vectors (bayer-kernels.ts); only the result is as large
 * as the picture.
 */
import { Allocator, enterArena, type Pass, type WasmArena } from "../../engine/wasm/memory-pool.ts";
import { greenModule, halvesModule, rowModule, STEP } from "./bayer-kernels.ts";
import { balanceOf, levelsOf, type Mosaic, newMemory, type Part, partOfMosaic } from "./mosaic.ts";

/** Columns that rows are continued by on both sides, mirrored, so that no loop needs to ask for the edge. */
const PAD = 3;
/** Sites that a half row has before its first, for these. */
const BEFORE = 4;
/** Rows kept: green of row y + 1 looks two rows further down, differences one row up. Powers of two. */
const ROWS_KEPT = 8;

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
  const first = (at[1] * whole.width + at[0]) * 3;
  rows.loadTo(Math.min(height - 1, 3));
  rows.greenTo(0);
  for (let y = 0; y < height; y++) {
    rows.loadTo(Math.min(height - 1, y + 3));
    rows.greenTo(Math.min(height - 1, y + 1));
    out.set(rows.finished(y), first + y * whole.width * 3);
  }
  rows.release();
  return out;
}

/** Mirrored at the edges without repeating the edge itself, which keeps each colour on its columns and rows. */
function mirror(i: number, length: number): number {
  if (i < 0) return -i;
  return i < length ? i : 2 * length - 2 - i;
}

/** A row in the kernels' memory: addresses of the first sites of its halves, and the numbers from `BEFORE` sites before. */
interface KeptRow {
  /** Balanced recorded numbers of the even and of the odd columns. */
  readonly recorded: readonly [even: number, odd: number];
  /** At the red or blue sites: green, and the recorded colour less green. */
  readonly green: number;
  readonly difference: number;
}

/** Bytes from one site of a half row to the next. */
const SITE = 4;

class RowsInWork {
  readonly #mosaic: Mosaic;
  readonly #arena: WasmArena;
  readonly #rows: readonly KeptRow[];
  readonly #memory: Float32Array;
  readonly #samples: Uint16Array;
  readonly #target: Uint16Array;
  /** Addresses of the constants of `halvesModule` and of `rowModule`, for even and odd rows. */
  readonly #levels: readonly [number, number];
  readonly #factors: readonly [number, number];
  readonly #halves: Pass;
  readonly #green: Pass;
  readonly #finish: readonly Pass[];
  #loaded = -1;
  #greened = -1;

  constructor(mosaic: Mosaic, balance: readonly [number, number, number]) {
    const { width, colours, black } = mosaic;
    this.#mosaic = mosaic;
    const places = new Allocator();
    const half = (): number => places.take(SITE * (BEFORE + Math.ceil(width / 2) + 2 * STEP)) + SITE * BEFORE;
    this.#rows = Array.from({ length: ROWS_KEPT }, () => ({
      recorded: [half(), half()] as const,
      green: half(),
      difference: half(),
    }));
    const samplesAt = places.take(2 * (width + 2 * STEP));
    const targetAt = places.take(2 * 3 * (width + 2 * STEP));
    this.#levels = [places.take(32), places.take(32)];
    this.#factors = [places.take(32), places.take(32)];
    this.#arena = enterArena(places.end);
    const { buffer } = this.#arena.memory;
    this.#memory = new Float32Array(buffer);
    this.#samples = new Uint16Array(buffer, samplesAt, width);
    this.#target = new Uint16Array(buffer, targetAt, width * 3);
    const { gain, pedestal } = levelsOf(mosaic);
    for (const y of [0, 1]) {
      const { colour } = this.#otherColour(y);
      const sites = [2 * y, 2 * y + 1].flatMap((site) => [black[site], balance[colours[site]]]);
      new Float64Array(buffer, this.#levels[y], 4).set(sites);
      const factors = [gain / balance[colour], gain / balance[2 - colour], gain, pedestal + 0.5];
      new Float64Array(buffer, this.#factors[y], 4).set(factors);
    }
    this.#halves = this.#arena.kernel("bayer halves", halvesModule);
    this.#green = this.#arena.kernel("bayer green", greenModule);
    this.#finish = [0, 1].map((y) => {
      const { colour, column } = this.#otherColour(y);
      return this.#arena.kernel(`bayer row ${column} ${colour}`, () => rowModule(column, colour));
    });
  }

  release(): void {
    this.#arena.release();
  }

  #row(y: number): KeptRow {
    return this.#rows[mirror(y, this.#mosaic.height) & (ROWS_KEPT - 1)];
  }

  /** Which colour row y has besides green, and on which columns: even (0) or odd (1). */
  #otherColour(y: number): { colour: 0 | 2; column: 0 | 1 } {
    const [first, second] = this.#mosaic.colours.slice((y % 2) * 2, (y % 2) * 2 + 2);
    return first === 1 ? { colour: second as 0 | 2, column: 1 } : { colour: first as 0 | 2, column: 0 };
  }

  loadTo(last: number): void {
    const { width, stride, left, top, data } = this.#mosaic;
    while (this.#loaded < last) {
      const y = ++this.#loaded;
      const { recorded } = this.#row(y);
      const from = (top + y) * stride + left;
      this.#samples.set(data.subarray(from, from + width));
      const [even, odd] = recorded;
      this.#halves(this.#samples.byteOffset, even, odd, even + SITE * Math.ceil(width / 2), this.#levels[y % 2]);
      this.#continue(even, 0);
      this.#continue(odd, 1);
    }
  }

  greenTo(last: number): void {
    while (this.#greened < last) {
      const y = ++this.#greened;
      const { column } = this.#otherColour(y);
      const { recorded, green, difference } = this.#row(y);
      const site = recorded[column];
      // Left of an even site lies the odd one of the pair before.
      const left = recorded[1 - column] - (column === 0 ? SITE : 0);
      const [above, below, above2, below2] = [-1, 1, -2, 2].map((dy) => this.#row(y + dy).recorded[column]);
      const end = site + SITE * this.#sites(column);
      this.#green(site, left, above, below, above2, below2, green, difference, end);
      this.#continue(difference, column);
    }
  }

  /** Row y, interleaved; it stands until the next one. */
  finished(y: number): Uint16Array {
    const { column } = this.#otherColour(y);
    const { recorded, green, difference } = this.#row(y);
    const [above, below] = [this.#row(y - 1).difference, this.#row(y + 1).difference];
    const back = column === 0 ? SITE : 0;
    const target = this.#target.byteOffset;
    this.#finish[y % 2](
      green,
      difference,
      recorded[1 - column],
      difference - (SITE - back),
      above - back,
      below - back,
      above,
      below,
      target,
      target + 2 * this.#target.length,
      this.#factors[y % 2],
    );
    return this.#target;
  }

  /** Sites in a half row. */
  #sites(column: 0 | 1): number {
    return (this.#mosaic.width + 1 - column) >> 1;
  }

  /** Continues a half row beyond both ends. */
  #continue(half: number, column: 0 | 1): void {
    const { width } = this.#mosaic;
    const first = half / SITE;
    for (let i = 1; i <= PAD; i++)
      for (const x of [-i, width - 1 + i])
        if ((x & 1) === column) this.#memory[first + (x >> 1)] = this.#memory[first + (mirror(x, width) >> 1)];
  }
}
