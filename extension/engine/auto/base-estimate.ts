/**
 * The base where no unexposed film is in view: the thinnest film over the whole roll, which is a shadow of the pictures
 * and so a little denser, weighed against what masks of published films are.
 */
import type { Rgb } from "../types.ts";
import { type Blocks, densitiesAbove, quantile, sortedChannel } from "./blocks.ts";
import { MASK } from "./table.ts";
import type { NeutralPrior } from "./prior.ts";

export interface BaseEstimate {
  readonly density: Rgb;
  /** Standard deviation of green, and of red and blue over it, D. */
  readonly spread: readonly [green: number, colour: number];
}

/** Part of all blocks that is taken as the thinnest. */
const THINNEST = 0.002;
/** Standard deviation of the deepest shadow above base, D: of one picture; of a roll with one dark frame it is less. */
const SHADOW = { onePicture: 0.1, min: 0.045 };

export interface BaseOptions {
  /** Its lower end says how red and blue go with green in shadows. */
  readonly prior: NeutralPrior;
  /** Whether blocks are measured against a blank, so that published masks tell what to expect. */
  readonly masked: boolean;
  /** Density of the deepest shadow above base, D: at least, and on a roll of one picture. */
  readonly shadow: readonly [least: number, one: number];
}

/** @param frames blocks of the pictures of a negative */
export function baseFromPictures(frames: readonly Blocks[], { prior, masked, shadow }: BaseOptions): BaseEstimate {
  const densities = frames.map((f) => densitiesAbove(f, [0, 0, 0]));
  const thin = [0, 1, 2].map((c) => quantile(sortedChannel(densities, c), THINNEST));
  const rootCount = Math.sqrt(Math.max(1, frames.length));
  // The least of several shadows falls off with their number, as that of exponentially distributed ones does.
  const shadowAboveBase = Math.max(shadow[0], shadow[1] / Math.max(1, frames.length));
  const [red, blue] = [prior.red[2] / prior.green[2], prior.blue[2] / prior.green[2]];
  const seen: Rgb = [thin[0] - shadowAboveBase * red, thin[1] - shadowAboveBase, thin[2] - shadowAboveBase * blue];
  const shadowSpread = Math.max(SHADOW.min, SHADOW.onePicture / rootCount);
  if (!masked) return { density: seen, spread: [shadowSpread, 0.05] };
  // Weighed against published masks as a whole; nothing is thinner than the base.
  const weight = MASK.spread[1] ** 2 / (MASK.spread[1] ** 2 + shadowSpread ** 2);
  const green = Math.min(MASK.mean[1] + weight * (seen[1] - MASK.mean[1]), thin[1] - 0.01);
  const shift = green - seen[1];
  return {
    density: [seen[0] + shift * red, green, seen[2] + shift * blue],
    spread: [Math.sqrt(weight) * shadowSpread, 0.05],
  };
}
