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
import { STOP } from "../../colour/density.ts";
import type { SameSubject } from "./same-subject.ts";
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

/** Two normal distributions about 0: their standard deviations, and the wide one's share. */
interface HeavyTailed {
  readonly core: number;
  readonly wide: number;
  readonly share: number;
}

/** What is thought of a roll's light before its frames are seen; log10 throughout. */
export interface LightPrior {
  /** The roll's error: more light than rated, and less. */
  readonly more: HeavyTailed;
  readonly less: HeavyTailed;
  /** A frame's own error about the roll's. */
  readonly frame: HeavyTailed;
  /** Added to the level of every kind of subject, and to its standard deviation (root of the sum of squares). */
  readonly level: number;
  readonly levelSpread: number;
}

const narrow = (core: number): HeavyTailed => ({ core, wide: core, share: 0 });

/**
 * Where a stock states the film's curve and base. A roll's error is up to a stop more as a rule (film forgives it, and
 * many rate it slower than its box says) and seldom half a stop less (shadows are lost); a frame's own, about the roll's,
 * is some third of a stop. Common practice, no source. The numbers, with the other constants here, were chosen on
 * pictures of the film model whose seeds no test has, among those at which the tests' rolls stay within their bars
 * (docs/calibration.md).
 */
export const STATED_FILM: LightPrior = {
  more: narrow(0.22),
  less: narrow(0.12),
  frame: narrow(0.12),
  level: 0,
  levelSpread: 0,
};

/**
 * Where the curve is that of films in general: 18 % grey then lies within 0.17 EV of where it should, and a roll is more
 * often metered right than its subjects say; what is a stop or more off must be said clearly by what frames show. Levels are lower than in subjects.ts, whose invented skies are light: meters are calibrated for scenes of
 * 12 to 18 % (ISO 2720). Chosen on tuning rolls (docs/automatic-start.md).
 */
export const INFERRED_FILM: LightPrior = {
  more: { core: 0.06, wide: 0.5, share: 0.3 },
  less: { core: 0.06, wide: 0.25, share: 0.18 },
  frame: { core: 0.04, wide: 0.4, share: 0.05 },
  level: -0.1,
  levelSpread: 0.15,
};

/**
 * Frames that differ by no more than this (middle, lightest and darkest tones, colours; log10) look alike, and say one
 * thing many times: what is special about one of them is special about all, and must not count as often as there are
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
const heavy = (x: number, { core, wide, share }: HeavyTailed, unit: number): number =>
  unit * (((1 - share) / core) * gaussian(x, core) + (share / wide) * gaussian(x, wide));

/** A kind of roll: how often there is one, and the share that each kind of subject has on it. */
interface RollKind {
  readonly chance: number;
  readonly shares: readonly number[];
}

const special = SUBJECTS.filter((kind) => !kind.ordinary);
const rare = special.reduce((s, k) => s + k.share, 0);
const ROLL_KINDS: readonly RollKind[] = [
  { chance: MIXED_ROLL_SHARE, shares: SUBJECTS.map((k) => k.share) },
  ...special.map((most) => ({
    chance: ((1 - MIXED_ROLL_SHARE) * most.share) / rare,
    shares: SUBJECTS.map((kind) => (1 - MAIN_SUBJECT_SHARE) * kind.share + (kind === most ? MAIN_SUBJECT_SHARE : 0)),
  })),
];

/** One picture: a frame, or several of the same subject; light of each above the one that stands for them, in steps. */
interface Picture {
  readonly tones: Tones;
  readonly members: readonly { readonly frame: number; readonly above: number }[];
}

/**
 * Stops that each frame of a roll was given more (+) or less (−) than its film is rated for.
 * @param same frames of one picture: their errors differ by what was measured, and one of them is likely metered
 */
