/** Power spectra of grain in small blocks of even tone. */
import { fft2 } from "../../math/fft.ts";
import type { FilmPlane, PixelBox } from "../../flat-field/film-plane.ts";
import type { SensorNoise } from "../types.ts";

/** Side of a block in pixels of the half-size scan. */
export const BLOCK = 32;
const SIZE = BLOCK * BLOCK;
/** Blocks that are looked at in one place, at most. */
const MAX_BLOCKS = 60;
/** Part of the blocks that is kept: those with least picture in them. */
const KEPT_SHARE = 0.55;
/** Least blocks that make a reading. */
const MIN_BLOCKS = 5;
/** Grain is normally distributed (kurtosis 3); stars, wires and blades of grass make a block's differences heavy-tailed. */
const HEAVY = 3.7;

const signed = (k: number): number => (k > BLOCK / 2 ? k - BLOCK : k) / BLOCK;
/** Frequency of each bin, cycles per pixel, and its distance from 0. */
export const FREQUENCY_X = Float32Array.from({ length: SIZE }, (_, i) => signed(i % BLOCK));
export const FREQUENCY_Y = Float32Array.from({ length: SIZE }, (_, i) => signed(Math.floor(i / BLOCK)));
export const FREQUENCY = FREQUENCY_X.map((u, i) => Math.hypot(u, FREQUENCY_Y[i]));
const bins = (from: number, to: number): number[] =>
  Array.from({ length: SIZE }, (_, i) => i).filter((i) => FREQUENCY[i] >= from && FREQUENCY[i] < to);
const LOW = bins(1.5 / BLOCK, 3.6 / BLOCK);
const MIDDLE = bins(0.14, 0.26);

const HANN = Float64Array.from({ length: BLOCK }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / BLOCK));
/** Makes the mean power of white noise its variance. */
const HANN_POWER = (HANN.reduce((a, v) => a + v * v, 0) / BLOCK) ** 2 * SIZE;

/** Averaged spectrum of ln(signal) of even places. */
export interface GrainSpectrum {
  /** Variance of grain per frequency bin, sensor noise taken off; mean over all bins is the variance per pixel. */
  readonly power: Float32Array;
  /** Expected variance of the sensor's noise, likewise. */
  readonly noise: Float32Array;
  readonly blocks: number;
  /** Lowest over middle frequencies' power, of the blocks that were kept. */
  readonly structure: number;
  /** Mean transmittance of those blocks, flare included. */
  readonly signal: number;
}

interface Block {
  readonly x: number;
  readonly y: number;
  readonly power: Float32Array;
  /** Lowest over middle frequencies' power. */
  readonly structure: number;
  /** Kurtosis of the differences between neighbours. */
  readonly tails: number;
  readonly middle: number;
  readonly signal: number;
}

/** A scan as the grain is read from it. */
export interface GrainPlane extends FilmPlane {
  readonly channel: 0 | 1 | 2;
  /**
   * Flare that was taken off the plane, as a fraction of the bare light. Grain is read with it: it makes all grain of one
   * tone weaker by one factor, which changes no spectrum's form, so that sharpness does not depend on what is known of it.
   */
  readonly flare: number;
}

/** The sensor's noise, and the variance of ln(signal) that it adds at a signal: the transmittance with its flare. */
export interface NoiseModel {
  readonly noise: SensorNoise;
  readonly at: (signal: number) => number;
}

/**
 * Spectrum of the film's grain in a part of the picture, from the blocks that hold least of the picture itself.
 *
 * @param sensor without it no noise is taken off.
 * @returns undefined where there is no even tone.
 */
export function grainSpectrum(plane: GrainPlane, box: PixelBox, sensor?: NoiseModel): GrainSpectrum | undefined {
  const found = blocksOf(plane, box);
  const kept = found
    .toSorted((a, b) => a.structure - b.structure)
    .slice(0, Math.max(MIN_BLOCKS, Math.ceil(found.length * KEPT_SHARE)));
  if (kept.length < MIN_BLOCKS) return undefined;
  const power = new Float32Array(SIZE);
  const expected = new Float32Array(SIZE);
  let weights = 0;
  for (const block of kept) {
    const added = sensor ? sensor.at(block.signal) : 0;
    // Dense tones have more grain: each block counts by its own, so that none outweighs the others.
    const weight = 1 / block.middle;
    weights += weight;
    for (let i = 0; i < SIZE; i++) {
      const n = sensor ? added * sensor.noise.shape[i] : 0;
      power[i] += weight * (block.power[i] - n);
      expected[i] += weight * n;
    }
  }
  for (let i = 0; i < SIZE; i++) {
    power[i] /= weights;
    expected[i] /= weights;
  }
  const meanOf = (of: (block: Block) => number): number => kept.reduce((a, b) => a + of(b), 0) / kept.length;
  const [structure, signal] = [meanOf((b) => b.structure), meanOf((b) => b.signal)];
  return { power, noise: expected, blocks: kept.length, structure, signal };
}

