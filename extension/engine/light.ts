import type { ExposureSettings } from "./exposure.ts";
import { smoothCells } from "./light-smoothing.ts";
import type { LinearScan, Rgb } from "./types.ts";

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
}

/** Cells along the longer side: fine enough for vignetting and hot spots, coarse enough to average the noise away. */
const CELLS = 48;
/** Samples per cell and channel that are looked at; more would not change a level by 0.02 %. */
const SAMPLES = 1500;
/** A level below this part of the brightest one is no light (a holder's mask); it is held there so that T stays finite. */
const FLOOR = 0.002;

/**
 * Measures the bare light on a blank. Each cell's level is a mean that leaves out what stands apart from
 * most of the cell, so specks do not enter; the cells are then smoothed by robust local quadratics, so cells that
 * lie wholly under dirt do not enter either, and edges and corners are not pulled inwards.
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
  const level = smoothCells(cells, columns, rows, channels);
  const top = level.reduce((a, b) => Math.max(a, b), 0);
  if (!(top > 0)) throw new RangeError("The blank is black: it shows no light to compare the scans with.");
  const sums = [0, 0, 0];
  for (let i = 0; i < level.length; i++) {
    level[i] = Math.max(level[i], top * FLOOR);
    sums[i % channels] += level[i] / (columns * rows);
  }
  const mean: Rgb = channels === 3 ? [sums[0], sums[1], sums[2]] : [sums[0], sums[0], sums[0]];
  return { columns, rows, channels, level, mean, exposure };
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
 * Mean of what lies within three standard deviations of the densest half of the samples. Dirt can only darken a blank:
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
