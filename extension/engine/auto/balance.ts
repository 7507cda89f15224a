/**
 * The first balance of a roll: one filtration for all its frames, and an exposure for each. Base and curve alone bring
 * greys near grey; what the pictures show may correct that, but cautiously: a forest is green because it is a forest.
 */
import { bisquareCentre } from "./bisquare-centre.ts";
import { exposureError, type LightPrior, type Tones } from "./exposure/exposure-estimate.ts";
import { sameSubjects } from "./exposure/same-subject.ts";
import { MID_GREY } from "../colour/density.ts";
import { evaluator } from "../film/reference-pixel.ts";
import type { DownsampledScan } from "../detect/downsampled-scan.ts";
import type { Area, FrameLook, Rgb } from "../types.ts";

/** A picture as a coarse grid of means: log10 exposure of film above mid-grey, per channel and as luminance. */
export interface FrameTones {
  /** Red, green, blue interleaved, before the colour matrix: here a grey is three equal numbers. */
  readonly film: Float32Array;
  /** Luminance after the colour matrix. */
  readonly luminance: Float32Array;
}

const COLUMNS = 60;
const ROWS = 40;
/** The border of a picture is left out: an edge placed a little off must not count as a tone. */
const BORDER = 0.03;

/** Transmittance of a picture's squares: COLUMNS × ROWS means, red, green, blue interleaved. */
export type PictureSample = Float32Array;

/** Averages the squares of a picture, borders left out. */
export function sampleOf(downsampled: DownsampledScan, area: Area): PictureSample {
  const place = placeOf(downsampled, area);
  const sample = new Float32Array(COLUMNS * ROWS * 3);
  const inside = (k: number, n: number): number => BORDER + ((1 - 2 * BORDER) * (k + 0.5)) / n;
  for (let r = 0, i = 0; r < ROWS; r++)
    for (let q = 0; q < COLUMNS; q++, i += 3)
      sample.set(meanAt(downsampled, place(inside(q, COLUMNS), inside(r, ROWS))), i);
  return sample;
}

/** Takes a sample through the film's look, at exposure 0 and the look's filtration. */
export function tonesOf(sample: PictureSample, look: FrameLook): FrameTones {
  const read = evaluator({ ...look, exposure: 0, saturation: 1 }, "srgb");
  const film = new Float32Array(sample.length);
  const luminance = new Float32Array(sample.length / 3);
  for (let i = 0; i < luminance.length; i++) {
    const reading = read([sample[i * 3], sample[i * 3 + 1], sample[i * 3 + 2]]);
    film.set(reading.logExposure, i * 3);
    const [red, green, blue] = reading.exposure;
    luminance[i] = Math.log10(Math.max(1e-4, 0.2126 * red + 0.7152 * green + 0.0722 * blue) / MID_GREY);
  }
  return { film, luminance };
}

type Box = readonly [x: number, y: number, half: number];

function placeOf({ width, height }: DownsampledScan, area: Area): (u: number, v: number) => Box {
  const angle = (area.tilt * Math.PI) / 180;
  const [wide, high] = [area.width * width, area.height * height];
  const half = Math.max(1, Math.floor(Math.min(wide / COLUMNS, high / ROWS) / 2));
  return (u, v) => {
    const [p, q] = [(u - 0.5) * wide, (v - 0.5) * high];
    return [
      (area.left + area.width / 2) * width + Math.cos(angle) * p - Math.sin(angle) * q,
      (area.top + area.height / 2) * height + Math.sin(angle) * p + Math.cos(angle) * q,
      half,
    ];
  };
}

function meanAt({ width, height, t }: DownsampledScan, [x, y, half]: Box): Rgb {
  const sum = [0, 0, 0];
  let n = 0;
  for (let j = Math.max(0, Math.round(y) - half); j < Math.min(height, Math.round(y) + half); j++)
    for (let i = Math.max(0, Math.round(x) - half); i < Math.min(width, Math.round(x) + half); i++, n++)
      for (let c = 0; c < 3; c++) sum[c] += t[(j * width + i) * 3 + c];
  return n === 0 ? [NaN, NaN, NaN] : [sum[0] / n, sum[1] / n, sum[2] / n];
}

