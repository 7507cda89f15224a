/**
 * Contrast of printing paper by its ISO range (ISO 6846): how much density of a negative fits between a paper's first
 * tone and its near black. The range belongs to the whole print curve, so it gives the slope at mid-grey that goes with
 * a toe, a shoulder and a black.
 */
import { quantile } from "../math/statistics.ts";
import { densityOf, MID_GREY } from "../colour/density.ts";
import type { FrameLook, Rgb, ToneLook } from "../types.ts";
import { filmCurve } from "./characteristic-curve.ts";
import { toneCurve } from "./print-curve.ts";

/**
 * ISO ranges by the grades of one published paper, hardest last: classes of ISO 6846:1992 Table 2, worked out from the
 * maker's data sheet as digitised by JanLohse/spectral_film_lut (MIT); tests/reference/films/iso6846_polymax.csv.
 */
export const PAPER_GRADES: readonly { readonly grade: number; readonly range: number }[] = [
  { grade: -1, range: 180 },
  { grade: 0, range: 140 },
  { grade: 1, range: 120 },
  { grade: 2, range: 110 },
  { grade: 3, range: 100 },
  { grade: 4, range: 80 },
  { grade: 5, range: 60 },
];

/** ISO ranges that a recipe may state. */
export const [MIN_RANGE, MAX_RANGE] = [40, 250];

/** The two tones of ISO 6846, clause 6.2: density above the paper's least, and part of the way to its greatest. */
const [FIRST_TONE, NEAR_BLACK] = [0.04, 0.9];

/** Tones further than this from mid-grey, log10 exposure at contrast 1, are nobody's print. */
const FARTHEST = 12;

/**
 * The ISO range that a contrast in a recipe names: "R110", or "grade 2" by the table of grades.
 * @returns undefined for a slope (a number) and for text of another form
 */
export function statedRange(contrast: unknown): number | undefined {
  if (typeof contrast !== "string") return undefined;
  const [, range, grade] = /^(?:R(\d{2,3})|grade (-?\d))$/.exec(contrast) ?? [];
  if (range !== undefined) return Number(range);
  return PAPER_GRADES.find((g) => g.grade === Number(grade))?.range;
}

/** The grade whose ISO range is nearest. */
export function nearestGrade(range: number): (typeof PAPER_GRADES)[number] {
  return PAPER_GRADES.reduce((a, b) =>
    Math.abs(Math.log(b.range / range)) < Math.abs(Math.log(a.range / range)) ? b : a,
  );
}

/**
 * log10 exposure between the two tones of ISO 6846 on a print curve of contrast 1; points of the tone curve are left out,
 * for they are laid over the paper's own curve.
 */
function toneSpan(tone: Omit<ToneLook, "contrast" | "range">): number {
  const curve = toneCurve({ ...tone, contrast: 1, points: [] });
  const density = (logH: number): number => densityOf(curve(MID_GREY * 10 ** logH));
  const darkest = densityOf(curve(0));
  const lightest = densityOf(curve(Infinity));
  const at = (wanted: number): number => {
    let [low, high] = [-FARTHEST, FARTHEST];
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (density(middle) > wanted) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return at(lightest + FIRST_TONE) - at(lightest + NEAR_BLACK * (darkest - lightest));
}

/**
 * Slope of the film's straight part, density per log10 exposure, as the print sees it: green's, which is the only one of
 * black-and-white film. A slide is printed by its light itself.
 */
function printedGamma({ film, gamma, curve }: FilmSlope): number {
  if (film === "slide") return 1;
  const rises = curve && curve.green[curve.green.length - 1]! > curve.green[0]!;
  return rises ? filmCurve(curve.logH, curve.green).gamma : gamma[1];
}

/** What tells the slope of the film. */
type FilmSlope = Pick<FrameLook, "film" | "gamma" | "curve">;

/**
 * A tone with the contrast that a recipe states.
 * @param contrast slope at mid-grey, or a paper's contrast as text (`statedRange`)
 * @throws RangeError where the text names no contrast
 */
export function toneWithContrast(
  look: FilmSlope & { readonly tone: Omit<ToneLook, "contrast" | "range"> },
  contrast: number | string,
): ToneLook {
  const { contrast: _, range: __, ...tone } = look.tone as ToneLook;
  if (typeof contrast === "number") return { ...tone, contrast };
  const range = statedRange(contrast);
  if (range === undefined) throw new RangeError(`"${contrast}" is no contrast. Give a slope, R110 or grade 2.`);
  return { ...tone, contrast: (100 * printedGamma(look) * toneSpan(tone)) / range, range };
}

/** The look with another toe, shoulder or black: a paper's contrast keeps its ISO range. */
export function lookWithTone(look: FrameLook, change: Partial<Omit<ToneLook, "contrast" | "range">>): FrameLook {
  const { contrast, range, ...rest } = look.tone;
  const tone = { ...rest, ...change };
  return { ...look, tone: toneWithContrast({ ...look, tone }, range === undefined ? contrast : `R${range}`) };
}

/** ISO range of a look's print: what density of its negative lies between first tone and near black. */
export function printedRange(look: Pick<FrameLook, "tone"> & FilmSlope): number {
  return (100 * printedGamma(look) * toneSpan(look.tone)) / look.tone.contrast;
}

/** Parts of a picture that are thinner, and denser, than the tones that a print should hold. Our own choice. */
const [THINNEST, DENSEST] = [0.01, 0.99];

/**
 * Density range of a picture on black-and-white film: from its thinnest tones to its densest, one hundredth of the
 * picture left out at either end.
 * @param sample transmittances, red, green, blue interleaved, of squares large enough to average grain
 * @param weights of the channels, summing to 1
 * @returns undefined where no square has a number
 */
export function densityRange(sample: Float32Array, weights: Rgb): number | undefined {
  const densities: number[] = [];
  for (let i = 0; i + 2 < sample.length; i += 3) {
    const t = weights[0] * sample[i]! + weights[1] * sample[i + 1]! + weights[2] * sample[i + 2]!;
    if (t > 0 && Number.isFinite(t)) densities.push(densityOf(t));
  }
  if (densities.length === 0) return undefined;
  const sorted = Float64Array.from(densities).sort();
  return quantile(sorted, DENSEST) - quantile(sorted, THINNEST);
}

/** The ISO range of paper that a density range fills, in whole units and within what a recipe may state. */
export function fittingRange(range: number): number {
  return Math.min(MAX_RANGE, Math.max(MIN_RANGE, Math.round(100 * range)));
}
