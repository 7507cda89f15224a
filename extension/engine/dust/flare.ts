/**
 * Flare that is still in a scan, estimated from its dust. Flare adds the same light everywhere: beside it a speck takes less of
 * the light where the film is dense, and least in the channel that the film lets through least. So specks over light and
 * dark film are of one grey only where the right flare is taken off, while the picture's own things agree on none.
 */
import type { Rgb } from "../types.ts";
import type { Candidate } from "./candidates.ts";
import { type Features, featuresOf, thinned } from "./features.ts";
import { MIN_TRANSMITTANCE } from "./measure.ts";
import { mean } from "../math/statistics.ts";

/** The part of its depth at which a thing's slopes are those of the whole: most of its pixels are less dark. */
const TYPICAL = 0.8;

/**
 * What a thing is like when flare is taken off that was not.
 * @param flare parts of the bare light, alike in all channels; negative where too much was taken off
 */
export function withoutFlare(blob: Candidate, flare: number): Candidate {
  const { measurements: n } = blob;
  const [red, green, blue] = n.around.map((t) => Math.max(MIN_TRANSMITTANCE, t - flare));
  /** ln of what the thing lets through, from what it was with the flare. */
  const depth = (before: number, after: number, was: number): number =>
    Math.log(Math.max(MIN_TRANSMITTANCE, before * Math.exp(was) - flare) / after);
  const typical = TYPICAL * n.depth;
  // Where less light came than is taken off nothing is left to compare with.
  const inGreen = Math.min(-MIN_TRANSMITTANCE, depth(n.around[1], green, typical));
  // Small differences of ln T grow as the light grows less.
  const more = n.around[1] / green;
  return {
    ...blob,
    measurements: {
      ...n,
      red: depth(n.around[0], red, n.red * typical) / inGreen,
      blue: depth(n.around[2], blue, n.blue * typical) / inGreen,
      depth: depth(n.around[1], green, n.depth),
      absorbed: n.absorbed * more,
      localNoise: n.localNoise * more,
      localSpread: n.localSpread * more,
      chromaNoise: (n.chromaNoise * n.around[2]) / blue,
      around: [red, green, blue],
    },
  };
}

/** What is known of the residual flare before the specks are read, in parts of the bare light. */
export interface FlareKnown {
  readonly expected: number;
  readonly min: number;
  readonly max: number;
}

/** What a holder's own sheen adds to the flare that it shows, and how far the flare may be from the rest. */
const [SHEEN, HOLDER_ERROR] = [0.0005, 0.001];
/** Where no holder is in view: the part of a recipe's flare that may be too much, and the haze of a very bad lens. */
const [MAX_OVERCORRECTION, MAX_HAZE] = [0.5, 0.05];

/**
 * @param subtracted flare that was taken off, in parts of the bare light; none without a blank
 * @param holder transmittance that a holder in view seems to have: flare that was not taken off, and its sheen
 */
export function flareKnown(subtracted: Rgb = [0, 0, 0], holder?: Rgb): FlareKnown {
  if (!holder) return { expected: 0, min: -MAX_OVERCORRECTION * mean(subtracted), max: MAX_HAZE };
  const expected = Math.max(mean(holder) - SHEEN, -mean(subtracted));
  return { expected, min: Math.max(expected - HOLDER_ERROR, -mean(subtracted)), max: expected + HOLDER_ERROR };
}

/** Flare, in parts of the bare light, from an even scale: finely near 0, coarsely up to a lens full of haze. */
const flareAt = (place: number): number => 0.0025 * Math.sinh(place);
const placeOf = (flare: number): number => Math.asinh(flare / 0.0025);
/** How far apart on that scale it is looked for at first, in how few steps, and how often they are halved then. */
const [STEP, MIN_STEPS, HALVES] = [0.25, 4, 2];
/** How wrong a recipe's flare is, as a half-width: most are about right, and some far off. The part of things that are dust. */
const [FLARE_ERROR, DUSTY] = [0.003, 0.05];
/** By so much, as ln of a likelihood, what is known must speak against the recipe: below it its flare stands. */
const MIN_LOG_LIKELIHOOD_GAIN = 3;

/**
 * The flare, in parts of the bare light, at which most things are dust; 0 where the recipe's serves as well. It is one
 * number for all channels: were each free, a hundred sparks of one colour would pass for specks.
 * @param evidence ln of how much likelier dust is to be such a thing than the picture is
 */
export function residualFlare(
  blobs: readonly Candidate[],
  evidence: (blob: Candidate) => number,
  { expected, min, max }: FlareKnown,
): number {
  const chosen = thinned(blobs.length).chosen.map((i) => blobs[i]);
  const weights = weightsOf(chosen.map(featuresOf));
  const likelihood = (flare: number): number =>
    chosen.reduce(
      (sum, blob, i) => {
        const e = evidence(withoutFlare(blob, flare));
        return sum + weights[i] * Math.log1p(DUSTY * Math.expm1(Math.min(20, e)));
      },
      -Math.log1p(((flare - expected) / FLARE_ERROR) ** 2),
    );
  // The recipe's flare is asked first, unless a holder speaks against it.
  const start = min <= 0 && max >= 0 ? 0 : expected;
  const first = likelihood(start);
  let [best, place] = [first, placeOf(start)];
  const look = (at: number): void => {
    const now = likelihood(flareAt(at));
    if (now > best) [best, place] = [now, at];
  };
  const [low, high] = [placeOf(min), placeOf(max)];
  const steps = Math.max(MIN_STEPS, Math.ceil((high - low) / STEP));
  for (let k = 0; k <= steps; k++) look(low + ((high - low) * k) / steps);
  let step = (high - low) / steps;
  for (let halves = 0; halves < HALVES; halves++) {
    step /= 2;
    for (const at of [place - step, place + step]) if (at >= low && at <= high) look(at);
  }
  return best < first + MIN_LOG_LIKELIHOOD_GAIN ? start : flareAt(place);
}

/** Distances over which things are alike: ln of size and of strength, edge. */
const SIMILARITY_SCALE = { size: 0.15, strength: 0.15, edge: 0.05 };

/** Weight of each blob: similar blobs share one, so that a hundred sparks do not outvote a single speck. */
function weightsOf(features: readonly Features[]): number[] {
  return features.map((a) => {
    let similar = 0;
    for (const b of features) {
      const size = (a.size - b.size) / SIMILARITY_SCALE.size;
      if (size * size > 16) continue;
      const [strength, edge] = [
        (a.strength - b.strength) / SIMILARITY_SCALE.strength,
        (a.edge - b.edge) / SIMILARITY_SCALE.edge,
      ];
      similar += Math.exp(-0.5 * (size * size + strength * strength + edge * edge));
    }
    return 1 / similar;
  });
}