/** What a frame says of the roll's balance. */
interface CastEstimate {
  /** log10 red over green and blue over green of what is nearly grey. */
  readonly cast: readonly [number, number];
  /** Part of the picture that is nearly grey. */
  readonly support: number;
  /** The same of the whole picture, whatever its colour. */
  readonly mean: readonly [number, number];
}

/** Tones outside are toe and shoulder, where a small error of density is a large one of exposure. */
const MIN_TONE = -1.1;
const MAX_TONE = 1.6;
/** What differs more than this from grey (half a stop) is a colour and no grey with a cast. */
const MAX_GREY_CHROMA = 0.15;

function castOf({ film }: FrameTones): CastEstimate {
  const casts: [number, number][] = [];
  for (let i = 0; i < film.length; i += 3)
    if (film[i + 1] > MIN_TONE && film[i + 1] < MAX_TONE)
      casts.push([film[i] - film[i + 1], film[i + 2] - film[i + 1]]);
  // Begun at grey: colours drop out by themselves.
  const { at, weight } = bisquareCentre(casts, [0, 0], MAX_GREY_CHROMA, 12);
  const mean = [0, 1].map((k) => casts.reduce((s, c) => s + c[k], 0) / Math.max(1, casts.length));
  return { cast: at, support: weight / (film.length / 3), mean: [mean[0], mean[1]] };
}

/** A roll's balance. */
export interface RollBalance {
  /** CC units, to be added to those that the look has. */
  readonly filtration: { readonly cyan: number; readonly magenta: number; readonly yellow: number };
  /** What the pictures alone would have asked for, in the same units, and how much of it was followed, 0 … 1. */
  readonly fromPictures: { readonly cyan: number; readonly yellow: number };
  readonly followed: number;
  /** Stops for each frame. */
  readonly exposure: readonly number[];
}

/** How far a roll's balance lies from what base and curve say (log10 exposure, one standard deviation): the prior. */
const ROLL_SPREAD = 0.03;
/** How far the greyish parts of a whole roll may be off grey because of its subjects alone: alike, and varied, ones. */
const SUBJECT_SPREAD_SAME = 0.1;
const SUBJECT_SPREAD_VARIED = 0.02;
/** Frames whose mean colours differ by this much (log10) are varied subjects. */
const VARIETY = 0.09;

/**
 * @param tones of the roll's frames, in order
 * @param look of the roll: its film, and the slopes that filtration acts through
 */
export function balanceRoll(tones: readonly FrameTones[], look: FrameLook): RollBalance {
  const exposure = look.film === "slide" ? tones.map(() => 0) : brightnessOf(tones, look.film === "colour-negative");
  if (look.film !== "colour-negative" || tones.length === 0)
    return {
      filtration: { cyan: 0, magenta: 0, yellow: 0 },
      fromPictures: { cyan: 0, yellow: 0 },
      followed: 0,
      exposure,
    };
  const estimates = tones.map(castOf);
  const weights = estimates.map((h) => Math.min(1, h.support / 0.25));
  const total = weights.reduce((a, b) => a + b, 0);
  const cast = [0, 1].map((k) => estimates.reduce((s, h, i) => s + weights[i] * h.cast[k], 0) / Math.max(total, 1e-9));
  const about = (pick: (h: CastEstimate) => readonly [number, number]): number => {
    const mean = [0, 1].map((k) => estimates.reduce((s, h) => s + pick(h)[k], 0) / estimates.length);
    return Math.sqrt(
      estimates.reduce((s, h) => s + (pick(h)[0] - mean[0]) ** 2 + (pick(h)[1] - mean[1]) ** 2, 0) / estimates.length,
    );
  };
  const variety = estimates.length > 2 ? Math.min(1, about((h) => h.mean) / VARIETY) : 0;
  const subject = SUBJECT_SPREAD_SAME + (SUBJECT_SPREAD_VARIED - SUBJECT_SPREAD_SAME) * variety;
  const sampling =
    Math.max(
      0.02,
      about((h) => h.cast),
    ) **
      2 /
    Math.max(0.5, total);
  const followed = ROLL_SPREAD ** 2 / (ROLL_SPREAD ** 2 + subject ** 2 + sampling);
  const slope = slopesOf(look);
  // More density is more light: what is too red needs less density in red.
  const fromPictures = { cyan: -100 * cast[0] * slope[0], yellow: -100 * cast[1] * slope[2] };
  const half = (v: number): number => Math.round(2 * v) / 2 + 0;
  return {
    filtration: { cyan: half(followed * fromPictures.cyan), magenta: 0, yellow: half(followed * fromPictures.yellow) },
    fromPictures,
    followed,
    exposure,
  };
}

