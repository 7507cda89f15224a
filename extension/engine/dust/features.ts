/** The features that dark blobs are compared by (colour slopes, size, opacity, edge), each with its uncertainty. */
import type { Candidate } from "./candidates.ts";

/** A dark blob as it is compared with others. */
export interface Features {
  /** Slopes of red and blue less those of dust, and their errors. */
  readonly red: number;
  readonly blue: number;
  readonly errorRed: number;
  readonly errorBlue: number;
  /** ln of its spread, and of what it absorbs. */
  readonly size: number;
  readonly strength: number;
  /** Opacity of the disc that absorbs as much over as wide a spread, and of one that is as dark in its middle. */
  readonly opacity: number;
  readonly peak: number;
  readonly edge: number;
  readonly radius: number;
  /** Errors of the absorption, as parts of it: over its breadth, and at its middle. */
  readonly broad: number;
  readonly middle: number;
}

/** Slopes that dust shows: not quite 1, for dust is not quite grey and the flare that is taken off is a little wrong. */
const DUST = { red: 0.992, blue: 1.01 };
/** Their errors: of any thing, at a radius of one pixel (a mosaic's colours lie in different places), of unrest. */
const ERROR = { constant: [0.012, 0.018], sampling: [0.022, 0.033], localSpread: [0.15, 0.18] } as const;
/** What the flare may be wrong by, in parts of the bare light; red is less dense. */
const FLARE = [0.00024, 0.0003] as const;
/** Red and blue lie on opposite corners of a mosaic's cell: their errors are opposite. */
export const ERROR_CORRELATION = -0.5;
/** Variance, pixels², that lens, pixels and decoding at half size spread a point by. */
const BLUR = 0.285;
/** Variance of it that is left when the faint skirt is cut off, and what the cut takes of the absorption. */
const [CORE, ABSORPTION_KEPT] = [0.2, 0.955];

/** The error function by Abramowitz and Stegun 7.1.26. */
export function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const y =
    1 -
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x);
  return x < 0 ? -y : y;
}

export function featuresOf({ radius, component: { centreline }, measurements: n }: Candidate): Features {
  const deep = Math.max(0.1, -n.depth);
  const maxAbsorption = Math.max(0.05, -Math.expm1(n.depth));
  const wide = Math.min(1, n.localSpread / deep);
  // A wrong flare counts where little light comes through.
  const dark = Math.expm1(Math.min(4, deep)) / deep;
  const error = (k: 0 | 1, grain: number): number =>
    Math.hypot(
      ERROR.constant[k],
      ERROR.sampling[k] / radius ** 1.5,
      ERROR.localSpread[k] * wide,
      (FLARE[k] * dark) / n.around[2 * k],
      grain,
    );
  const spread = Math.min(30, Math.max(CORE, n.spread));
  const own = Math.max(0.06, spread - CORE);
  // The area of the disc that spreads as much, or the width of the line, and what blur leaves of its middle.
  const extent = centreline ? Math.sqrt(12 * own) : 4 * Math.PI * own;
  const left = centreline ? erf(extent / Math.sqrt(8 * BLUR)) : -Math.expm1((-2 * own) / BLUR);
  return {
    red: n.red - DUST.red,
    blue: n.blue - DUST.blue,
    errorRed: error(0, 0),
    errorBlue: error(1, (0.5 * n.chromaNoise) / deep),
    size: Math.log(spread),
    strength: Math.log(Math.max(0.05, n.absorbed)),
    opacity: Math.min(2, n.absorbed / (ABSORPTION_KEPT * extent)),
    peak: maxAbsorption / left,
    edge: Math.min(1.2, n.edge),
    radius,
    broad: n.localSpread / maxAbsorption,
    middle: (n.localSpread * (1 - maxAbsorption)) / maxAbsorption,
  };
}

/** Things that the others are compared with, at most; more are thinned out evenly. */
const MAX_COMPARED = 1500;

/** Places of the things that the others are compared with, and how many each stands for. */
export function thinned(count: number): { step: number; chosen: number[] } {
  const step = Math.max(1, count / MAX_COMPARED);
  const chosen: number[] = [];
  for (let at = 0; at < count; at += step) chosen.push(Math.floor(at));
  return { step, chosen };
}
