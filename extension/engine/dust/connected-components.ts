/** Connected groups of pixels that are darker than their surroundings. */

import { type Centreline, lineOf } from "./centreline.ts";

/** A group: its pixels' places in the plane, and the rectangle around them. */
export interface Component {
  readonly pixels: readonly number[];
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Highest value in it, and where. */
  readonly peak: number;
  readonly peakAt: number;
  /** Of a hair or a scratch. */
  readonly centreline?: Centreline;
}

export interface Levels {
  /** The least of all high levels. */
  readonly lowest: number;
  /** A group begins at a pixel above `high` and takes in its neighbours above `low`; both at a place of the plane. */
  high(place: number): number;
  low(place: number): number;
}

/** A larger group is no speck; following it further would cost time alone. */
const MAX_PIXELS = 3000;
/** A power of two above that. */
const RANKS = 4096;
/** The bits of a 32-bit float that no number exceeds. */
const INFINITE = 0x7f800000;
/** A group's pixels reach down to this part of its peak. */
const FOOT_LEVEL = 0.5;
/** Two peaks are two groups where the highest way from one to the other falls below this part of the lower one. */
const SADDLE = 0.75;

/**
 * Groups of pixels above their levels; those that grow beyond a speck's size are left out. The highest peaks come
 * first, so that a speck is not swallowed by a faint thing that it lies on, and groups that only touch are parted.
 */
export function components(values: Float32Array, width: number, height: number, levels: Levels): Component[] {
  const taken = new Uint8Array(values.length);
  // One more than the basin that a place belongs to while its group is parted.
  const basinOf = new Uint16Array(values.length);
  const found: Component[] = [];
  for (const peakAt of peaksOf(values, width, height, levels)) {
    if (taken[peakAt]) continue;
    const pixels = grow(
      values,
      width,
      height,
      peakAt,
      Math.max(levels.low(peakAt), FOOT_LEVEL * values[peakAt]),
      taken,
    );
    if (pixels.length > MAX_PIXELS) continue;
    const centreline = lineOf(pixels, width);
    if (centreline) found.push({ ...describe(values, width, pixels), centreline });
    else for (const part of parted(values, width, height, pixels, basinOf)) found.push(describe(values, width, part));
  }
  return found;
}

/** Places that no neighbour exceeds and that reach their high level, the highest first. */
function peaksOf(values: Float32Array, width: number, height: number, levels: Levels): number[] {
  const { lowest } = levels;
  const peaks: number[] = [];
  for (let y = 1; y < height - 1; y++)
    for (let p = y * width + 1; p < (y + 1) * width - 1; p++) {
      const v = values[p];
      // Nearly all pixels are told here.
      if (
        v < lowest ||
        v === 0 ||
        v < values[p - 1] ||
        v < values[p + 1] ||
        v < values[p - width] ||
        v < values[p + width]
      )
        continue;
      if (v < values[p - width - 1] || v < values[p - width + 1]) continue;
      if (v < values[p + width - 1] || v < values[p + width + 1] || v < levels.high(p)) continue;
      peaks.push(p);
    }
  return peaks.sort((a, b) => values[b] - values[a] || a - b);
}

/** A place's neighbours as steps along the plane: of `all` eight those that do not leave it. */
function stepsFrom(p: number, width: number, height: number, all: readonly number[]): readonly number[] {
  const x = p % width;
  if (x > 0 && x < width - 1 && p >= width && p < width * (height - 1)) return all;
  return all.filter((step) => {
    const q = p + step;
    return q >= 0 && q < width * height && Math.abs((q % width) - x) <= 1;
  });
}

const stepsOf = (width: number): number[] => [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];

