/** Edge response by the slanted-edge method (ISO 12233). */
import { spectrumOf } from "../../math/fft.ts";

/** A plane of linear values in which one straight edge, close to upright or close to level, parts two even tones. */
export interface EdgePlane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array | Float64Array;
}

export interface EdgeOptions {
  /** Window over the line spread: "tukey" as ISO 12233:2023 has it, "hamming" as the editions of 2000 and 2014. */
  readonly window?: "tukey" | "hamming";
}

export interface EdgeResponse {
  /** Cycles per pixel, ascending from 0; samples across the edge, so its slant is taken into account. */
  readonly frequency: Float64Array;
  /** Spatial frequency response, 1 at frequency 0. */
  readonly response: Float64Array;
  /** Frequency at which the response falls to 50 %, cycles per pixel; Infinity when it never does. */
  readonly mtf50: number;
  /** Frequency of 10 % over half the sampling frequency, in percent, at most 100. */
  readonly efficiency: number;
  /** Degrees between the edge and the nearest grid direction. */
  readonly angle: number;
  /** Difference of the two tones over their sum. */
  readonly contrast: number;
  /** Where this plane's edge lies against the first plane's, in pixels across the edge: lateral colour. */
  readonly shift: number;
}

/** Bins per pixel in the projection along the edge. */
const FINE = 4;
/** Least contrast and least number of whole grid steps that the edge crosses, below which the reading says nothing. */
const MIN_CONTRAST = 0.1;
const MIN_STEPS = 1;
/** The correction for the three-point difference stops here. */
const MAX_CORRECTION = 10;

/**
 * Spatial frequency response by the slanted-edge method of ISO 12233: the edge is found in every line as the centroid
 * of a windowed difference, a straight line is fitted, all samples are projected along it into bins of a quarter of a
 * pixel, and the transform of the difference of that profile is the response, corrected for the difference itself.
 * Where the standard leaves a choice (bins, windows, an integer number of grid steps) the steps follow P. Burns's
 * published description.
 *
 * @param planes channels of one picture, of one size; the first says how the edge lies and how many rows count.
 * @returns one response a plane; undefined where there is no edge to measure: too little contrast, or not slanted.
 */
export function slantedEdge(planes: readonly EdgePlane[], options: EdgeOptions = {}): EdgeResponse[] | undefined {
  const upright = isUpright(planes[0]) ? planes : planes.map(turned);
  const window = options.window === "hamming" ? hamming : tukey;
  const found = upright.map((plane) => {
    const { left, right } = tones(plane);
    const sign = Math.sign(right - left);
    const contrast = Math.abs(left - right) / Math.max(1e-12, Math.abs(left + right));
    return { plane, sign, contrast, line: fitEdge(plane, sign, window) };
  });
  const { height, width } = upright[0];
  const { slope, start } = found[0].line;
  if (!found.every((f) => f.contrast >= MIN_CONTRAST && Number.isFinite(f.line.slope))) return undefined;
  if (!(Math.abs(slope) * height >= MIN_STEPS)) return undefined;
  // Whole grid steps only, so that every quarter-pixel phase is seen equally often.
  const rows = Math.min(height, Math.round(Math.floor(height * Math.abs(slope)) / Math.abs(slope)));
  const cosine = Math.cos(Math.atan(slope));
  return found.map(({ plane, sign, contrast, line }): EdgeResponse => {
    const response = responseOf(project(plane, rows, line.slope), sign, window, options.window === "hamming");
    const frequency = response.map((_, k) => k / (cosine * width));
    const middle = (height - 1) / 2;
    return {
      frequency,
      response,
      mtf50: crossing(frequency, response, 0.5),
      efficiency: Math.min(100, 200 * crossing(frequency, response, 0.1)),
      angle: (Math.atan(Math.abs(line.slope)) * 180) / Math.PI,
      contrast,
      shift: (line.start + line.slope * middle - (start + slope * middle)) * cosine,
    };
  });
}

/** From a profile across the edge, in quarter pixels, to the response at every multiple of its lowest frequency. */
function responseOf(profile: Float64Array, sign: number, window: Window, byCentroid: boolean): Float64Array {
  const spread = centred(difference(profile, sign), byCentroid);
  const weights = window(spread.length, (spread.length + 1) / 2);
  const half = Math.floor(spread.length / 2) + 1;
  const raw = spectrumOf(
    spread.map((v, i) => v * weights[i]),
    half,
  );
  return Float64Array.from({ length: Math.round(half / 2) }, (_, k) => (raw[k] / raw[0]) * correction(k, half));
}

/** First frequency at which the response is down to `level`, by straight interpolation. */
export function crossing(frequency: ArrayLike<number>, response: ArrayLike<number>, level: number): number {
  for (let k = 1; k < response.length; k++)
    if (response[k] < level) {
      const part = (response[k - 1] - level) / (response[k - 1] - response[k]);
      return frequency[k - 1] + part * (frequency[k] - frequency[k - 1]);
    }
  return Infinity;
}

/** Whether the tone changes more from left to right than from top to bottom. */
function isUpright({ width, height, data }: EdgePlane): boolean {
  const mean = (x0: number, x1: number, y0: number, y1: number): number => {
    let sum = 0;
    for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) sum += data[y * width + x];
    return sum / ((x1 - x0) * (y1 - y0));
  };
  const band = (n: number): number => Math.max(1, Math.floor(n / 8));
  const across = mean(0, band(width), 0, height) - mean(width - band(width), width, 0, height);
  const down = mean(0, width, 0, band(height)) - mean(0, width, height - band(height), height);
  return Math.abs(across) >= Math.abs(down);
}

