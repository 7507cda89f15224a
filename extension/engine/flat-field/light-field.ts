/** The light field of a blank: a coarse grid of the bare light's level, which scans are divided by. */
import type { ExposureSettings } from "./exposure.ts";
import { largestBox } from "../math/largest-rectangle.ts";
import { smoothCells } from "./loess.ts";
import type { LinearScan, Rgb } from "../types.ts";

/**
 * The bare light, measured on a blank: a coarse, smooth grid of signal levels. It is stored in fractions of the
 * scan's sides, so a blank of any size serves scans of any size.
 */
export interface LightField {
  readonly columns: number;
  readonly rows: number;
  readonly channels: 1 | 3;
  /** Signal at the cells' centres, row by row, channels interleaved; 1.0 is saturation. Always above 0. */
  readonly level: Float32Array;
  /** Mean signal per channel (three equal numbers for a monochrome scan). */
  readonly mean: Rgb;
  /** How the blank was exposed. */
  readonly exposure: ExposureSettings;
  /** Where a holder hid part of the blank: the largest rectangle of open light, fractions of the sides. */
  readonly opening?: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
}

/** Cells along the longer side: fine enough for vignetting and hot spots, coarse enough to average the noise away. */
const CELLS = 48;
/** Samples per cell and channel that are looked at; more would not change a level by 0.02 %. */
const SAMPLES = 1500;
/** A level below this part of the brightest one is no light; it is held there so that T stays finite. */
const FLOOR = 0.002;
/** No lens and no light falls off to this part of its middle: such cells lie under a holder. */
const MIN_RELATIVE_SIGNAL = 0.25;
/** Fewer open cells than this part of all are no blank with a holder in it, but something else. */
const OPEN = 0.05;
/** Of a cell beside the holder, a strip of this part of its side may be this much darker than the cell. */
const STRIP = 8;
const DARKENED = 0.02;

/**
 * Measures the bare light on a blank. Each cell's level is a mean that leaves out what stands apart from
 * most of the cell, so specks do not enter; the cells are then smoothed by robust local quadratics, so cells that
 * lie wholly under sensor dust do not enter either, and edges and corners are not pulled inwards. Cells under a holder that was
 * left in place, and those beside them, which its soft border darkens, are left out.
 *
 * @throws RangeError when the blank holds no light at all.
 */
export function makeLightField(blank: LinearScan, exposure: ExposureSettings = {}): LightField {
  const { width, height, channels } = blank;
  const long = Math.max(width, height);
  const side = (size: number): number => Math.max(1, Math.min(Math.floor(size / 8), Math.round((CELLS * size) / long)));
  const columns = side(width);
  const rows = side(height);
  const cells = new Float32Array(columns * rows * channels);
  const samples = new Uint16Array(SAMPLES * 4);
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < columns; q++)
      for (let c = 0; c < channels; c++) {
        const x0 = Math.floor((q * width) / columns);
        const x1 = Math.floor(((q + 1) * width) / columns);
        const y0 = Math.floor((r * height) / rows);
        const y1 = Math.floor(((r + 1) * height) / rows);
        const n = gather(blank, c, x0, y0, x1, y1, samples);
        cells[(r * columns + q) * channels + c] = (typical(samples.subarray(0, n)) - blank.black) * blank.scale;
      }
  const open = openCells(cells, columns, rows, channels, (q, r, level) => darkened(blank, columns, rows, q, r, level));
  const level = smoothCells(cells, columns, rows, channels, open);
  const top = level.reduce((a, b) => Math.max(a, b), 0);
  if (!(top > 0)) throw new RangeError("The blank is black: it shows no light to compare the scans with.");
  const sums = [0, 0, 0];
  for (let i = 0; i < level.length; i++) {
    level[i] = Math.max(level[i], top * FLOOR);
    sums[i % channels] += level[i] / (columns * rows);
  }
  const mean: Rgb = channels === 3 ? [sums[0], sums[1], sums[2]] : [sums[0], sums[0], sums[0]];
  const box = open && largestBox(open, columns, rows);
  return {
    columns,
    rows,
    channels,
    level,
    mean,
    exposure,
    ...(box
      ? {
          opening: {
            left: box.left / columns,
            top: box.top / rows,
            width: box.width / columns,
            height: box.height / rows,
          },
        }
      : {}),
  };
}

