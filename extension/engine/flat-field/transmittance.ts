/** Turns samples into transmittance: black level, light field, exposure and flare. */
import { falloffField, type PlacedFalloff } from "./falloff.ts";
import type { LightField } from "./light-field.ts";
import type { LinearScan, Rgb } from "../types.ts";

/** What turns a scan's samples into transmittance. */
export interface LightSetup {
  /** The bare light; absent where the roll has no blank: T is then the scan's own signal. */
  readonly field?: LightField;
  /** What is known of the light's falloff without a blank; does not count beside a field. T stays the scan's own signal. */
  readonly falloff?: PlacedFalloff;
  /** Veiling light as a fraction of the bare light, per channel; counts only with a field. */
  readonly flare?: Rgb;
  /** Exposure of the scan over that of the blank; see `relativeExposure`. */
  readonly ratio: number;
}

/** Reads a scan as transmittance, row by row. */
export interface TransmittanceReader {
  readonly width: number;
  readonly height: number;
  /**
   * Writes T of the pixels `from` … `to - 1` of row `y`, three channels interleaved from the start of `out`
   * (a monochrome scan fills all three). T is 1 for bare light; noise makes values around 0 fall below it.
   */
  row(y: number, out: Float32Array, from?: number, to?: number): void;
}

/** Parts of the height between whose borders the light is a straight line; its error is then below 1e-4. */
const BANDS = 128;

/**
 * T = (s − f·b) / (b − f·b), with s the scan's signal over its relative exposure, b the bare light and f the flare.
 * Rewritten as T = sample · gain − f/(1 − f), so that a pixel costs one multiplication once its row's gains are known.
 */
export function readTransmittance(scan: LinearScan, setup: LightSetup): TransmittanceReader {
  const { width, height, channels, data, black } = scan;
  const { offset, gains } = sampleGains(scan, setup);

  function row(y: number, out: Float32Array, from = 0, to = width): void {
    const { start, slope, at } = gains(y);
    const base = y * width * channels;
    if (channels === 1) {
      for (let x = from, j = 0; x < to; x++, j += 3) {
        const s = (data[base + x] - black) * (start[x] + at * slope[x]);
        out[j] = s - offset[0];
        out[j + 1] = s - offset[1];
        out[j + 2] = s - offset[2];
      }
      return;
    }
    const [o0, o1, o2] = offset;
    const end = to * 3;
    for (let i = from * 3, j = 0, k = base + from * 3; i < end; i += 3, j += 3, k += 3) {
      out[j] = (data[k] - black) * (start[i] + at * slope[i]) - o0;
      out[j + 1] = (data[k + 1] - black) * (start[i + 1] + at * slope[i + 1]) - o1;
      out[j + 2] = (data[k + 2] - black) * (start[i + 2] + at * slope[i + 2]) - o2;
    }
  }
  return { width, height, row };
}

/** Gains of a row: `start + at · slope`, per sample. The arrays keep their contents while `band` is the same. */
export interface Gains {
  readonly start: Float32Array;
  readonly slope: Float32Array;
  readonly band: number;
  readonly at: number;
}

/** T of a sample is (sample − black) · gain − offset. */
export interface SampleGains {
  readonly offset: Rgb;
  readonly gains: (y: number) => Gains;
}

export function sampleGains(
  scan: LinearScan,
  { field, falloff, flare: given = [0, 0, 0], ratio }: LightSetup,
): SampleGains {
  const { width, height, channels } = scan;
  const unit = scan.scale / ratio;
  if (!field && falloff)
    return {
      offset: [0, 0, 0],
      gains: gainRows(falloffField(falloff, width, height), width, height, channels, [0, 0, 0], unit),
    };
  if (!field) {
    const start = new Float32Array(width * channels).fill(unit);
    const flat = { start, slope: new Float32Array(width * channels), band: 0, at: 0 };
    return { offset: [0, 0, 0], gains: () => flat };
  }
  const mean = (given[0] + given[1] + given[2]) / 3;
  const flare: Rgb = channels === 3 ? given : [mean, mean, mean];
  const [r, g, b] = flare;
  return {
    offset: [r / (1 - r), g / (1 - g), b / (1 - b)],
    gains: gainRows(field, width, height, channels, flare, unit),
  };
}

