/**
 * Demosaicing of 6 × 6 (X-Trans) mosaics: green along the smoother of the two directions, then red and blue from
 * their differences to green, averaged over the neighbourhood with weights that fall with distance. Any arrangement
 * of period 6 is handled; nothing here knows the makers' pattern.
 */
import { balanceOf, levelsOf, type Mosaic } from "./mosaic.ts";

const PERIOD = 6;
/** Farthest neighbour looked at, in sites. */
const REACH = 2;
/** Rows kept in work: from y − 2 to y + 5, whole blocks away at the edges. */
const KEPT = 16;
const SMOOTH = 1;

/** A neighbour: its place relative to the site, and its share. */
interface Tap {
  readonly dy: number;
  readonly dx: number;
  readonly weight: number;
}

/** Interleaved RGB of the mosaic's picture part; recorded numbers are kept exactly. */
export function demosaicXTrans(mosaic: Mosaic): Uint16Array {
  const { width, height } = mosaic;
  const out = new Uint16Array(width * height * 3);
  const balance = balanceOf(mosaic);
  const rows = new Rows(mosaic, balance);
  const plans = [0, 2].map((colour) => ({ colour, taps: differenceTaps(mosaic.colours, colour) }));
  const { gain, pedestal } = levelsOf(mosaic);
  const offset = pedestal + 0.5;
  for (let y = 0; y < height; y++) {
    rows.prepare(y);
    const green = rows.green(y);
    for (let x = 0; x < width; x++) out[(y * width + x) * 3 + 1] = clamp(green[x + PERIOD] * gain + offset);
    for (const { colour, taps } of plans) {
      const scale = gain / balance[colour];
      for (let phase = 0; phase < PERIOD; phase++) {
        const list = taps[(y % PERIOD) * PERIOD + phase];
        const from = list.map(({ dy }) => rows.difference(y + dy));
        const shift = Int32Array.from(list, ({ dx }) => dx + PERIOD);
        const weight = Float64Array.from(list, (tap) => tap.weight);
        for (let x = phase; x < width; x += PERIOD) {
          let sum = green[x + PERIOD];
          for (let t = 0; t < weight.length; t++) sum += weight[t] * from[t][x + shift[t]];
          out[(y * width + x) * 3 + colour] = clamp(sum * scale + offset);
        }
      }
    }
  }
  return out;
}

/** A place outside the picture is answered by the site one block further in: it has the same filter. */
function inside(i: number, length: number): number {
  if (i < 0) return i + PERIOD;
  return i < length ? i : i - PERIOD;
}

class Rows {
  readonly #mosaic: Mosaic;
  readonly #balance: readonly number[];
  readonly #directions: readonly (Directions | undefined)[];
  readonly #recorded: readonly Float32Array[];
  readonly #green: readonly Float32Array[];
  readonly #difference: readonly Float32Array[];
  #loaded = -1;
  #greened = -1;

  constructor(mosaic: Mosaic, balance: readonly number[]) {
    this.#mosaic = mosaic;
    this.#balance = balance;
    this.#directions = greenDirections(mosaic.colours);
    const ring = () => Array.from({ length: KEPT }, () => new Float32Array(mosaic.width + 2 * PERIOD));
    this.#recorded = ring();
    this.#green = ring();
    this.#difference = ring();
  }

  green(y: number): Float32Array {
    return this.#green[inside(y, this.#mosaic.height) & (KEPT - 1)];
  }

  /** Recorded colour less green, at red and blue sites. */
  difference(y: number): Float32Array {
    return this.#difference[inside(y, this.#mosaic.height) & (KEPT - 1)];
  }

  /** Makes green and differences of all rows that row y looks at. The top rows look one block further down. */
  prepare(y: number): void {
    const last = Math.min(this.#mosaic.height - 1, y < REACH ? PERIOD - 1 : y + REACH);
    while (this.#greened < last) {
      const row = ++this.#greened;
      this.#loadTo(Math.min(this.#mosaic.height - 1, row < REACH ? PERIOD - 1 : row + REACH));
      this.#interpolateGreen(row);
    }
  }

  #row(y: number): Float32Array {
    return this.#recorded[inside(y, this.#mosaic.height) & (KEPT - 1)];
  }