/** A peak's surroundings down to a floor; stops soon after it has become too large. */
function grow(
  values: Float32Array,
  width: number,
  height: number,
  peakAt: number,
  floor: number,
  taken: Uint8Array,
): number[] {
  const all = stepsOf(width);
  const pixels = [peakAt];
  taken[peakAt] = 1;
  for (let k = 0; k < pixels.length && k <= MAX_PIXELS; k++) {
    const steps = stepsFrom(pixels[k], width, height, all);
    for (let s = 0; s < steps.length; s++) {
      const q = pixels[k] + steps[s];
      if (taken[q] || values[q] < floor) continue;
      taken[q] = 1;
      pixels.push(q);
    }
  }
  return pixels;
}

/** Parts a group at its saddles: from the highest pixel down, each joins the basin that it touches. */
function parted(
  values: Float32Array,
  width: number,
  height: number,
  pixels: readonly number[],
  basinOf: Uint16Array,
): number[][] {
  const all = stepsOf(width);
  const order = fromHighest(values, pixels);
  /** Basins as chains of pixels, by their turn: the first and the last of each, and which follows. */
  const [first, last]: [number[], number[]] = [[], []];
  const next = new Int16Array(order.length).fill(-1);
  /** The basin that a basin has been joined to, itself at the end of the way. */
  const into: number[] = [];
  const root = (b: number): number => {
    while (into[b] !== b) b = into[b];
    return b;
  };
  const touched = new Int32Array(all.length);
  for (let turn = 0; turn < order.length; turn++) {
    const p = order[turn];
    let held = 0;
    const steps = stepsFrom(p, width, height, all);
    let before = 0;
    for (let s = 0; s < steps.length; s++) {
      const known = basinOf[p + steps[s]];
      if (known === 0 || known === before) continue;
      before = known;
      const basin = root(known - 1);
      let t = 0;
      while (t < held && touched[t] !== basin) t++;
      if (t === held) touched[held++] = basin;
    }
    // Basins are numbered from the highest peak down.
    if (held > 1) touched.subarray(0, held).sort();
    const home = held > 0 ? touched[0] : into.push(into.length) - 1;
    basinOf[p] = home + 1;
    if (held > 0) next[last[home]] = turn;
    else first.push(turn);
    last[home] = turn;
    for (let t = 1; t < held; t++) {
      const other = touched[t];
      if (values[p] < SADDLE * values[order[first[other]]]) continue;
      into[other] = home;
      next[last[home]] = first[other];
      last[home] = last[other];
    }
  }
  for (const p of pixels) basinOf[p] = 0;
  const basins: number[][] = [];
  for (let b = 0; b < into.length; b++) {
    if (into[b] !== b) continue;
    const basin: number[] = [];
    for (let turn = first[b]; turn >= 0; turn = next[turn]) basin.push(order[turn]);
    basins.push(basin);
  }
  return basins;
}

/** A group's pixels from the highest value down, equal ones in the plane's order. */
function fromHighest(values: Float32Array, pixels: readonly number[]): Int32Array {
  const places = Int32Array.from(pixels).sort();
  const levels = new Float32Array(places.length);
  for (let k = 0; k < places.length; k++) levels[k] = values[places[k]];
  // Bits of positive floats grow with them; with the place's rank they are one number, which sorts without a call each.
  const bits = new Int32Array(levels.buffer);
  const keys = new Float64Array(places.length);
  for (let k = 0; k < keys.length; k++) keys[k] = (INFINITE - bits[k]) * RANKS + k;
  keys.sort();
  const order = new Int32Array(places.length);
  for (let k = 0; k < order.length; k++) order[k] = places[keys[k] - Math.floor(keys[k] / RANKS) * RANKS];
  return order;
}

function describe(values: Float32Array, width: number, pixels: readonly number[]): Component {
  let [x0, y0, x1, y1] = [width, Infinity, 0, 0];
  let peakAt = pixels[0];
  for (const p of pixels) {
    const x = p % width;
    const y = (p - x) / width;
    if (values[p] > values[peakAt]) peakAt = p;
    [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x + 1), Math.max(y1, y + 1)];
  }
  return { pixels, x0, y0, x1, y1, peak: values[peakAt], peakAt };
}
