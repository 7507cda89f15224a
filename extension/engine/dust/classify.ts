/**
 * Classifies dark blobs as dust or as a part of the picture, by one logistic model. Dust takes red, green and blue alike,
 * lets little light through, and has an edge as hard as the scan draws one. What the picture's own small things look
 * like is read from the scan itself: where a hundred blobs are alike, they are stars or leaves, and one more is, too.
 */
import type { Film } from "../types.ts";
import type { Candidate } from "./candidates.ts";
import { type Features, featuresOf, thinned } from "./features.ts";
import { type FlareKnown, residualFlare, withoutFlare } from "./flare.ts";
import { evidenceOf } from "./likelihood.ts";
import { MIN_TRANSMITTANCE } from "./measure.ts";
import { quantile } from "../math/statistics.ts";
import { MODELS } from "./model.ts";

/** Shallower than this, as ln, or than so many times the noise of its surroundings, a blob is not classified. */
const [MIN_DEPTH, MIN_DEPTH_OVER_NOISE] = [0.15, 2.2];
/**
 * Log-odds that a blob needs to be proposed, found on the tuning set for a precision of 0.95: a healed star is worse than
 * a missed speck.
 */
const MIN_LOG_ODDS: Readonly<Record<Film, number>> = {
  "colour-negative": 0,
  "black-and-white-negative": 0.1,
  slide: 1.2,
};
/** How often similarity and odds are worked out. */
const ROUNDS = 3;
/** Least log-odds after a round of a blob that is classified once more. */
const MIN_REVISED_LOG_ODDS = -5;

export interface DustEvidence {
  /** Of each blob: log-odds that it is dust, less those that a proposal needs. Above 0 it is proposed. */
  readonly evidence: Float64Array;
  /** Flare that was not subtracted, in parts of the bare light, as the specks show it. */
  readonly flare: number;
}

/** Log-odds that each blob is dust. */
export function evidenceOfDust(all: readonly Candidate[], film: Film, known: FlareKnown): DustEvidence {
  const flare = flareOf(all, film, known);
  const places = [...all.keys()].filter((place) => isDeep(all[place]));
  const blobs = places.map((place) => (flare === 0 ? all[place] : withoutFlare(all[place], flare)));
  const odds = logOdds(blobs, MODELS[film]);
  const evidence = new Float64Array(all.length).fill(-9);
  for (const [k, place] of places.entries()) evidence[place] = odds[k] - MIN_LOG_ODDS[film];
  return { evidence, flare };
}

export const isDeep = ({ measurements: { depth, localNoise } }: Candidate): boolean =>
  -depth >= Math.max(MIN_DEPTH, MIN_DEPTH_OVER_NOISE * localNoise);

/** Flare that was not subtracted. Silver film has no colour to show it, and slides are clear where dust is found. */
function flareOf(all: readonly Candidate[], film: Film, known: FlareKnown): number {
  if (film !== "colour-negative") return 0;
  return residualFlare(all.filter(isDeep), (blob) => evidenceOf(featuresOf(blob)), known);
}

/**
 * A logistic model: a constant, and of each of its terms mean and standard deviation, weight, and weight of the square.
 * One that weighs the terms of `PICTURE_TERMS` is worked out in rounds.
 */
export interface Model {
  readonly constant: number;
  readonly terms: Readonly<
    Partial<Record<TermName, readonly [mean: number, deviation: number, linear: number, square: number]>>
  >;
}

/** Terms that count what is like a blob among the picture's own things, which depends on what is dust. */
const PICTURE_TERMS = ["tone", "form"] as const;
/** Terms that count what is like a blob among all blobs of the scan, dust or not, and where they lie. */
const SCAN_TERMS = ["allTone", "allForm", "count", "near", "depthOverNoise"] as const;

/** The terms that the model of a film weighs: colours tell dust by themselves, and then the picture's things are known. */
export const isTermOf = (film: Film, name: TermName): boolean =>
  !(film === "colour-negative" ? SCAN_TERMS : PICTURE_TERMS).some((other) => other === name);

/**
 * Log-odds of blobs, in rounds: the number of similar blobs of the picture depends on which blobs are dust. The first
 * odds come from the blobs' own terms.
 * @param rounds how often similarity and odds are worked out then
 */
export function logOdds(blobs: readonly Candidate[], model: Model, rounds = ROUNDS): Float64Array {
  const scan = compared(blobs);
  const inRounds = PICTURE_TERMS.some((name) => model.terms[name]);
  const odds = Float64Array.from(blobs, (_, i) => oddsOf(inRounds ? ownTerms(scan, i) : scanTerms(scan, i), model));
  for (let round = 0; inRounds && round < rounds; round++) {
    const shares = sharesOf(odds);
    for (const i of blobs.keys())
      if (odds[i] > MIN_REVISED_LOG_ODDS) odds[i] = oddsOf(pictureTerms(scan, i, shares), model);
  }
  return odds;
}

