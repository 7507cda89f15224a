/**
 * How much light the frames of a roll were given: what their densities say of it, weighed against what photographers do.
 *
 * A negative carries its exposure: film rated at its ISO speed puts a metered mid-grey at a known density (0.70 above base
 * at gamma 0.55: SMPTE ST 2065-3), so a frame's tones stand on an absolute scale before anything is guessed. What remains to
 * be guessed is how far the light differed from that, and there tones alone deceive: a forest looks like a street with too
 * little light, snow like a wall with too much. So each frame is taken for each of a few kinds of subject, with that kind's
 * tones; a roll's frames share one error of light (a film rated otherwise, a meter that is off) and have a small one of
 * their own; and a roll may be of one kind all through. Bayes' rule weighs it all at once.
 */
import { STOP } from "./density.ts";

/** A frame's mean and its lightest tones, log10 above mid-grey as the film is rated. */
export interface Tones {
  readonly middle: number;
  readonly light: number;
}

/** Where a kind of subject has its tones when it is exposed right: mean and standard deviation, log10 above mid-grey. */
interface Kind {
  /** How often it is photographed. */
  readonly share: number;
  /** Whether a roll that has nothing else is nothing unusual. */
  readonly ordinary?: true;
  readonly middle: readonly [mean: number, spread: number];
  readonly light: readonly [mean: number, spread: number];
}

/**
 * The mean of an ordinary scene is what a meter takes for mid-grey, a little more where the sky is in it; white paper,
 * cloud or snow returns 60 to 90 % (0.52 to 0.70 above mid-grey), foliage 4 to 10 %, and night is lit by less than a
 * hundredth of a day. How often, and how far subjects of a kind differ: common practice, no source; tried on invented
 * scenes other than those that judge it.
 */
const KINDS: readonly Kind[] = [
  // Ordinary: with a sky or something white in it; with neither; with a window or a lamp in it.
  { ordinary: true, share: 0.4, middle: [0.22, 0.11], light: [0.57, 0.1] },
  { ordinary: true, share: 0.25, middle: [0.05, 0.13], light: [0.27, 0.13] },
  { ordinary: true, share: 0.15, middle: [0.16, 0.12], light: [0.95, 0.16] },
  // Forest, cellar, dark coats before dark walls.
  { share: 0.08, middle: [-0.4, 0.2], light: [-0.06, 0.27] },
  // Night: little light, a few lamps.
  { share: 0.05, middle: [-1, 0.25], light: [-0.35, 0.3] },
  // Snow, fog, a white room: light all over.
  { share: 0.07, middle: [0.61, 0.09], light: [0.69, 0.08] },
];
/** Most rolls have subjects of all kinds; some have one nearly all through. */
const MIXED = 0.85;
const ALL_THROUGH = 0.85;

/**
 * Errors of light, log10: the roll's, about a tenth of a stop too much as a rule, more is common (film forgives it, and
 * many rate it slower than its box says), less is rare (shadows are lost); and a frame's own about the roll's. Common
 * practice, no source.
 */
const ROLL = { usual: 0.03, more: 0.2, less: 0.08 };
const FRAME = 0.12;

/** Errors of light that are thought of: −2 to +4 stops, by a fifteenth. */
const LOW = -0.6;
const STEP = 0.02;
const ERRORS = Array.from({ length: 91 }, (_, i) => LOW + i * STEP);
/** A frame that is like no kind (a double exposure, a light leak) has no say, but must not rule out everything. */
const OTHERWISE = 1e-4;

const bell = (x: number, spread: number): number => Math.exp(-0.5 * (x / spread) ** 2);
const normal = (x: number, [mean, spread]: readonly [number, number]): number => bell(x - mean, spread) / spread;
const ofRoll = ERRORS.map((e) => bell(e - ROLL.usual, e < ROLL.usual ? ROLL.less : ROLL.more));
/** A frame's own error, by how many steps it lies from the roll's. */
const ofFrame = ERRORS.map((_, i) => bell(i * STEP, FRAME));

/** A kind of roll: how often there is one, and the share that each kind of subject has on it. */
interface RollKind {
  readonly chance: number;
  readonly shares: readonly number[];
}

const unusual = KINDS.filter((kind) => !kind.ordinary);
const rare = unusual.reduce((s, k) => s + k.share, 0);
const ROLL_KINDS: readonly RollKind[] = [
  { chance: MIXED, shares: KINDS.map((k) => k.share) },
  ...unusual.map((most) => ({
    chance: ((1 - MIXED) * most.share) / rare,
    shares: KINDS.map((kind) => (1 - ALL_THROUGH) * kind.share + (kind === most ? ALL_THROUGH : 0)),
  })),
];

/** Stops that each frame of a roll was given more (+) or less (−) than its film is rated for. */
export function lightGiven(frames: readonly Tones[]): number[] {
  const cases = ROLL_KINDS.flatMap((roll) => {
    const seen = frames.map((tones) => likelihood(tones, roll));
    return ERRORS.map((_, r) => {
      const each = seen.map((like) => frameGiven(like, r));
      const log = each.reduce((s, own) => s + own.log, Math.log(roll.chance * ofRoll[r]));
      return { log, errors: each.map(({ error }) => error) };
    });
  });
  const most = cases.reduce((m, { log }) => Math.max(m, log), -Infinity);
  let total = 0;
  const given = frames.map(() => 0);
  for (const { log, errors } of cases) {
    const weight = Math.exp(log - most);
    total += weight;
    for (const [f, error] of errors.entries()) given[f] += weight * error;
  }
  return given.map((e) => e / total / STOP);
}

/** How well each error of light explains a frame's tones on a kind of roll. */
function likelihood({ middle, light }: Tones, { shares }: RollKind): number[] {
  if (!Number.isFinite(middle + light)) return ERRORS.map(() => OTHERWISE);
  return ERRORS.map((e) =>
    KINDS.reduce(
      (s, kind, k) => s + shares[k] * normal(middle - e, kind.middle) * normal(light - e, kind.light),
      OTHERWISE,
    ),
  );
}

/** A frame on a roll whose light is off by ERRORS[r]: how likely it is at all (log), and its own error then. */
function frameGiven(like: readonly number[], r: number): { log: number; error: number } {
  let [sum, first] = [0, 0];
  for (let i = 0; i < like.length; i++) {
    const p = like[i] * ofFrame[Math.abs(i - r)];
    sum += p;
    first += p * ERRORS[i];
  }
  return { log: Math.log(sum), error: first / sum };
}
