/** One picture of three scans, each under one narrow-band light that gives its channel. */
import { clamp } from "../math/clamp.ts";
import type { LinearScan } from "../types.ts";
import { align, type Alignment, noDisplacement } from "./align.ts";
import type { Displacement } from "./displacement.ts";
import { type LogPlane, logPlanes } from "./log-planes.ts";
import { rowResampler } from "./resample-row.ts";

/** A scan's samples of one colour, to be one channel of a picture. */
export interface ChannelPlane {
  readonly plane: LinearScan;
  /** 0 red, 1 green, 2 blue. */
  readonly channel: 0 | 1 | 2;
  /** What its signals are multiplied by, so that all channels are in the same units of light. */
  readonly gain: number;
  /** Where a pixel of the picture lies on it; absent where it sets the axes. */
  readonly displacement?: Displacement;
}

/** The picture's black, and its highest sample: noise around zero keeps its room. */
const [BLACK, TOP] = [512, 64_000];
/** Rows between two looks at whether the work is still wanted. */
const CHECK_ROWS = 64;

/** Correlation below which two scans show different pictures: colours set channels of one picture apart. */
const MIN_AGREEMENT = 0.25;
/** Pixels that a displacement may be unsure by: a picture without detail shows none, and needs none. */
const MAX_UNCERTAINTY = 0.5;
/**
 * A scan's longer side in pixels from which cells of 2 × 2 are compared: single samples of one colour hold the pattern of
 * the mosaic, which stands still and draws edges to whole pixels.
 */
const LARGE = 900;
/** Standard deviation, in stops at 256 pixels, below which a scan shows nothing. */
const EVEN = 0.03;
/** Standard deviation, in stops, of detail that counts half as much as strong edges do: as faint as noise is. */
const FAINT = 0.06;
/** Pixels to each side over which tones are levelled before edges are compared. */
const REACH = 6;

/**
 * The photosites of one colour as a scan of one channel. Under a narrow-band light the others see the same light
 * weaker, and the ends of its band more: they would add little signal and some crosstalk (docs/decisions/three-colour.md).
 * A monochrome scan is its own plane.
 */
export function planeOf(scan: LinearScan, channel: 0 | 1 | 2): LinearScan {
  if (scan.channels === 1) return scan;
  const { width, height, black, scale } = scan;
  const data = new Uint16Array(width * height);
  for (let i = 0, k: number = channel; i < data.length; i++, k += 3) data[i] = scan.data[k]!;
  return { width, height, channels: 1, data, black, scale };
}

/** How a plane lies on the picture; why it is not of it. */
export type PlaneReading = Pick<Alignment, "displacement" | "uncertainty"> | "size" | "picture";

/**
 * Lays planes on the one that sets the axes, whose logarithms are computed once. Edges are compared and not tones: those of
 * coloured things differ from light to light.
 */
export function planeAligner(first: LinearScan): (plane: LinearScan) => PlaneReading {
  const size = { width: first.width, height: first.height };
  const tones = logPlanes(first, LARGE);
  const edges = tones.map(edgesOf);
  return (plane) => {
    if (plane.width !== size.width || plane.height !== size.height) return "size";
    const own = logPlanes(plane, LARGE);
    const [coarse, ownCoarse] = [tones.at(-1)!, own.at(-1)!];
    const found = align(edges, own.map(edgesOf), size, { upright: true });
    const agreement = Math.max(
      found?.agreement ?? 0,
      align([coarse], [ownCoarse], size, { upright: true })?.agreement ?? 0,
    );
    const still = { displacement: noDisplacement(size), uncertainty: Infinity };
    if (agreement < MIN_AGREEMENT) return isEven(coarse) && isEven(ownCoarse) ? still : "picture";
    return found && found.uncertainty <= MAX_UNCERTAINTY ? found : still;
  };
}

function isEven({ data }: LogPlane): boolean {
  const known = data.filter((v) => !Number.isNaN(v));
  const mean = known.reduce((sum, v) => sum + v, 0) / Math.max(1, known.length);
  return known.reduce((sum, v) => sum + (v - mean) ** 2, 0) <= EVEN ** 2 * known.length;
}