/** dD / dlog H at mid-grey, per channel. */
function slopesOf(look: FrameLook): Rgb {
  const { curve, gamma } = look;
  if (!curve) return gamma;
  const { logH } = curve;
  const mid = curve.mid ?? logH[logH.length >> 1];
  const at = Math.min(
    logH.length - 2,
    Math.max(
      1,
      logH.findIndex((h) => h >= mid),
    ),
  );
  const slope = (d: readonly number[]): number =>
    Math.max(0.1, (d[at + 1] - d[at - 1]) / (logH[at + 1] - logH[at - 1]));
  return [slope(curve.red), slope(curve.green), slope(curve.blue)];
}

/** A frame's mean, its lightest and darkest tones and its colour; lamps and glints count in none of them. */
function tonesOfFrame({ luminance, film }: FrameTones, coloured: boolean): Tones {
  const byTone = Array.from(luminance, (v, i) => ({ v, w: centreWeight(i) }))
    .filter(({ v }) => Number.isFinite(v))
    .sort((a, b) => a.v - b.v);
  const total = byTone.reduce((s, { w }) => s + w, 0);
  const at = (part: number): number => {
    let sum = 0;
    return byTone.find(({ w }) => (sum += w) >= part * total)?.v ?? NaN;
  };
  const top = at(0.95);
  const mean = byTone.reduce((s, { v, w }) => s + w * 10 ** Math.min(v, top), 0) / total;
  const tones = { middle: Math.log10(mean), light: at(0.97), dark: at(0.05) };
  return coloured ? { ...tones, colour: [medianOverGreen(film, 0), medianOverGreen(film, 2)] } : tones;
}

/** Median of a channel's log exposure above green's. */
function medianOverGreen(film: Float32Array, channel: 0 | 2): number {
  const above = Float32Array.from(
    { length: film.length / 3 },
    (_, i) => film[i * 3 + channel] - film[i * 3 + 1],
  ).sort();
  return above[above.length >> 1];
}

/** Stops that give back what each frame was given too much or too little of, in twentieths of a stop. */
export function brightnessOf(tones: readonly FrameTones[], coloured: boolean, prior?: LightPrior): number[] {
  const same = sameSubjects(tones.map(({ luminance }) => luminance));
  const stops = exposureError(
    tones.map((t) => tonesOfFrame(t, coloured)),
    same,
    prior,
  );
  return stops.map((v) => Math.round(-20 * v) / 20 + 0);
}

/** Twice the weight in the middle as in the corners: what was photographed is seldom at the edge. */
function centreWeight(i: number): number {
  const u = ((i % COLUMNS) + 0.5) / COLUMNS - 0.5;
  const v = (Math.floor(i / COLUMNS) + 0.5) / ROWS - 0.5;
  return 2 - 2 * Math.min(0.5, u * u + v * v);
}
