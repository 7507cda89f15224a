/** The lights that may be behind a film: published ones, and made ones that have the colour of the blank. */
import { type Spectrum, WAVELENGTHS } from "../film/library/types.ts";
import { solveLinear } from "../math/least-squares.ts";
import type { Rgb } from "../types.ts";

/** A light that may be behind the film. */
export interface CandidateLight {
  readonly name: string;
  readonly power: Spectrum;
  readonly prior: number;
}

/** Red, green and blue sensitivity of a camera. */
export type Sensitivity = readonly [Spectrum, Spectrum, Spectrum];

/** How common each kind of copy light is: most are white LEDs (common practice, no source). */
const SHARES = { published: 0.2, white: 0.6, narrow: 0.2 };

/** Names of the made lights. */
export const MADE_LIGHTS = { white: "white LED", narrow: "red, green and blue LED" } as const;

/** Three parts of a made light. */
interface Parts {
  readonly spectra: readonly [red: Spectrum, green: Spectrum, blue: Spectrum];
  /** Strengths where no blank gives them. */
  readonly usual: Rgb;
}

/** A peak with its own width on either side, nm; 1 at its top. */
const peak = (top: number, below: number, above = below): Spectrum =>
  WAVELENGTHS.map((nm) => Math.exp(-(((nm - top) / (nm < top ? below : above)) ** 2) / 2));

const each = (...lists: readonly (readonly number[])[]): number[][] =>
  lists.reduce<number[][]>((all, list) => all.flatMap((one) => list.map((v) => [...one, v])), [[]]);

/** White LEDs: a blue pump at 440–460 nm, a broad phosphor, and a red one (common practice, no source). */
const WHITE: readonly Parts[] = each([443, 451, 459], [530, 545, 560, 575, 590], [36, 48], [620, 640]).map(
  ([pump, phosphor, width, red]) => ({
    spectra: [peak(red, 20, 24), peak(phosphor, width, 1.3 * width), peak(pump, 9, 12)],
    usual: [0.3, 1, 0.9],
  }),
);
/** Panels of three narrow LEDs; half-widths of 20 to 35 nm (common practice, no source). */
const NARROW: readonly Parts[] = each([450, 460, 470], [515, 525, 535, 545], [615, 625, 635, 645]).map(
  ([blue, green, red]) => ({ spectra: [peak(red, 9), peak(green, 15), peak(blue, 10)], usual: [1, 0.8, 1] }),
);

/**
 * The published lights, and made ones whose parts have the strengths that give a colour.
 * @param through what lies between light and camera where `seen` was read: undefined for the bare light, else transmittance
 * @param seen raw red, green and blue, any scale; undefined where nothing was read
 * @returns lights with prior probabilities
 */
export function candidateLights(
  published: Readonly<Record<string, Spectrum>>,
  sensitivity: Sensitivity,
  seen: Rgb | undefined,
  through?: Spectrum,
): CandidateLight[] {
  const listed = Object.entries(published);
  const made = (name: string, share: number, all: readonly Parts[]): CandidateLight[] => {
    const powers = all.flatMap((parts) => mixed(parts, sensitivity, seen, through));
    return powers.map((power) => ({ name, power, prior: share / powers.length }));
  };
  return [
    ...listed.map(([name, power]) => ({ name, power, prior: SHARES.published / listed.length })),
    ...made(MADE_LIGHTS.white, SHARES.white, WHITE),
    ...made(MADE_LIGHTS.narrow, SHARES.narrow, NARROW),
  ];
}

/** Parts that would need less than none of themselves are taken for none within this part of the strongest. */
const BELOW_NONE = 0.05;

/** The light of three parts that has the colour; none where no strengths give it. */
function mixed({ spectra, usual }: Parts, sensitivity: Sensitivity, seen?: Rgb, through?: Spectrum): Spectrum[] {
  const sum = (s: readonly number[]): Spectrum =>
    WAVELENGTHS.map((_, i) => s[0] * spectra[0][i] + s[1] * spectra[1][i] + s[2] * spectra[2][i]);
  if (!seen) return [sum(usual)];
  const level = sensitivity.map((s) =>
    spectra.map((part) => s.reduce((total, v, i) => total + v * part[i] * (through?.[i] ?? 1), 0)),
  );
  const strengths = solveLinear(level, seen);
  if (!(Math.min(...strengths) > -BELOW_NONE * Math.max(...strengths))) return [];
  return [sum(strengths.map((v) => Math.max(0, v)))];
}