/**
 * A plane without its slow tones and its contrast: each sample less the mean around it, over the standard deviation
 * there. NaN stays, and counts for nothing.
 */
function edgesOf(plane: LogPlane): LogPlane {
  const { width, height, data } = plane;
  const squares = data.map((v) => v * v);
  const [mean, square] = [data, squares].map((values) => meansAround(values, width, height)) as [
    Float32Array,
    Float32Array,
  ];
  const edges = data.map((v, i) => {
    const variance = Math.max(0, square[i]! - mean[i]! ** 2);
    return (v - mean[i]!) / Math.sqrt(variance + FAINT ** 2);
  });
  return { ...plane, data: edges };
}

/** Means of the known samples within REACH. */
function meansAround(values: Float32Array, width: number, height: number): Float32Array {
  const [sums, counts, all, known] = [0, 1, 2, 3].map(() => new Float32Array(values.length)) as [
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  for (let y = 0; y < height; y++)
    alongLine(values, undefined, { from: y * width, step: 1, length: width }, sums, counts);
  for (let x = 0; x < width; x++) alongLine(sums, counts, { from: x, step: width, length: height }, all, known);
  return all.map((sum, i) => sum / known[i]!);
}

interface Line {
  readonly from: number;
  readonly step: number;
  readonly length: number;
}

/** Running sums of a line's known samples within REACH, and of how many there are; `weights` where they are sums already. */
function alongLine(
  values: Float32Array,
  weights: Float32Array | undefined,
  { from, step, length }: Line,
  sums: Float32Array,
  counts: Float32Array,
): void {
  let [sum, count] = [0, 0];
  const add = (i: number, sign: 1 | -1): void => {
    if (i < 0 || i >= length) return;
    const k = from + i * step;
    const value = values[k]!;
    if (Number.isNaN(value)) return;
    sum += sign * value;
    count += sign * (weights ? weights[k]! : 1);
  };
  for (let i = 0; i < REACH; i++) add(i, 1);
  for (let i = 0; i < length; i++) {
    add(i + REACH, 1);
    add(i - REACH - 1, -1);
    sums[from + i * step] = sum;
    counts[from + i * step] = count;
  }
}

/**
 * Composes three planes of one size to a picture. Where a plane does not reach, at the border, its nearest sample counts.
 * @returns signals in units of the plane whose gain is 1
 */
export function composeChannels(planes: readonly ChannelPlane[], checkpoint: () => void): LinearScan {
  const { width, height } = planes[0]!.plane;
  const data = new Uint16Array(width * height * 3);
  const scale = Math.max(...planes.map(({ plane, gain }) => gain * highestOf(plane)), 1e-6) / TOP;
  const row = new Float32Array(width);
  for (const { plane, channel, gain, displacement } of planes) {
    const rows = rowResampler(plane, displacement);
    const by = gain / scale;
    for (let y = 0; y < height; y++) {
      if (y % CHECK_ROWS === 0) checkpoint();
      rows.row(y, row);
      for (let x = 0, o = y * width * 3 + channel; x < width; x++, o += 3) {
        const signal = row[x]!;
        const known = Number.isNaN(signal) ? nearest(plane, rows, x, y) : signal;
        data[o] = clamp(Math.round(BLACK + known * by), 0, 65535);
      }
    }
  }
  return { width, height, channels: 3, data, black: BLACK, scale };
}

function highestOf({ data, black, scale }: LinearScan): number {
  let top = 0;
  for (let i = 0; i < data.length; i++) if (data[i]! > top) top = data[i]!;
  return (top - black) * scale;
}

function nearest(
  { width, height, data, black, scale }: LinearScan,
  rows: ReturnType<typeof rowResampler>,
  x: number,
  y: number,
): number {
  rows.place(x, y);
  const u = clamp(Math.round(rows.at.x), 0, width - 1);
  const v = clamp(Math.round(rows.at.y), 0, height - 1);
  return (data[v * width + u]! - black) * scale;
}
