/** Toe and shoulder of one version of the recipe in the terms of the other: the nearest that its range has. */
import { deltaE2000 } from "../colour/difference.ts";
import { labOf, lightnessOf } from "../colour/lab.ts";
import { MID_GREY } from "../colour/density.ts";
import { SPACES, toD50 } from "../colour/spaces.ts";
import { apply } from "../math/matrix.ts";
import { toneCurve } from "./print-curve.ts";
import type { Rgb, ToneLook } from "../types.ts";

/** What `version` of a recipe can be. */
export type ToneVersion = 1 | 2;

export type ToneEnd = "toe" | "shoulder";

/** Recipes have two decimals of a toe and a shoulder. */
const STEP = 0.01;
const RANGES = { 1: [0, 1], 2: [-1, 1] } as const;

/** A print curve of nothing but toe and shoulder, with the usual black, on which values are compared. */
const PLAIN: ToneLook = { contrast: 1, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] };

/** log10 exposures from mid-grey on which two curves are compared: 13 stops in steps of a quarter. */
const DISTANCES = Array.from({ length: 53 }, (_, i) => i * 0.0753);

const found = new Map<string, number>();
const rows = new Map<string, readonly number[]>();

/**
 * A toe or shoulder in the terms of another version: the value, in hundredths, whose greys lie nearest, by the largest
 * ΔE00. It depends on the value alone, so that a file can be converted without those it inherits from.
 */
export function toneEndIn(version: ToneVersion, end: ToneEnd, value: number, from: ToneVersion): number {
  if (version === from) return value;
  const key = `${version} ${end} ${value}`;
  const known = found.get(key);
  if (known !== undefined) return known;
  const wanted = greysOf(end, value, from);
  const [min, max] = RANGES[version];
  let [nearest, least] = [min as number, Infinity];
  for (let k = Math.round(min / STEP); k <= Math.round(max / STEP); k++) {
    const candidate = Number((k * STEP).toFixed(2)) + 0;
    const row = `${version} ${end} ${candidate}`;
    if (!rows.has(row)) rows.set(row, greysOf(end, candidate, version));
    const difference = largest(wanted, rows.get(row)!, least);
    if (difference < least) [nearest, least] = [candidate, difference];
  }
  found.set(key, nearest);
  return nearest;
}

/** A print curve whose toe and shoulder are of `version`. */
export function toneIn(version: ToneVersion, tone: ToneLook): ToneLook {
  const from = tone.version ?? 1;
  const { version: _, ...rest } = tone;
  const end = (name: ToneEnd): number => toneEndIn(version, name, tone[name], from);
  return { ...rest, toe: end("toe"), shoulder: end("shoulder"), ...(version === 2 ? { version } : {}) };
}

/** L* of greys along one end of the curve. */
function greysOf(end: ToneEnd, value: number, version: ToneVersion): number[] {
  const neutral = version === 2 ? { toe: 0, shoulder: 0, version } : {};
  const curve = toneCurve({ ...PLAIN, ...neutral, [end]: value });
  const side = end === "toe" ? -1 : 1;
  return DISTANCES.map((distance) => lightnessOf(curve(MID_GREY * 10 ** (side * distance))));
}

/** The largest ΔE00 of two rows of greys; once beyond `enough`, any number above it. */
function largest(one: readonly number[], two: readonly number[], enough: number): number {
  let most = 0;
  for (let i = 0; i < one.length && most <= enough; i++)
    most = Math.max(most, deltaE2000([one[i], 0, 0], [two[i], 0, 0]));
  return most;
}

/** Exposures of each channel from which colours are made, log10 over mid-grey: 6 stops under to 4 over. */
const LEVELS = Array.from({ length: 11 }, (_, i) => MID_GREY * 2 ** (i - 6));

/**
 * The largest ΔE00 between the prints of two tone looks, over greys and colours of eleven exposures in each channel of
 * linear sRGB, a stop apart; greys alone where the film has one channel.
 */
export function toneDifference(one: ToneLook, two: ToneLook, channels: 1 | 3): number {
  const [a, b] = [one, two].map((tone) => LEVELS.map(toneCurve(tone)));
  const toXyz = toD50(SPACES.srgb);
  const lab = (values: readonly number[], r: number, g: number, b: number) =>
    labOf(apply(toXyz, [values[r], values[g], values[b]] as Rgb));
  let most = 0;
  const compare = (r: number, g: number, blue: number): void => {
    most = Math.max(most, deltaE2000(lab(a, r, g, blue), lab(b, r, g, blue)));
  };
  LEVELS.forEach((_, r) => {
    if (channels === 1) compare(r, r, r);
    else LEVELS.forEach((_, g) => LEVELS.forEach((_, blue) => compare(r, g, blue)));
  });
  return most;
}
