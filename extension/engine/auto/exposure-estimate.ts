/**
 * How much light the frames of a roll were given: what their densities say of it, weighed against what photographers do.
 *
 * A negative carries its exposure: film rated at its ISO speed puts a metered mid-grey at a known density (0.70 above base
 * at gamma 0.55: SMPTE ST 2065-3), so a frame's tones stand on an absolute scale before anything is guessed. What remains to
 * be guessed is how far the light differed from that, and there a tone alone deceives: a forest looks like a street with too
 * little light, snow like a wall with too much. What tells them apart does not change with exposure: the picture's colour
 * (leaves, lamplight) and how far its lightest and darkest tones lie from its mean (fog, a window, lamps at night). So each
 * frame is taken for each of many kinds of subject (subjects.ts); a roll's frames share one error of light (a film rated
 * otherwise, a meter that is off) and have a small one of their own; and a roll may be of one kind all through. Bayes' rule
 * weighs it all at once.
 */
import { STOP } from "../colour/density.ts";
import { type Spread, type Subject, SUBJECTS } from "./subjects.ts";

/** A frame's mean, its lightest and its darkest tones, log10 above mid-grey as the film is rated. */
export interface Tones {
  readonly middle: number;
  readonly light: number;
  readonly dark: number;
  /** log10 red over green and blue over green of the picture's median colour; absent on black-and-white film. */
  readonly colour?: readonly [red: number, blue: number];
}

/** Most rolls have subjects of all kinds; some have one nearly all through. */
const MIXED_ROLL_SHARE = 0.65;
const MAIN_SUBJECT_SHARE = 0.85;

/**
 * Errors of light, log10. A roll's is up to a stop more as a rule (film forgives it, and many rate it slower than its box
 * says) and seldom half a stop less (shadows are lost); a frame's own, about the roll's, is some third of a stop. Common
 * practice, no source. The numbers, with the other constants here, were chosen on pictures of the film model whose seeds
 * no test has, among those at which the tests' rolls stay within their bars (docs/calibration.md).
 */
const ROLL = { more: 0.22, less: 0.12 };
const FRAME = 0.12;

/**
 * Frames that differ by no more than this (middle, lightest and darkest tones, colours; log10) look alike, and say one
 * thing many times: what is unusual about one of them is unusual about all, and must not count as often as there are
 * frames. A quarter of how far all subjects together differ.
 */
const SIMILARITY_SCALE = [0.09, 0.06, 0.06, 0.025, 0.03];

/** The film's foot: what got less light left no more density than this (SMPTE ST 2065-3's mid-grey, gamma 0.55). */
const MIN_TONE = -1.2;

/** Errors of light that are thought of: −2 to +4 stops, by a fifteenth. */
const LOW = -0.6;
const STEP = 0.02;
const ERRORS = Array.from({ length: 91 }, (_, i) => LOW + i * STEP);
/** A frame that is like no kind (a double exposure, a light leak) has no say, but must not rule out everything. */
const OUTLIER_LIKELIHOOD = 1e-2;

const gaussian = (x: number, spread: number): number => Math.exp(-0.5 * (x / spread) ** 2);
const normal = (x: number, [mean, spread]: Spread): number => gaussian(x - mean, spread) / spread;
const ofRoll = ERRORS.map((e) => gaussian(e, e < 0 ? ROLL.less : ROLL.more));
/** A frame's own error, by how many steps it lies from the roll's. */
const ofFrame = ERRORS.map((_, i) => gaussian(i * STEP, FRAME));

/** A kind of roll: how often there is one, and the share that each kind of subject has on it. */
interface RollKind {
  readonly chance: number;
  readonly shares: readonly number[];
}