  #loadTo(last: number): void {
    const { width, stride, left, top, data, colours, black } = this.#mosaic;
    while (this.#loaded < last) {
      const y = ++this.#loaded;
      const row = this.#row(y);
      const from = (top + y) * stride + left;
      const block = (y % PERIOD) * PERIOD;
      for (let phase = 0; phase < PERIOD; phase++) {
        const level = black[block + phase];
        const factor = this.#balance[colours[block + phase]];
        for (let x = phase; x < width; x += PERIOD) row[x + PERIOD] = (data[from + x] - level) * factor;
      }
      continueRow(row, width);
    }
  }

  #interpolateGreen(y: number): void {
    const { width } = this.#mosaic;
    const row = this.#row(y);
    const green = this.green(y);
    const difference = this.difference(y);
    for (let phase = 0; phase < PERIOD; phase++) {
      const directions = this.#directions[(y % PERIOD) * PERIOD + phase];
      if (!directions) {
        for (let i = phase + PERIOD; i < width + PERIOD; i += PERIOD) green[i] = row[i];
        continue;
      }
      const { left, right, up, down } = directions;
      const upper = this.#row(y - up);
      const lower = this.#row(y + down);
      for (let i = phase + PERIOD; i < width + PERIOD; i += PERIOD) {
        const l = row[i - left];
        const r = row[i + right];
        const u = upper[i];
        const d = lower[i];
        const along = (l * right + r * left) / (left + right);
        const across = (u * down + d * up) / (up + down);
        const roughAlong = (l - r) / (left + right);
        const roughAcross = (u - d) / (up + down);
        const weightAlong = roughAcross * roughAcross + SMOOTH;
        const weightAcross = roughAlong * roughAlong + SMOOTH;
        const value = (along * weightAlong + across * weightAcross) / (weightAlong + weightAcross);
        green[i] = value;
        difference[i] = row[i] - value;
      }
    }
    continueRow(green, width);
    continueRow(difference, width);
  }
}

function continueRow(row: Float32Array, width: number): void {
  for (let i = 1; i <= PERIOD; i++) {
    row[PERIOD - i] = row[PERIOD + inside(-i, width)];
    row[PERIOD + width - 1 + i] = row[PERIOD + inside(width - 1 + i, width)];
  }
}

/** Distance to the nearest green site each way. */
interface Directions {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
}

function colourAt(colours: readonly number[], y: number, x: number): number {
  return colours[((y + PERIOD) % PERIOD) * PERIOD + ((x + PERIOD) % PERIOD)];
}

/** For every site of the block that is not green. */
function greenDirections(colours: readonly number[]): (Directions | undefined)[] {
  return colours.map((colour, site) => {
    if (colour === 1) return undefined;
    const y = Math.floor(site / PERIOD);
    const x = site % PERIOD;
    const distance = (dy: number, dx: number) => {
      for (let step = 1; step <= REACH; step++) if (colourAt(colours, y + dy * step, x + dx * step) === 1) return step;
      throw new Error("This filter arrangement has a site without green within two sites.");
    };
    return { left: distance(0, -1), right: distance(0, 1), up: distance(-1, 0), down: distance(1, 0) };
  });
}

/** For every site of the block, the neighbours of `wanted` colour that its difference to green is made of. */
function differenceTaps(colours: readonly number[], wanted: number): Tap[][] {
  return colours.map((colour, site) => {
    if (colour === wanted) return [{ dy: 0, dx: 0, weight: 1 }];
    const y = Math.floor(site / PERIOD);
    const x = site % PERIOD;
    const taps: Tap[] = [];
    for (let dy = -REACH; dy <= REACH; dy++)
      for (let dx = -REACH; dx <= REACH; dx++)
        if (colourAt(colours, y + dy, x + dx) === wanted) taps.push({ dy, dx, weight: 1 / (dy * dy + dx * dx) ** 2 });
    const total = taps.reduce((sum, tap) => sum + tap.weight, 0);
    return taps.map((tap) => ({ ...tap, weight: tap.weight / total }));
  });
}

function clamp(value: number): number {
  return value < 0 ? 0 : value > 65535 ? 65535 : value | 0;
}