/** Probability of each blob to be dust, and their sum: the expected number of specks. */
export interface Shares {
  readonly parts: Float64Array;
  readonly specks: number;
}

export function sharesOf(odds: Float64Array): Shares {
  const parts = odds.map((logOdd) => 1 / (1 + Math.exp(-logOdd)));
  return { parts, specks: parts.reduce((sum, part) => sum + part, 0) };
}

/** A term beyond so many standard deviations from its mean counts as that many. */
const MAX_DEVIATIONS = 4;

/** A term's value as the model weighs it: in standard deviations from the mean. */
export const scored = (value: number, mean: number, deviation: number): number =>
  Math.min(MAX_DEVIATIONS, Math.max(-MAX_DEVIATIONS, (value - mean) / deviation));

/** Log-odds; terms that are not given count as usual. */
function oddsOf(given: Partial<Terms>, { constant, terms }: Model): number {
  let odds = constant;
  for (const name of Object.keys(given) as TermName[]) {
    const weights = terms[name];
    if (!weights) continue;
    const [mean, deviation, linear, square] = weights;
    const z = scored(given[name]!, mean, deviation);
    odds += z * (linear + square * z);
  }
  return odds;
}

/** Distances over which the picture's things are alike: ln of size and of strength, edge, slopes, ln T of their middle. */
const SIMILARITY_SCALE = { size: 0.25, strength: 0.25, edge: 0.06, slope: 0.02, bottom: 0.25 };
/** Squared distance beyond which two blobs are not alike; lines and specks are farther apart. */
const MAX_DISTANCE_SQUARED = 16;
/** Likenesses and specks that a scan is taken to have in any case. */
const [PRIOR_SIMILAR, PRIOR_SPECKS] = [0.02, 3];

/** ln T of a blob's middle. */
const bottomOf = ({ measurements }: Candidate): number =>
  Math.log(Math.max(MIN_TRANSMITTANCE, measurements.around[1])) + measurements.depth;

/** What a blob's terms are worked out from, in a scan's own numbers. */
export interface ComparedBlobs {
  readonly blobs: readonly Candidate[];
  readonly features: readonly Features[];
  readonly bottoms: Float64Array;
  /** ln T of the densest tenth of the blobs' middles. */
  readonly densest: number;
  /** Rows of numbers of the blobs that the others are compared with, which those are, and how many each stands for. */
  readonly table: Float64Array;
  readonly chosen: readonly number[];
  readonly step: number;
}

const COLUMNS = 9;

export function compared(blobs: readonly Candidate[]): ComparedBlobs {
  const features = blobs.map(featuresOf);
  const bottoms = Float64Array.from(blobs, bottomOf);
  const { step, chosen } = thinned(blobs.length);
  const table = new Float64Array(COLUMNS * chosen.length);
  for (const [k, j] of chosen.entries()) {
    const b = features[j];
    const errors = [b.errorRed ** 2 + SIMILARITY_SCALE.slope ** 2, b.errorBlue ** 2 + SIMILARITY_SCALE.slope ** 2];
    table.set([b.red, b.blue, ...errors, bottoms[j] / SIMILARITY_SCALE.bottom, ...formOf(blobs[j], b)], COLUMNS * k);
  }
  return { blobs, features, bottoms, densest: blobs.length ? quantile(bottoms, 0.1) : 0, table, chosen, step };
}

const formOf = ({ component }: Candidate, { size, strength, edge }: Features): [number, number, number, number] => [
  size / SIMILARITY_SCALE.size,
  strength / SIMILARITY_SCALE.strength,
  edge / SIMILARITY_SCALE.edge,
  component.centreline ? MAX_DISTANCE_SQUARED : 0,
];

/** The terms of all models. */
export type Terms = ReturnType<typeof termsOf>;
export type TermName = keyof Terms;

/** All terms of one blob of a scan. */
export const termsOf = (scan: ComparedBlobs, i: number, shares: Shares) => ({
  ...pictureTerms(scan, i, shares),
  ...scanTerms(scan, i),
});

function pictureTerms(scan: ComparedBlobs, i: number, { parts, specks }: Shares) {
  const { tone, form } = similarityOf(scan, i, parts);
  const logShare = (similar: number): number => Math.log(PRIOR_SIMILAR + similar) - Math.log(PRIOR_SPECKS + specks);
  return { tone: logShare(tone), form: logShare(form), ...ownTerms(scan, i) };
}