/** Spreads a light field over a scan of `width` × `height`: exact at the borders of bands, straight in between. */
function gainRows(
  field: LightField,
  width: number,
  height: number,
  channels: number,
  flare: readonly number[],
  unit: number,
): (y: number) => Gains {
  const spread = spreadOf(field, width, channels);
  const samples = width * channels;
  const start = new Float32Array(samples);
  const next = new Float32Array(samples);
  const slope = new Float32Array(samples);
  const factor = flare.map((f) => unit / (1 - f));
  const exact = (y: number, out: Float32Array): void => {
    const { first, weights } = cubicAt(((y + 0.5) / height) * field.rows - 0.5);
    const [r0, r1, r2, r3] = [0, 1, 2, 3].map((k) => spread(first + k));
    const [w0, w1, w2, w3] = weights;
    for (let c = 0; c < channels; c++) {
      const f = factor[c];
      for (let i = c; i < samples; i += channels) {
        const level = w0 * r0[i] + w1 * r1[i] + w2 * r2[i] + w3 * r3[i];
        out[i] = f / (level > 1e-6 ? level : 1e-6);
      }
    }
  };
  const size = Math.max(1, Math.ceil(height / BANDS));
  let band = -1;
  return (y) => {
    const wanted = Math.floor(y / size);
    if (wanted !== band) {
      // Rows mostly come in order: the end of the last band is the start of this one.
      if (wanted === band + 1 && band >= 0) start.set(next);
      else exact(wanted * size, start);
      exact((wanted + 1) * size, next);
      for (let i = 0; i < samples; i++) slope[i] = (next[i] - start[i]) / size;
      band = wanted;
    }
    return { start, slope, band, at: y - wanted * size };
  };
}

/** Nodes outside the grid that the outermost columns reach for. */
const BORDER = 2;

type Spread = (row: number) => Float32Array;

/** One scan is read several times under the same light. */
const spreads = new WeakMap<LightField, Map<string, Spread>>();

function spreadOf(field: LightField, width: number, channels: number): Spread {
  const key = `${width} ${channels}`;
  const known = spreads.get(field) ?? new Map<string, Spread>();
  const spread = known.get(key) ?? spreadColumns(field, width, channels);
  spreads.set(field, known.set(key, spread));
  return spread;
}

/** Each row of the field, spread over the scan's columns; rows outside are the straight continuation of the last two. */
function spreadColumns(field: LightField, width: number, channels: number): Spread {
  const { columns, rows, level } = field;
  // The same for every row: where the columns lie between the nodes.
  const first = new Int32Array(width);
  const weights = new Float64Array(width * 4);
  for (let x = 0; x < width; x++) {
    const place = cubicAt(((x + 0.5) / width) * columns - 0.5);
    first[x] = place.first;
    weights.set(place.weights, x * 4);
  }
  // A row's levels in one channel, continued on both sides.
  const nodes = new Float64Array(columns + 2 * BORDER);
  const inner = Array.from({ length: rows }, (_, r) => {
    const out = new Float32Array(width * channels);
    for (let c = 0; c < channels; c++) {
      const from = field.channels === 1 ? 0 : c;
      for (let i = 0; i < nodes.length; i++)
        nodes[i] = continued(i - BORDER, columns, (q) => level[(r * columns + q) * field.channels + from]);
      for (let x = 0, k = 0, at = c; x < width; x++, k += 4, at += channels) {
        const i = first[x] + BORDER;
        out[at] =
          weights[k] * nodes[i] +
          weights[k + 1] * nodes[i + 1] +
          weights[k + 2] * nodes[i + 2] +
          weights[k + 3] * nodes[i + 3];
      }
    }
    return out;
  });
  const outer = new Map<number, Float32Array>();
  return (row) => {
    if (row >= 0 && row < rows) return inner[row];
    const made = outer.get(row) ?? inner[0].map((_, i) => continued(row, rows, (r) => inner[r][i]));
    outer.set(row, made);
    return made;
  };
}

/** A grid value; outside the grid, the straight continuation of the two nearest. */
function continued(i: number, count: number, at: (i: number) => number): number {
  if (count === 1) return at(0);
  if (i < 0) return at(0) + i * (at(1) - at(0));
  if (i >= count) return at(count - 1) + (i - count + 1) * (at(count - 1) - at(count - 2));
  return at(i);
}

/** First node and four weights of cubic interpolation at a position between nodes (Catmull & Rom 1974). */
function cubicAt(position: number): { first: number; weights: [number, number, number, number] } {
  const node = Math.floor(position);
  const t = position - node;
  return {
    first: node - 1,
    weights: [
      ((2 - t) * t - 1) * t * 0.5,
      ((3 * t - 5) * t * t + 2) * 0.5,
      ((4 - 3 * t) * t + 1) * t * 0.5,
      (t - 1) * t * t * 0.5,
    ],
  };
}
