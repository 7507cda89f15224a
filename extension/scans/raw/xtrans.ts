/**
 * Demosaicing of 6 × 6 (X-Trans) mosaics, in the way of `bayer.ts`: green along and across, blended by smoothness;
 * red and blue from their differences to green. A site's own colour has no neighbour of its kind on its row or column
 * here, so green is made twice: the second time it follows the site's own colour by way of the differences found first.
 *
 * The work runs down the picture in stages, each a few rows ahead of the next, by vectors (xtrans-kernels.ts); only the
 * result is as large as the picture. Rows are kept by their numbers in rings.
 */
import { Allocator, enterArena, type Pass, type WasmArena } from "../../engine/wasm/memory-pool.ts";
import { balanceOf, levelsOf, type Mosaic, newMemory, type Part, partOfMosaic, within } from "./mosaic.ts";
import { greenModule, levelsModule, spreadModule, STEP } from "./xtrans-kernels.ts";
import { colourTaps, type GreenDistances, greenDistances, PERIOD, REACH, type Tap } from "./xtrans-layout.ts";

/** Rows in work: four stages, each two rows ahead, and whole blocks away at the edges. A power of two. */
const ROWS_KEPT = 16;
/** Steps of green up to which neighbours count as the same thing: of the range (of the site: xtrans-kernels.ts). */
const RANGE_TOLERANCE = 0.0013;

/** Bytes from one site of a row's part to the next. */
const SITE = 4;
/** Sites that a part has before its first, which continue it; one is needed. */
const BEFORE = 4;
/** Bytes of a number of 64 bits, and of an address. */
const [NUMBER, ADDRESS] = [8, 4];

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
  const first = (mosaic.at[1] * whole.width + mosaic.at[0]) * 3;
  const work = new Stages(mosaic, balance);
  for (let y = 0; y < mosaic.height; y++) out.set(work.finished(y), first + y * whole.width * 3);
  work.release();
  return out;
}

type Colour = 0 | 2;
const COLOURS = [0, 2] as const;

/** How rows lie in the kernels' memory, all alike: six parts a row, one for each column of the filter block. */
class Layout {
  readonly #width: number;
  readonly #height: number;
  readonly #partBytes: number;

  constructor({ width, height }: Mosaic) {
    this.#width = width;
    this.#height = height;
    this.#partBytes = SITE * (BEFORE + Math.ceil(width / PERIOD) + 2 * STEP);
  }

  get rowBytes(): number {
    return PERIOD * this.#partBytes;
  }