/** Likenesses and blobs that a scan is taken to have in any case, where all its blobs count. */
const [PRIOR_ALIKE, PRIOR_BLOBS] = [0.1, 5];
/** Shallowest noise, as ln. */
const MIN_NOISE = 0.01;

function scanTerms(scan: ComparedBlobs, i: number) {
  const { tone, form } = similarityOf(scan, i);
  const { depth, localNoise } = scan.blobs[i].measurements;
  return {
    allTone: Math.log(PRIOR_ALIKE + tone),
    allForm: Math.log(PRIOR_ALIKE + form),
    count: Math.log(PRIOR_BLOBS + scan.blobs.length),
    near: Math.log(MIN_NEAR + distanceOfNear(scan, i)),
    depthOverNoise: Math.log(-depth / (localNoise + MIN_NOISE)),
    ...ownTerms(scan, i),
  };
}

/** The neighbour whose distance tells whether blobs lie in a cluster, and least and greatest distance that count, pixels. */
const [NEIGHBOUR, MIN_NEAR, MAX_NEAR] = [4, 3, 400];

/** Distance of a blob's fourth nearest neighbour. */
function distanceOfNear({ blobs }: ComparedBlobs, i: number): number {
  const nearest = new Float64Array(NEIGHBOUR).fill(MAX_NEAR ** 2);
  const { x, y } = blobs[i];
  for (let j = 0; j < blobs.length; j++) {
    const square = (blobs[j].x - x) ** 2 + (blobs[j].y - y) ** 2;
    if (j === i || square >= nearest[NEIGHBOUR - 1]) continue;
    let k = NEIGHBOUR - 1;
    for (; k > 0 && nearest[k - 1] > square; k--) nearest[k] = nearest[k - 1];
    nearest[k] = square;
  }
  return Math.sqrt(nearest[NEIGHBOUR - 1]);
}

/** Terms of a blob by itself. */
function ownTerms({ blobs, features, bottoms, densest }: ComparedBlobs, i: number) {
  const {
    measurements,
    elongation,
    component: { centreline },
  } = blobs[i];
  const f = features[i];
  const [zr, zb] = [f.red / f.errorRed, f.blue / f.errorBlue];
  return {
    colour: Math.log1p((zr * zr + zr * zb + zb * zb) / 0.75),
    colourError: Math.log(f.errorRed),
    opacity: f.opacity,
    peak: Math.min(1.2, f.peak),
    size: f.size,
    strength: f.strength,
    edge: f.edge,
    solidity: Math.log(measurements.effectiveArea) - (centreline ? 0.5 : 1) * f.size,
    elongation: Math.log(elongation),
    surroundContrast: Math.min(1.5, Math.max(-0.5, measurements.surroundContrast)),
    noise: Math.log(measurements.localSpread + 0.003),
    around: Math.log(Math.max(MIN_TRANSMITTANCE, measurements.around[1])),
    // Against the densest blobs of the scan.
    bottom: bottoms[i] - densest,
    middleError: Math.log(f.middle + 0.01),
    line: centreline ? 1 : 0,
    lineLength: centreline ? Math.log(centreline.length / Math.max(0.5, centreline.width)) : 0,
  };
}

/**
 * Number of similar blobs, each weighted by its similarity: in colour and density, and in form as well.
 * @param parts probability of each blob to be dust, where only the picture's own blobs count
 */
function similarityOf(
  { blobs, features, bottoms, table, chosen, step }: ComparedBlobs,
  i: number,
  parts?: Float64Array,
): { tone: number; form: number } {
  const a = features[i];
  const [vr, vb] = [a.errorRed ** 2, a.errorBlue ** 2];
  const level = bottoms[i] / SIMILARITY_SCALE.bottom;
  const own = formOf(blobs[i], a);
  let tone = 0;
  let form = 0;
  for (let k = 0, o = 0; k < chosen.length; k++, o += COLUMNS) {
    const red = table[o] - a.red;
    const blue = table[o + 1] - a.blue;
    const levelDistance = table[o + 4] - level;
    const square =
      (red * red) / (table[o + 2] + vr) + (blue * blue) / (table[o + 3] + vb) + levelDistance * levelDistance;
    if (square > MAX_DISTANCE_SQUARED || chosen[k] === i) continue;
    const weight = step * (parts ? 1 - parts[chosen[k]] : 1) * Math.exp(-square / 2);
    tone += weight;
    let formDistance = 0;
    for (let n = 0; n < own.length; n++) formDistance += (table[o + 5 + n] - own[n]) ** 2;
    if (formDistance <= MAX_DISTANCE_SQUARED) form += weight * Math.exp(-formDistance / 2);
  }
  return { tone, form };
}
