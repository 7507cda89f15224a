/**
 * Which kind of film scans show: colour negative, black-and-white negative or slide. Silver is one substance, so its
 * three densities go together; a masked negative's thinnest parts are orange; a slide's are clear, and it is denser.
 */
import type { Film, Rgb } from "../types.ts";
import { type Blocks, densitiesAbove, quantile, sortedChannel } from "./blocks.ts";
import { MASK, RAW } from "./table.ts";

export interface KindEvidence {
  /** Rms distance of red and blue from a parabola in green, over the standard deviation of green. */
  readonly colourfulness: number;
  /** Red and blue of the thinnest parts over green, D. */
  readonly mask: readonly [red: number, blue: number];
  /** Green from its 1st to its 99th percentile, D. */
  readonly span: number;
  /** Part of the blocks that lie near the neutrals of masked film, and near equal densities. */
  readonly nearAxis: readonly [masked: number, clear: number];
}

export interface FilmKind {
  readonly film: Film;
  /** Probability that it is this kind, 0 … 1. */
  readonly certainty: number;
  readonly evidence: KindEvidence;
}

export interface KindOptions {
  /** What the blocks are measured against: a blank, the raw signal with what a neutral light gives, or a display file. */
  readonly against: "blank" | "raw" | "display";
  /** Signal that an even white light gives the camera, any scale; where there is no blank. */
  readonly white?: Rgb;
}

/** How a feature lies for a kind: mean and standard deviation. */
type Gaussian = readonly [mean: number, spread: number];

interface KindModel {
  readonly film: Film;
  readonly chance: number;
  /** ln of colourfulness. */
  readonly colourfulness: Gaussian;
  readonly span: Gaussian;
  /** Red and blue of the thinnest parts over green. */
  readonly mask: readonly [Gaussian, Gaussian];
}

const SLIDE_CHANCE = 0.15;

/**
 * Measured on the witness's films and on published ones (docs/automatic-start.md): black-and-white film 0.02 (blocks of
 * noisy scans up to 0.05), colour 0.15 and more; slides span 2.5 to 3.7 D, negatives up to 1.6 D. The thinnest parts of
 * a negative are shadows near its base, those of a slide highlights that may have any colour.
 */
// oxfmt-ignore
const MODELS: readonly KindModel[] = [
  { film: "colour-negative", chance: 0.6, colourfulness: [Math.log(0.45), 0.55], span: [1, 0.4], mask: [[-0.24, 0.08], [0.2, 0.1]] },
  { film: "black-and-white-negative", chance: 0.25, colourfulness: [Math.log(0.02), 0.4], span: [1, 0.45], mask: [[0, 0.08], [0.02, 0.08]] },
  { film: "slide", chance: SLIDE_CHANCE, colourfulness: [Math.log(0.3), 0.6], span: [2.5, 0.6], mask: [[0, 0.3], [0.05, 0.3]] },
];

/**
 * A slide of grey things alone (snow, fog, a street at night): as colourless as silver, its highlights as grey, and known by
 * its span alone. One subject of ten is so; every further frame makes it less likely that all are.
 */
const GREY_SLIDE: KindModel = {
  film: "slide",
  chance: 0.1,
  colourfulness: [Math.log(0.05), 0.5],
  span: [2.5, 0.6],
  mask: [
    [0, 0.1],
    [0, 0.1],
  ],
};

/** The models for a number of frames. */
function modelsFor(frames: number): readonly KindModel[] {
  const grey = GREY_SLIDE.chance ** frames;
  return [
    ...MODELS.map((model) => (model.film === "slide" ? { ...model, chance: model.chance * (1 - grey) } : model)),
    { ...GREY_SLIDE, chance: SLIDE_CHANCE * grey },
  ];
}

const LIGHT_SPREAD = { blank: 0, raw: 0.13, display: 0.16 } as const;
/** Part of the blocks that is near an axis by chance. */
const CHANCE_SHARE = 0.04;
/** Least that blocks away from equal densities leave of silver: some developers stain the film. */
const MIN_SILVER = 0.01;
/** No feature rules a kind out by more than this factor: film that is unlike all of these exists. */
const MIN_LIKELIHOOD = 1e-4;

/** @param frames blocks of the pictures, or of the middles of the scans */
export function filmKindOf(frames: readonly Blocks[], options: KindOptions): FilmKind {
  const evidence = evidenceOf(frames, options.white);
  const spread = options.white || options.against !== "raw" ? LIGHT_SPREAD[options.against] : 0.25;
  const scores = { "colour-negative": 0, "black-and-white-negative": 0, slide: 0 };
  for (const model of modelsFor(frames.length)) {
    const [red, blue] = model.mask;
    let p = model.chance;
    p *= gaussian(Math.log(Math.max(1e-3, evidence.colourfulness)), model.colourfulness, 0);
    p *= gaussian(evidence.span, model.span, options.against === "display" ? 0.3 : 0);
    p *= gaussian(evidence.mask[0], red, spread) * gaussian(evidence.mask[1], blue, spread);
    // Greys of masked film lie far from equal densities; where the light is not known, nothing is near anything.
    if (options.against === "blank") {
      const [sameKind, otherKind] =
        model.film === "colour-negative" ? evidence.nearAxis : evidence.nearAxis.toReversed();
      p *= ((sameKind + CHANCE_SHARE) / (otherKind + CHANCE_SHARE)) ** 2;
      // Silver is grey all over, up to a stain; a slide of little colour is so in part.
      if (model.film === "black-and-white-negative") p *= Math.max(MIN_SILVER, evidence.nearAxis[1] ** 8);
    }
    scores[model.film] += p;
  }
  const total = Object.values(scores).reduce((a, b) => a + b, 0);
  const [film, best] = (Object.entries(scores) as [Film, number][]).reduce((a, b) => (b[1] > a[1] ? b : a));
  return { film, certainty: total > 0 ? best / total : 0, evidence };
}

