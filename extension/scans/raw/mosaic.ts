/** What a sensor recorded: one number a site, under a repeating block of colour filters. */
import type { ScanRegion } from "../../engine/lens/correct.ts";
import { clamp } from "../../engine/math/clamp.ts";

export interface Mosaic {
  /** Size of the picture part, in sites. */
  readonly width: number;
  readonly height: number;
  /** Rows of `data` have this many sites; the picture part begins at (`left`, `top`). */
  readonly stride: number;
  readonly left: number;
  readonly top: number;
  readonly data: Uint16Array;
  /** Side of the repeating block: 1 without filters and with one black level, 2, or 6 (X-Trans). */
  readonly period: number;
  /** Colour of each site of the block, from the picture part's top left: 0 red, 1 green, 2 blue. */
  readonly colours: readonly number[];
  /** Black level of each site of the block. */
  readonly black: readonly number[];
  /** Saturation level, of all sites. */
  readonly white: number;
  /** No filters: every site saw all light. */
  readonly monochrome: boolean;
}

/** A part of a picture, in whole pixels. */
export type Part = ScanRegion;

/** Pixels at a part's sides that a demosaicing by rows cannot make as it would inside: it has no neighbours there. */
const SIDES = 24;

/**
 * The mosaic of a part and of what is needed around it, in whole blocks of its filters, and where in the whole picture
 * it begins.
 */
export function partOfMosaic(mosaic: Mosaic, part: Part): Mosaic & { readonly at: readonly [x: number, y: number] } {
  const { period, width, height } = mosaic;
  const begin = (from: number): number => Math.max(0, Math.floor((from - SIDES) / period) * period);
  const [x, y] = [begin(part.left), begin(part.top)];
  return {
    ...mosaic,
    left: mosaic.left + x,
    top: mosaic.top + y,
    width: Math.min(width, part.left + part.width + SIDES) - x,
    height: Math.min(height, part.top + part.height + SIDES) - y,
    at: [x, y],
  };
}

/** How recorded numbers become the 16-bit numbers of a scan. */
export interface Levels {
  /** Scan numbers to one recorded number; whole, so that what was recorded is kept exactly. */
  readonly gain: number;
  /** Scan number of black: room for the noise below it. */
  readonly pedestal: number;
  /** Signal of one scan number; 1.0 is the saturation of the site with the highest black level. */
  readonly scale: number;
}

/** A place outside the picture is answered by the site one block further in: it has the same filter. */
export function within(i: number, length: number, period: number): number {
  if (i < 0) return i + period;
  return i < length ? i : i - period;
}

/** Gives memory for so many samples; what it holds may be anything. */
export type SampleMemory = (samples: number) => Uint16Array;

export const newMemory: SampleMemory = (samples) => new Uint16Array(samples);

const MAX = 65535;
/** Wished-for room below black, in scan numbers: 0.8 % of the range. */
const PEDESTAL = 512;

/** Levels for recorded numbers that span `range` from the highest black level to saturation. */
export function levelsFor(range: number): Levels {
  const gain = Math.max(1, Math.floor((MAX - PEDESTAL) / range));
  return { gain, pedestal: Math.max(0, Math.min(PEDESTAL, MAX - range * gain)), scale: 1 / (range * gain) };
}

export function levelsOf(mosaic: Mosaic): Levels {
  return levelsFor(mosaic.white - Math.max(...mosaic.black));
}

/**
 * Factors that bring the three colours to one level before colours are interpolated from one another: a film's
 * orange base makes blue several times weaker than red, and detail then differs in size as well. Mean of the
 * picture's middle, where the frame is; saturated sites do not count. Green is 1.
 */
export function balanceOf(mosaic: Mosaic): readonly [number, number, number] {
  const { width, height, period, colours, black, white } = mosaic;
  const sum = [0, 0, 0];
  const count = [0, 0, 0];
  const step = period * Math.max(1, Math.floor(Math.min(width, height) / (256 * period)));
  const from = (length: number) => Math.floor(length / 4 / period) * period;
  for (let y = from(height); y < height - from(height) - period + 1; y += step)
    for (let x = from(width); x < width - from(width) - period + 1; x += step)
      for (let site = 0; site < period * period; site++) {
        const row = mosaic.top + y + Math.floor(site / period);
        const value = mosaic.data[row * mosaic.stride + mosaic.left + x + (site % period)];
        if (value >= white) continue;
        sum[colours[site]] += value - black[site];
        count[colours[site]]++;
      }
  const mean = sum.map((s, c) => (count[c] ? s / count[c] : 0));
  const factor = (c: number) => (mean[c] > 0 && mean[1] > 0 ? clamp(mean[1] / mean[c], 1 / 16, 16) : 1);
  return [factor(0), 1, factor(2)];
}