/** Whether a strip along any side of a cell is darker than the cell: a holder's soft border reaches into it. */
function darkened(s: LinearScan, columns: number, rows: number, q: number, r: number, level: number): boolean {
  const [x0, x1] = [Math.floor((q * s.width) / columns), Math.floor(((q + 1) * s.width) / columns)];
  const [y0, y1] = [Math.floor((r * s.height) / rows), Math.floor(((r + 1) * s.height) / rows)];
  const [dx, dy] = [Math.ceil((x1 - x0) / STRIP), Math.ceil((y1 - y0) / STRIP)];
  const c = s.channels === 3 ? 1 : 0;
  const strips = [
    [x0, y0, x0 + dx, y1],
    [x1 - dx, y0, x1, y1],
    [x0, y0, x1, y0 + dy],
    [x0, y1 - dy, x1, y1],
  ];
  return strips.some(([left, top, right, bottom]) => {
    let sum = 0;
    for (let y = top; y < bottom; y++)
      for (let x = left; x < right; x++) sum += s.data[(y * s.width + x) * s.channels + c];
    return (sum / ((right - left) * (bottom - top)) - s.black) * s.scale < level * (1 - DARKENED);
  });
}

/** 1 for cells that neither lie under a holder nor beside one; undefined where no holder is in view. */
function openCells(
  cells: Float32Array,
  columns: number,
  rows: number,
  channels: number,
  isDarkened: (q: number, r: number, level: number) => boolean,
): Uint8Array | undefined {
  const top = Array.from({ length: channels }, (_, c) => {
    let max = 0;
    for (let i = c; i < cells.length; i += channels) max = Math.max(max, cells[i]);
    return max;
  });
  const hidden = Uint8Array.from({ length: columns * rows }, (_, i) =>
    top.every((max, c) => cells[i * channels + c] < MIN_RELATIVE_SIGNAL * max) ? 1 : 0,
  );
  if (!hidden.includes(1)) return undefined;
  const open = Uint8Array.from(hidden, (_, i) => {
    const [q, r] = [i % columns, Math.floor(i / columns)];
    for (let y = Math.max(0, r - 1); y <= Math.min(rows - 1, r + 1); y++)
      for (let x = Math.max(0, q - 1); x <= Math.min(columns - 1, q + 1); x++)
        if (hidden[y * columns + x])
          return hidden[i] || isDarkened(q, r, cells[i * channels + (channels === 3 ? 1 : 0)]) ? 0 : 1;
    return 1;
  });
  return open.reduce((a, b) => a + b, 0) < OPEN * open.length ? undefined : open;
}

/** Takes an even subset of a cell's samples; returns how many. */
function gather(s: LinearScan, c: number, x0: number, y0: number, x1: number, y1: number, out: Uint16Array): number {
  // An odd step: an even one would see only half of a mosaic's rows and columns.
  let step = 1;
  while (Math.ceil((x1 - x0) / step) * Math.ceil((y1 - y0) / step) > SAMPLES) step += 2;
  let n = 0;
  for (let y = y0; y < y1; y += step)
    for (let x = x0; x < x1; x += step) out[n++] = s.data[(y * s.width + x) * s.channels + c];
  return n;
}

/**
 * Mean of what lies within three standard deviations of the densest half of the samples. Sensor dust can only darken a blank:
 * up to half of a cell may lie under it. Sorts its argument.
 */
function typical(values: Uint16Array): number {
  values.sort();
  const half = values.length >> 1;
  let start = 0;
  for (let i = 1; i + half < values.length; i++)
    if (values[i + half] - values[i] < values[start + half] - values[start]) start = i;
  const low = values[start];
  const high = values[start + half];
  // The densest half of a normal distribution is 1.349 standard deviations wide.
  const reach = Math.max(1, (3 * (high - low)) / 1.349);
  const middle = (low + high) / 2;
  let sum = 0;
  let n = 0;
  for (const v of values)
    if (Math.abs(v - middle) <= reach) {
      sum += v;
      n++;
    }
  return sum / n;
}

/**
 * Weights of the channels for film that has one: the sum of transmittances with least noise. Photon noise makes the
 * variance of T proportional to 1/level, so the best weights are proportional to the level of the bare light.
 */
export function channelWeights(field: LightField): Rgb {
  const [r, g, b] = field.mean;
  const sum = r + g + b;
  return [r / sum, g / sum, b / sum];
}