/** A quarter turn, counter-clockwise: what was right is on top. */
function turned({ width, height, data }: EdgePlane): EdgePlane {
  const out = new Float64Array(data.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) out[(width - 1 - x) * height + y] = data[y * width + x];
  return { width: height, height: width, data: out };
}

function tones({ width, height, data }: EdgePlane): { left: number; right: number } {
  const band = Math.min(5, width);
  let left = 0;
  let right = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < band; x++) {
      left += data[y * width + x];
      right += data[(y + 1) * width - 1 - x];
    }
  return { left, right };
}

/** The edge's place, x in pixels from the first pixel's middle, in rows from the top. */
interface EdgeLine {
  readonly start: number;
  readonly slope: number;
}

type Window = (length: number, middle: number) => Float64Array;

function fitEdge(plane: EdgePlane, sign: number, window: Window): EdgeLine {
  const { width, height, data } = plane;
  const rows = Array.from({ length: height }, (_, y) => {
    const d = new Float64Array(width);
    for (let x = 1; x < width; x++) d[x] = (sign * (data[y * width + x] - data[y * width + x - 1])) / 2;
    d[0] = d[1];
    return d;
  });
  const places = (middleOf: (y: number) => number): Float64Array =>
    Float64Array.from(rows, (row, y) => centroid(row, window(width, middleOf(y))) - 0.5);
  const first = straightLine(places(() => (width + 1) / 2));
  return straightLine(places((y) => first.start + first.slope * (y + 1)));
}

/** Weighted centroid, counting the first sample as 1. */
function centroid(values: Float64Array, weights?: Float64Array): number {
  let sum = 0;
  let moment = 0;
  for (let i = 0; i < values.length; i++) {
    const v = weights ? values[i] * weights[i] : values[i];
    sum += v;
    moment += v * (i + 1);
  }
  return moment / sum;
}

/** Least squares through values at 0, 1, 2 … */
function straightLine(values: Float64Array): EdgeLine {
  const n = values.length;
  const middle = (n - 1) / 2;
  let mean = 0;
  let slope = 0;
  for (let i = 0; i < n; i++) {
    mean += values[i] / n;
    slope += values[i] * (i - middle);
  }
  slope /= (n * (n * n - 1)) / 12;
  return { start: mean - slope * middle, slope };
}

/** Mean of all samples in bins of a quarter pixel across the edge; a bin without samples takes its neighbours' mean. */
function project({ width, data }: EdgePlane, rows: number, slope: number): Float64Array {
  const bins = width * FINE;
  const travel = Math.round(-FINE * (rows - 1) * slope);
  const offset = Math.min(0, travel);
  const reach = Math.abs(travel);
  const sums = new Float64Array(bins + reach + 100);
  const counts = new Float64Array(sums.length);
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < width; x++) {
      const bin = Math.ceil((x - y * slope) * FINE) - offset;
      sums[bin] += data[y * width + x];
      counts[bin]++;
    }
  const start = Math.round(reach / 2);
  const profile = Float64Array.from({ length: bins }, (_, i) => sums[start + i] / counts[start + i]);
  for (let i = 0; i < bins; i++) {
    if (Number.isFinite(profile[i])) continue;
    const before = profile[i - 1] ?? NaN;
    const after = profile.subarray(i + 1).find(Number.isFinite) ?? before;
    profile[i] = Number.isFinite(before) ? (before + after) / 2 : after;
  }
  return profile;
}

/** Central difference, the same length; its first value is its second. */
function difference(values: Float64Array, sign: number): Float64Array {
  const out = new Float64Array(values.length);
  for (let i = 2; i < values.length; i++) out[i] = (sign * (values[i] - values[i - 2])) / 2;
  out[1] = out[2];
  return out;
}

/** Moves the line spread to the middle: its centroid there (the older editions) or its peak. */
function centred(spread: Float64Array, byCentroid: boolean): Float64Array {
  const n = spread.length;
  const peak = byCentroid ? Math.round(centroid(spread)) : 1 + spread.indexOf(spread.reduce((a, b) => Math.max(a, b)));
  const shift = peak - Math.round((n + 1) / 2);
  return Float64Array.from({ length: n }, (_, i) => spread[i + shift] ?? 0);
}

/** Makes up for what the three-point difference takes away at term k. */
function correction(k: number, half: number): number {
  if (k === 0) return 1;
  const phase = (Math.PI * (k + 1)) / (half + 1);
  return Math.min(MAX_CORRECTION, Math.abs(phase / Math.sin(phase)));
}

function hamming(length: number, middle: number): Float64Array {
  const wide = Math.max(middle - 1, length - middle);
  return Float64Array.from({ length }, (_, i) => 0.54 + 0.46 * Math.cos((Math.PI * (i + 1 - middle)) / wide));
}

/** A raised cosine over the whole length, never quite 0. */
function tukey(length: number, middle: number): Float64Array {
  const wide = Math.max(middle - 1, length - middle);
  return Float64Array.from({ length }, (_, i) => {
    const taper = 0.5 + 0.5 * Math.cos((Math.PI * (i + 1 - middle)) / wide);
    return 0.95 * taper + 0.05;
  });
}