  /** Sites of a row on a column of the block. */
  sites(column: number): number {
    return Math.ceil((this.#width - column) / PERIOD);
  }

  /** Place of the first site on a column, which may lie a little outside the block, in a row that begins at 0. */
  column(column: number): number {
    const block = Math.floor(column / PERIOD);
    return (column - block * PERIOD) * this.#partBytes + SITE * (BEFORE + block);
  }

  /** Place of row y in a ring that begins at 0; the row may lie a little outside the picture. */
  row(y: number): number {
    return (within(y, this.#height, PERIOD) & (ROWS_KEPT - 1)) * this.rowBytes;
  }
}

/** The last rows of one stage. */
class Ring {
  readonly start: number;
  readonly #layout: Layout;
  readonly #height: number;
  #made = -1;

  constructor(layout: Layout, places: Allocator, height: number) {
    this.#layout = layout;
    this.#height = height;
    this.start = places.take(ROWS_KEPT * layout.rowBytes);
  }

  /** Address of the first site of row y on a column; both may lie a little outside. */
  at(y: number, column: number): number {
    return this.start + this.#layout.row(y) + this.#layout.column(column);
  }

  /** Makes all rows up to the last that a look at row y ± REACH may touch; at the top that is a block further down. */
  prepareAround(y: number, make: (row: number) => void): void {
    const last = Math.min(this.#height - 1, Math.max(y + REACH, y < REACH ? PERIOD - 1 : 0));
    while (this.#made < last) make(++this.#made);
  }
}

/** Green, and recorded colour less green. */
interface GreenRings {
  readonly green: Ring;
  readonly difference: Ring;
}

/** How a colour's difference to green spreads to a site. */
interface Spread {
  readonly taps: readonly Tap[];
  readonly kernel: Pass;
}

class Stages {
  readonly #mosaic: Mosaic;
  readonly #balance: readonly number[];
  readonly #layout: Layout;
  readonly #distances: readonly (GreenDistances | undefined)[];
  /** For each colour and site of the block: the neighbours that its difference to green is made of. */
  readonly #spreads: Readonly<Record<Colour, readonly Spread[]>>;
  readonly #recorded: Ring;
  /** Green as it is made first, and again. */
  readonly #first: GreenRings;
  readonly #again: GreenRings;
  /** Differences of both colours at green sites, from the first green. */
  readonly #spread: Readonly<Record<Colour, Ring>>;
  /** Differences of both colours on the row that is finished: addresses of rows. */
  readonly #last: Readonly<Record<Colour, number>>;
  readonly #arena: WasmArena;
  readonly #memory: Float32Array;
  readonly #target: Uint16Array;
  /** Addresses of the kernels' constants and tables. */
  readonly #between: readonly number[];
  readonly #table: number;
  readonly #factors: number;
  readonly #addresses: Uint32Array;
  readonly #greenFirstTime: Pass;
  readonly #greenSecondTime: Pass;
  readonly #levels: Pass;

  constructor(mosaic: Mosaic, balance: readonly number[]) {
    const { width, height, colours } = mosaic;
    this.#mosaic = mosaic;
    this.#balance = balance;
    this.#layout = new Layout(mosaic);
    this.#distances = greenDistances(colours);
    const places = new Allocator();
    const ring = () => new Ring(this.#layout, places, height);
    this.#recorded = ring();
    this.#first = { green: ring(), difference: ring() };
    this.#again = { green: ring(), difference: ring() };
    this.#spread = { 0: ring(), 2: ring() };
    this.#last = { 0: places.take(this.#layout.rowBytes), 2: places.take(this.#layout.rowBytes) };
    this.#between = colours.map(() => places.take(4 * NUMBER));
    const neighbours = (2 * REACH + 1) ** 2;
    this.#table = places.take(NUMBER + neighbours * ADDRESS);
    this.#factors = places.take(4 * NUMBER);
    // The kernels write whole steps of blocks.
    const target = places.take(2 * 3 * (width + (STEP + 1) * PERIOD));
    this.#arena = enterArena(places.end);
    const { buffer } = this.#arena.memory;
    this.#memory = new Float32Array(buffer);
    this.#target = new Uint16Array(buffer, target, 3 * width);
    this.#addresses = new Uint32Array(buffer, this.#table + NUMBER, neighbours);
    this.#writeConstants();
    this.#spreads = { 0: this.#spreadsOf(0), 2: this.#spreadsOf(2) };
    this.#greenFirstTime = this.#arena.kernel("xtrans green", () => greenModule(false));
    this.#greenSecondTime = this.#arena.kernel("xtrans green again", () => greenModule(true));
    this.#levels = this.#arena.kernel("xtrans levels", levelsModule);
  }

  release(): void {
    this.#arena.release();
  }

  #spreadsOf(colour: Colour): Spread[] {
    return colourTaps(this.#mosaic.colours, colour).map((taps) => {
      const shares = taps.map(({ weight }) => weight);
      return { taps, kernel: this.#arena.kernel(`xtrans spread ${shares.join()}`, () => spreadModule(shares)) };
    });
  }

  #writeConstants(): void {
    const { white, black } = this.#mosaic;
    const put = (at: number, numbers: readonly number[]) =>
      new Float64Array(this.#arena.memory.buffer, at, numbers.length).set(numbers);
    this.#distances.forEach((distances, site) => {
      if (!distances) return;
      const { left, right, up, down } = distances;
      put(this.#between[site], [right / (left + right), down / (up + down), 1 / (left + right), 1 / (up + down)]);
    });
    put(this.#table, [RANGE_TOLERANCE * (white - Math.max(...black))]);
    const { gain, pedestal } = levelsOf(this.#mosaic);
    put(this.#factors, [gain / this.#balance[0], gain, gain / this.#balance[2], pedestal + 0.5]);
  }

  /** Row y, interleaved; it stands until the next one. Rows are asked for in their order. */
  finished(y: number): Uint16Array {
    const { green, difference } = this.#again;
    green.prepareAround(y, (row) => this.#greenAgain(row));
    const target = this.#target.byteOffset;
    for (let column = 0; column < PERIOD; column++) {
      const differences = COLOURS.map((colour) => {
        if (this.#colourAt(y, column) === colour) return difference.at(y, column);
        const at = this.#last[colour] + this.#layout.column(column);
        this.#spreadColumn(this.#again, colour, y, column, at);
        return at;
      });
      const from = green.at(y, column);
      const end = from + SITE * this.#layout.sites(column);
      this.#levels(from, differences[0], differences[1], target + 2 * 3 * column, end, this.#factors);
    }
    return this.#target;
  }

  #siteAt(y: number, column: number): number {
    return (y % PERIOD) * PERIOD + column;
  }

  #colourAt(y: number, column: number): number {
    return this.#mosaic.colours[this.#siteAt(y, column)];
  }

  #load(y: number): void {
    const { width, stride, left, top, data, colours, black } = this.#mosaic;
    const from = (top + y) * stride + left;
    for (let column = 0; column < PERIOD; column++) {
      const site = this.#siteAt(y, column);
      const level = black[site];
      const factor = this.#balance[colours[site]];
      let to = this.#recorded.at(y, column) / SITE;
      for (let x = column; x < width; x += PERIOD) this.#memory[to++] = (data[from + x] - level) * factor;
    }
    this.#continueSides(this.#recorded, y);
  }

  /** Continues the parts of a row beyond both ends: there the site one block further in answers. */
  #continueSides(ring: Ring, y: number): void {
    for (let column = 0; column < PERIOD; column++) {
      const first = ring.at(y, column) / SITE;
      const behind = first + this.#layout.sites(column);
      this.#memory[first - 1] = this.#memory[first];
      this.#memory[behind] = this.#memory[behind - 1];
    }
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
    for (const colour of COLOURS) {
      const ring = this.#spread[colour];
      for (let column = 0; column < PERIOD; column++)
        if (this.#colourAt(y, column) === 1) this.#spreadColumn(this.#first, colour, y, column, ring.at(y, column));
      this.#continueSides(ring, y);
    }
  }

  #greenRow(y: number, into: GreenRings, spread: Readonly<Record<Colour, Ring>> | undefined): void {
    for (let column = 0; column < PERIOD; column++) {
      const distances = this.#distances[this.#siteAt(y, column)];
      if (distances) this.#greenColumn(y, column, distances, into, spread?.[this.#colourAt(y, column) as Colour]);
      else {
        const from = this.#recorded.at(y, column) / SITE;
        this.#memory.copyWithin(into.green.at(y, column) / SITE, from, from + this.#layout.sites(column));
      }
    }
    this.#continueSides(into.green, y);
    this.#continueSides(into.difference, y);
  }

  /** Green at one column's sites of a row, between the nearest green sites each way. */
  #greenColumn(
    y: number,
    column: number,
    { left, right, up, down }: GreenDistances,
    { green, difference }: GreenRings,
    spread: Ring | undefined,
  ): void {
    const around = (ring: Ring): [number, number, number, number] => [
      ring.at(y, column - left),
      ring.at(y, column + right),
      ring.at(y - up, column),
      ring.at(y + down, column),
    ];
    const own = this.#recorded.at(y, column);
    const [l, r, u, d] = around(this.#recorded);
    const to = [green.at(y, column), difference.at(y, column)] as const;
    const end = own + SITE * this.#layout.sites(column);
    const constants = this.#between[this.#siteAt(y, column)];
    if (!spread) return this.#greenFirstTime(own, l, r, u, d, ...to, end, constants);
    this.#greenSecondTime(own, l, r, u, d, ...around(spread), ...to, end, constants);
  }

  /** One colour's difference to green at one column's sites of row y, from its neighbours. */
  #spreadColumn({ green, difference }: GreenRings, colour: Colour, y: number, column: number, target: number): void {
    const { taps, kernel } = this.#spreads[colour][this.#siteAt(y, column)];
    for (let k = 0; k < taps.length; k++) this.#addresses[k] = green.at(y + taps[k].dy, column + taps[k].dx);
    const end = target + SITE * this.#layout.sites(column);
    kernel(green.at(y, column), target, end, this.#table, difference.start - green.start);
  }
}
