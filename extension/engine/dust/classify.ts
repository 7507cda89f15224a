/**
 * Weighs whether dark things are dust or belong to the picture. Dust takes red, green and blue alike, lets little light
 * through, and has an edge as hard as the scan draws one. What the picture's own small things are like is learned from
 * the scan itself: where it holds a hundred stars, a hundred things of one kind, one more of that kind is a star.
 */
import type { Film } from "../types.ts";
import type { Candidate } from "./candidates.ts";
import { type Features, featuresOf, thinned, TOGETHER } from "./features.ts";
import { type FlareKnown, flareLeft, withoutFlare } from "./flare.ts";
import { type FirstLook, secondLook } from "./weights-of-evidence.ts";

/** Dust takes this part of the light. */
const OPACITY = [0.63, 0.97] as const;
/** Least part of it in the middle, as far as sampling may miss the middle. */
const MIN_PEAK = 0.57;
/** Spread of a speck of 3 pixels' diameter in the full scan, and how exactly, as ln, it is known: smaller ones are left. */
const [SMALLEST, KNOWN] = [0.32, 0.12];
/** Shallower than this, as ln, or than so many times the calm of its surroundings, a thing is not looked at. */
const [SHALLOWEST, STANDS_OUT] = [0.15, 2.2];

/** ln of Student's distribution in `d` dimensions at a squared distance, its factors left out: things have outliers. */
const student = (square: number, freedom: number, d: number): number =>
  (-(freedom + d) / 2) * Math.log1p(square / freedom);
const TAU = 2 * Math.PI;

/** Abramowitz and Stegun 7.1.26. */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const y =
    1 -
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x);
  return x < 0 ? -y : y;
}

/** ln of what turns a density over opacity into one over `strength`, at one `size`. */
const jacobian = (f: Features): number => Math.log(Math.min(1.5, Math.max(0.1, f.opacity)));
/** Part of a normal law below z. */
const below = (z: number): number => (1 + erf(z / Math.SQRT2)) / 2;

/** ln of the density of dust at a thing's features. */
function dustDensity(f: Features, colour: boolean): number {
  const [zr, zb] = [f.red / f.errorRed, f.blue / f.errorBlue];
  const left = 1 - TOGETHER ** 2;
  const away = (zr * zr - 2 * TOGETHER * zr * zb + zb * zb) / left;
  const colours = colour ? student(away, 4, 2) - Math.log(TAU * f.errorRed * f.errorBlue * Math.sqrt(left)) : 0;
  // Wider things show their edge whole.
  const expected = 0.505 + 0.035 * Math.min(1, Math.max(0, Math.exp(f.size) - 0.6));
  const width = Math.hypot(0.022, 0.3 * f.middle);
  const off = (f.edge - expected) / width;
  const edge = student((off > 0 ? 0.6 * off : off) ** 2, 4, 1) - Math.log(2.5 * width);
  const error = Math.hypot(0.05, 0.09 / f.radius ** 2, f.broad);
  const [least, most] = OPACITY;
  const opacity = (below((f.opacity - least) / error) - below((f.opacity - most) / error)) / (most - least) + 0.02;
  const peak = below((f.peak - MIN_PEAK) / Math.hypot(0.075, f.middle)) + 1e-4;
  const large = f.radius > 4 ? -2 * Math.log(f.radius / 4) : 0;
  const small = below((f.size - Math.log(SMALLEST)) / KNOWN) + 1e-3;
  return colours + edge + Math.log(opacity * peak * small) + large + jacobian(f) - Math.log(2.1);
}

/** Spread of the slopes of things in pictures of all kinds, and where their middle lies against dust. */
const PICTURE = { red: -0.06, blue: 0.07, spread: [0.13, 0.156] } as const;

/** ln of the density of things in pictures of any kind. */
function pictureDensity(f: Features, colour: boolean): number {
  const [sr, sb] = [Math.hypot(PICTURE.spread[0], f.errorRed), Math.hypot(PICTURE.spread[1], f.errorBlue)];
  const away = ((f.red - PICTURE.red) / sr) ** 2 + ((f.blue - PICTURE.blue) / sb) ** 2;
  const colours = colour ? student(away, 2, 2) - Math.log(TAU * sr * sb) : 0;
  const edge = Math.max(Math.log(0.3), -0.5 * ((f.edge - 0.46) / 0.07) ** 2 - Math.log(2.5 * 0.07));
  return colours + edge + jacobian(f) - Math.log(3);
}

/** Distances over which things of one scan are alike: of slopes beside their errors, size, strength, edge. */
const ALIKE = { slope: 0.02, size: 0.15, strength: 0.15, edge: 0.05 };
/** A difference in size that leaves no likeness: five times what things alike may differ by. */
const UNLIKE = 5 * ALIKE.size;