export function exposureError(
  frames: readonly Tones[],
  same: readonly SameSubject[] = [],
  prior: LightPrior = STATED_FILM,
): number[] {
  const pictures = picturesOf(frames, same);
  const weights = weightsOf(pictures.map(({ tones }) => tones));
  const byKind = pictures.map(({ tones }) => likelihoods(tones, prior));
  // Either half has the height of 1 at its middle, so that both meet there.
  const ofRoll = ERRORS.map((e) => {
    const half = e < 0 ? prior.less : prior.more;
    return heavy(e, half, half.core);
  });
  const ofFrame = Array.from({ length: 3 * ERRORS.length }, (_, i) => heavy(i * STEP, prior.frame, prior.frame.core));
  const cases = ROLL_KINDS.flatMap(({ chance, shares }) => {
    const seen = byKind.map((kinds) => mixtureOf(kinds, shares));
    return ERRORS.map((_, r) => {
      const each = seen.map((likelihood, p) => frameLikelihood(likelihood, r, pictures[p], ofFrame));
      const log = each.reduce((s, own, f) => s + weights[f] * own.log, Math.log(chance * ofRoll[r]));
      return { log, errors: each.map(({ error }) => error) };
    });
  });
  const most = cases.reduce((m, { log }) => Math.max(m, log), -Infinity);
  let total = 0;
  const given = pictures.map(() => 0);
  for (const { log, errors } of cases) {
    const likely = Math.exp(log - most);
    total += likely;
    for (const [p, error] of errors.entries()) given[p] += likely * error;
  }
  const stops = frames.map(() => 0);
  for (const [p, { members }] of pictures.entries())
    for (const { frame, above } of members) stops[frame] = (given[p] / total + above * STEP) / STOP;
  return stops;
}

/** Frames of one picture together: the one in the middle of their exposures stands for all. */
function picturesOf(frames: readonly Tones[], same: readonly SameSubject[]): Picture[] {
  const grouped = new Set(same.flatMap((group) => group.frames));
  const alone = frames.flatMap((tones, frame): Picture[] =>
    grouped.has(frame) ? [] : [{ tones, members: [{ frame, above: 0 }] }],
  );
  const together = same.map((group): Picture => {
    const order = group.frames.map((frame, k) => ({ frame, above: group.above[k] })).sort((a, b) => a.above - b.above);
    const middle = order[(order.length - 1) >> 1];
    return {
      tones: frames[middle.frame],
      members: order.map(({ frame, above }) => ({ frame, above: Math.round((above - middle.above) / STEP) })),
    };
  });
  return [...alone, ...together];
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
function likelihoods(tones: Tones, prior: LightPrior): number[][] | undefined {
  const features = featuresOf(tones);
  if (!features.every(Number.isFinite)) return undefined;
  return SUBJECTS.map((kind) => ofKind(kind, features, prior));
}

function ofKind(
  { by, level, light, dark, red, blue }: Subject,
  [middle, up, down, r, b]: readonly number[],
  prior: LightPrior,
): number[] {
  let fits = normal(up, light) * normal(down, dark);
  if (r !== undefined) fits *= normal(r, red) * normal(b, blue);
  const wider: Spread = [level[0] + prior.level, Math.hypot(level[1], prior.levelSpread)];
  return ERRORS.map((e) => fits * normal(middle + by * up - e, wider));
}

/** Kinds weighed by their shares, over ERRORS. */
const mixtureOf = (kinds: readonly (readonly number[])[] | undefined, shares: readonly number[]): number[] =>
  ERRORS.map((_, i) => (kinds ?? []).reduce((s, likelihood, k) => s + shares[k] * likelihood[i], OUTLIER_LIKELIHOOD));

/** A picture on a roll whose light is off by ERRORS[r]: how likely it is at all (log), and its own error then. */
function frameLikelihood(
  likelihood: readonly number[],
  r: number,
  { members }: Picture,
  ofFrame: readonly number[],
): { log: number; error: number } {
  let [sum, first] = [0, 0];
  for (let i = 0; i < likelihood.length; i++) {
    // Any of several may be the one that was metered.
    let own = 0;
    for (const { above } of members) own += ofFrame[Math.min(ofFrame.length - 1, Math.abs(i + above - r))];
    const p = (likelihood[i] * own) / members.length;
    sum += p;
    first += p * ERRORS[i];
  }
  return { log: Math.log(sum), error: first / sum };
}