function gaussian(x: number, [mean, spread]: Gaussian, more: number): number {
  if (!Number.isFinite(x)) return 1;
  const s = Math.hypot(spread, more);
  return Math.max(MIN_LIKELIHOOD, Math.exp(-0.5 * ((x - mean) / s) ** 2)) / s;
}

function evidenceOf(frames: readonly Blocks[], white: Rgb = [1, 1, 1]): KindEvidence {
  const base: Rgb = [-Math.log10(white[0] / white[1]), 0, -Math.log10(white[2] / white[1])];
  const densities = frames.map((f) => densitiesAbove(f, base));
  const [red, green, blue] = [0, 1, 2].map((c) => sortedChannel(densities, c));
  const thin = [red, green, blue].map((v) => quantile(v, 0.01));
  return {
    colourfulness: Math.max(...[0, 2].map((c) => offParabola(densities, c))),
    mask: [thin[0] - thin[1], thin[2] - thin[1]],
    span: quantile(green, 0.99) - thin[1],
    nearAxis: [nearAxis(densities, true), nearAxis(densities, false)],
  };
}

/** Standard deviation about an axis, D: bases, lights and greys differ by so much. */
const AXIS_SPREAD = 0.08;

/** Mean closeness of blocks to neutrals: red and blue against green of masked film (table.ts), or equal densities. */
function nearAxis(frames: readonly Float32Array[], masked: boolean): number {
  let [sum, n] = [0, 0];
  for (const f of frames)
    for (let i = 0; i < f.length; i += 3) {
      const [r, g, b] = [f[i], f[i + 1], f[i + 2]];
      if (!Number.isFinite(r + g + b)) continue;
      const aboveMask = Math.max(0, g - MASK.mean[1]);
      const red = masked ? MASK.mean[0] + RED_SLOPE * aboveMask : g;
      const blue = masked ? MASK.mean[2] + BLUE_SLOPE * aboveMask : g;
      const thin = masked ? Math.min(0, g - MASK.mean[1] + AXIS_SPREAD) : 0;
      sum += Math.exp((-0.5 * ((r - red) ** 2 + (b - blue) ** 2 + thin ** 2)) / AXIS_SPREAD ** 2);
      n++;
    }
  return n ? sum / n : 0;
}

const AT_ONE = RAW.green.indexOf(1);
const [RED_SLOPE, BLUE_SLOPE] = [RAW.red[AT_ONE], RAW.blue[AT_ONE]];

/** Rms distance of a channel from the parabola in green that fits it best, over green's standard deviation. */
function offParabola(frames: readonly Float32Array[], channel: number): number {
  let n = 0;
  const s = [0, 0, 0, 0, 0];
  const t = [0, 0, 0];
  let yy = 0;
  for (const f of frames)
    for (let i = 0; i < f.length; i += 3) {
      const [x, y] = [f[i + 1], f[i + channel]];
      if (!Number.isFinite(x + y)) continue;
      n++;
      let p = 1;
      for (let k = 0; k < 5; k++, p *= x) {
        s[k] += p;
        if (k < 3) t[k] += p * y;
      }
      yy += y * y;
    }
  const variance = s[2] / n - (s[1] / n) ** 2;
  if (n < 10 || !(variance > 1e-6)) return NaN;
  const [[a, b, c], rank] = solveThree([s[0], s[1], s[2], s[3], s[4]], t);
  if (!rank) return NaN;
  const residual = yy - a * t[0] - b * t[1] - c * t[2];
  return Math.sqrt(Math.max(0, residual / n) / variance);
}

/** Normal equations of a parabola by Cramer's rule; false where there are fewer than three densities. */
function solveThree([s0, s1, s2, s3, s4]: readonly number[], [t0, t1, t2]: readonly number[]): [number[], boolean] {
  const det = s0 * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s3 * s2) + s2 * (s1 * s3 - s2 * s2);
  if (!(Math.abs(det) > 1e-9 * s0 ** 3)) return [[0, 0, 0], false];
  const a = t0 * (s2 * s4 - s3 * s3) - s1 * (t1 * s4 - s3 * t2) + s2 * (t1 * s3 - s2 * t2);
  const b = s0 * (t1 * s4 - t2 * s3) - t0 * (s1 * s4 - s3 * s2) + s2 * (s1 * t2 - t1 * s2);
  const c = s0 * (s2 * t2 - s3 * t1) - s1 * (s1 * t2 - t1 * s2) + t0 * (s1 * s3 - s2 * s2);
  return [[a / det, b / det, c / det], true];
}