/** How alike two things are: a density that integrates to 1 over all features. */
function likeness(a: Features, b: Features, colour: boolean): number {
  const size = ((a.size - b.size) / ALIKE.size) ** 2;
  if (size > 16) return 0;
  const strength = ((a.strength - b.strength) / ALIKE.strength) ** 2;
  const edge = ((a.edge - b.edge) / ALIKE.edge) ** 2;
  let square = size + strength + edge;
  if (square > 24) return 0;
  let norm = ALIKE.size * ALIKE.strength * ALIKE.edge * TAU ** 1.5;
  if (colour) {
    const vr = b.errorRed ** 2 + ALIKE.slope ** 2;
    const vb = b.errorBlue ** 2 + ALIKE.slope ** 2;
    square += (a.red - b.red) ** 2 / vr + (a.blue - b.blue) ** 2 / vb;
    norm *= TAU * Math.sqrt(vr * vb);
  }
  return square > 30 ? 0 : Math.exp(-square / 2) / norm;
}

/** Things of a general kind that a scan is taken to hold: so many, and a part of its own. */
const GENERAL = { few: 5, part: 0.3 };
/** Fewest specks that a scan is taken to hold. */
const FEWEST_DUST = 3;
const ROUNDS = 6;
/** The evidence at which a thing is as well taken for dust: missing a speck and healing a star weigh alike. */
const BALANCE = -0.5;
/** A thing whose likelihoods are further apart than this is certain, whatever else the scan holds. */
const CERTAIN = 6;

export interface DustEvidence {
  /** Of each thing, as the logarithm of a ratio of probabilities: above 0 it is more likely dust. */
  readonly evidence: Float64Array;
  /** Flare that was not taken off, in parts of the bare light, as the things tell it. */
  readonly flare: number;
}

/** Evidence that each thing is dust. */
export function evidenceOfDust(all: readonly Candidate[], film: Film, known: FlareKnown): DustEvidence {
  const evidence = new Float64Array(all.length).fill(-9);
  const flare = flareOf(all, film, known);
  const things = flare === 0 ? all : all.map((thing) => withoutFlare(thing, flare));
  const look = firstLook(things, film);
  // The weights of the second look were found on colour negatives.
  const sure = film === "colour-negative" ? secondLook(look) : look.open.map((i) => look.first[i] - BALANCE);
  for (const [k, i] of look.open.entries()) evidence[look.places[i]] = sure[k];
  return { evidence, flare };
}

/** Flare that was not taken off. */
function flareOf(all: readonly Candidate[], film: Film, known: FlareKnown): number {
  // Silver film has no colour by which to tell, and slides are clear where dust is looked for with success.
  if (film !== "colour-negative") return 0;
  return flareLeft(all.filter(isDeep), (f) => dustDensity(f, true) - pictureDensity(f, true), known);
}

const isDeep = ({ nature: { depth, calm } }: Candidate): boolean => -depth >= Math.max(SHALLOWEST, STANDS_OUT * calm);

/**
 * Looks at each thing that is not too shallow.
 *
 * The numbers of specks and of the picture's things, and the density of the latter, are found together: by turns the
 * things are shared out between the two kinds and the kinds described by their shares (expectation and maximisation,
 * the picture's things by a density of kernels).
 */
export function firstLook(all: readonly Candidate[], film: Film): FirstLook {
  const colour = film !== "black-and-white-negative";
  const places = [...all.keys()].filter((place) => isDeep(all[place]));
  const things = places.map((place) => all[place]);
  const features = things.map(featuresOf);
  const dust = features.map((f) => dustDensity(f, colour));
  const picture = features.map((f) => pictureDensity(f, colour));
  const open = features.flatMap((_, i) => (dust[i] - picture[i] > -CERTAIN ? [i] : []));
  const kernels = kernelsOf(features, open, colour);
  const first = new Float64Array(features.length);
  const share = new Float64Array(features.length);
  for (const i of open) share[i] = 0.3;
  for (let round = 0; round < ROUNDS; round++) {
    const specks = share.reduce((a, p) => a + p, 0);
    const general = GENERAL.few + GENERAL.part * (features.length - specks);
    for (const [k, i] of open.entries()) {
      const { sources, weights } = kernels[k];
      let alike = general * Math.exp(picture[i]);
      for (let s = 0; s < sources.length; s++) alike += weights[s] * (1 - share[sources[s]]);
      first[i] = Math.log(Math.max(FEWEST_DUST, specks)) + dust[i] - Math.log(alike);
    }
    for (const i of open) share[i] = 1 / (1 + Math.exp(-first[i]));
  }
  return { places, things, features, open, first, dust, share };
}

interface Kernels {
  readonly sources: readonly number[];
  readonly weights: readonly number[];
}

/** For each thing in question, the things that are like it and how much each counts. */
function kernelsOf(features: readonly Features[], open: readonly number[], colour: boolean): Kernels[] {
  const { step, chosen } = thinned(features.length);
  // Most pairs differ in size by far: those are told apart without a look at the rest.
  const sizes = Float64Array.from(chosen, (j) => features[j].size);
  return open.map((i) => {
    const sources: number[] = [];
    const weights: number[] = [];
    const { size } = features[i];
    for (let k = 0; k < chosen.length; k++) {
      if (Math.abs(sizes[k] - size) > UNLIKE) continue;
      const j = chosen[k];
      const weight = j === i ? 0 : step * likeness(features[i], features[j], colour);
      if (weight === 0) continue;
      sources.push(j);
      weights.push(weight);
    }
    return { sources, weights };
  });
}