const special = SUBJECTS.filter((kind) => !kind.ordinary);
const rare = special.reduce((s, k) => s + k.share, 0);
const ROLL_KINDS: readonly RollKind[] = [
  { chance: MIXED_ROLL_SHARE, shares: SUBJECTS.map((k) => k.share) },
  ...special.map((main) => ({
    chance: ((1 - MIXED_ROLL_SHARE) * main.share) / rare,
    shares: SUBJECTS.map((kind) => (1 - MAIN_SUBJECT_SHARE) * kind.share + (kind === main ? MAIN_SUBJECT_SHARE : 0)),
  })),
];

/** Stops that each frame of a roll was given more (+) or less (−) than its film is rated for. */
export function exposureError(frames: readonly Tones[]): number[] {
  const weights = weightsOf(frames);
  const byKind = frames.map(likelihoods);
  const cases = ROLL_KINDS.flatMap(({ chance, shares }) => {
    const seen = byKind.map((kinds) => mixtureOf(kinds, shares));
    return ERRORS.map((_, r) => {
      const each = seen.map((likelihood) => frameLikelihood(likelihood, r));
      const log = each.reduce((s, own, f) => s + weights[f] * own.log, Math.log(chance * ofRoll[r]));
      return { log, errors: each.map(({ error }) => error) };
    });
  });
  const max = cases.reduce((m, { log }) => Math.max(m, log), -Infinity);
  let total = 0;
  const given = frames.map(() => 0);
  for (const { log, errors } of cases) {
    const likelihood = Math.exp(log - max);
    total += likelihood;
    for (const [f, error] of errors.entries()) given[f] += likelihood * error;
  }
  return given.map((e) => e / total / STOP);
}

/** A frame in the terms of the kinds: mean tone, then what does not change with exposure. */
function featuresOf({ middle, light, dark, colour }: Tones): number[] {
  return [middle, light - middle, middle - Math.max(dark, MIN_TONE), ...(colour ?? [])];
}

/** How much each frame says: 1 where it is like no other, one over their number where several look the same. */
function weightsOf(frames: readonly Tones[]): number[] {
  const features = frames.map(featuresOf);
  const distance = (a: readonly number[], b: readonly number[]): number => {
    const terms = Math.min(a.length, b.length);
    return a.slice(0, terms).reduce((s, v, k) => s + ((v - b[k]) / SIMILARITY_SCALE[k]) ** 2 / terms, 0);
  };
  // What is no number (a frame that shows nothing) is like nothing.
  return features.map(
    (a) => 1 / features.reduce((s, b) => s + (a === b ? 1 : Math.exp(-0.5 * distance(a, b)) || 0), 0),
  );
}

/** How well each kind and error of light explain a frame: per kind, over ERRORS. Undefined where the frame says nothing. */
function likelihoods(tones: Tones): number[][] | undefined {
  const features = featuresOf(tones);
  if (!features.every(Number.isFinite)) return undefined;
  return SUBJECTS.map((kind) => ofKind(kind, features));
}

function ofKind({ by, level, light, dark, red, blue }: Subject, [middle, up, down, r, b]: readonly number[]): number[] {
  let fits = normal(up, light) * normal(down, dark);
  if (r !== undefined) fits *= normal(r, red) * normal(b, blue);
  return ERRORS.map((e) => fits * normal(middle + by * up - e, level));
}

/** Kinds weighed by their shares, over ERRORS. */
const mixtureOf = (kinds: readonly (readonly number[])[] | undefined, shares: readonly number[]): number[] =>
  ERRORS.map((_, i) => (kinds ?? []).reduce((s, likelihood, k) => s + shares[k] * likelihood[i], OUTLIER_LIKELIHOOD));

/** A frame on a roll whose light is off by ERRORS[r]: how likely it is at all (log), and its own error then. */
function frameLikelihood(likelihood: readonly number[], r: number): { log: number; error: number } {
  let [sum, first] = [0, 0];
  for (let i = 0; i < likelihood.length; i++) {
    const p = likelihood[i] * ofFrame[Math.abs(i - r)];
    sum += p;
    first += p * ERRORS[i];
  }
  return { log: Math.log(sum), error: first / sum };
}