/** Evenly spread blocks of a rectangle; those that hold no light, none of the film or a picture's lines are left out. */
function blocksOf(plane: GrainPlane, box: PixelBox): Block[] {
  const across = Math.floor((box.x1 - box.x0) / BLOCK);
  const down = Math.floor((box.y1 - box.y0) / BLOCK);
  // Blocks overlap by half where there are few.
  const step =
    across * down * 4 <= MAX_BLOCKS ? BLOCK / 2 : BLOCK * Math.max(1, Math.sqrt((across * down) / MAX_BLOCKS));
  const blocks: Block[] = [];
  for (let y = box.y0; y + BLOCK <= box.y1; y += step)
    for (let x = box.x0; x + BLOCK <= box.x1; x += step) {
      const block = blockAt(plane, Math.floor(x), Math.floor(y), HEAVY);
      if (block) blocks.push(block);
    }
  return blocks;
}

/**
 * Spectrum of one block's ln(signal), a plane taken off and the borders faded.
 *
 * @param heaviest kurtosis at which a block is left out.
 */
export function blockAt(
  { width, data, channel, flare }: GrainPlane,
  x0: number,
  y0: number,
  heaviest = Infinity,
): Block | undefined {
  const re = new Float64Array(SIZE);
  let sum = 0;
  let light = 0;
  for (let y = 0, i = 0; y < BLOCK; y++)
    for (let x = 0, k = ((y0 + y) * width + x0) * 3 + channel; x < BLOCK; x++, i++, k += 3) {
      const signal = flare + (1 - flare) * data[k];
      if (!(signal > 1e-4)) return undefined;
      light += signal;
      re[i] = Math.log(signal);
      sum += re[i];
    }
  const tails = kurtosis(re);
  if (!(tails < heaviest)) return undefined;
  fade(re, sum / SIZE);
  const im = new Float64Array(SIZE);
  fft2({ re, im }, BLOCK, BLOCK);
  const power = new Float32Array(SIZE);
  for (let i = 0; i < SIZE; i++) power[i] = (re[i] * re[i] + im[i] * im[i]) / HANN_POWER;
  const of = (list: readonly number[]): number => {
    let all = 0;
    for (let k = 0; k < list.length; k++) all += power[list[k]];
    return all / list.length;
  };
  const mid = of(MIDDLE);
  if (!(mid > 0)) return undefined;
  return { x: x0, y: y0, power, structure: of(LOW) / mid, tails, middle: mid, signal: light / SIZE };
}

/** Takes off the plane that fits best, and fades the borders. */
function fade(values: Float64Array, mean: number): void {
  const middle = (BLOCK - 1) / 2;
  let sx = 0;
  let sy = 0;
  for (let y = 0, i = 0; y < BLOCK; y++)
    for (let x = 0; x < BLOCK; x++, i++) {
      sx += values[i] * (x - middle);
      sy += values[i] * (y - middle);
    }
  const moment = (SIZE * (SIZE / BLOCK / BLOCK) * (BLOCK * BLOCK - 1)) / 12;
  sx /= moment;
  sy /= moment;
  for (let y = 0, i = 0; y < BLOCK; y++)
    for (let x = 0; x < BLOCK; x++, i++)
      values[i] = (values[i] - mean - sx * (x - middle) - sy * (y - middle)) * HANN[x] * HANN[y];
}

/** Of the differences between pixels two apart, along rows and columns: the larger. */
function kurtosis(values: Float64Array): number {
  const along = (step: number, columns: number, rows: number): number => {
    let [two, four] = [0, 0];
    for (let y = 0; y < rows; y++)
      for (let i = y * BLOCK; i < y * BLOCK + columns; i++) {
        const d = values[i + step] - values[i];
        two += d * d;
        four += d * d * (d * d);
      }
    return (four * columns * rows) / (two * two);
  };
  return Math.max(along(2, BLOCK - 2, BLOCK), along(2 * BLOCK, BLOCK, BLOCK - 2));
}
