/**
 * The readable definition of the way from transmittance to positive, in double precision, with every value in between.
 * The densitometer shows it; the fast plan is tested against it.
 */
import { clamp } from "../math/clamp.ts";
import { chainOf, MIN_D, MIN_H, MIN_T, MAX_D, MAX_H, MAX_T } from "./look-steps.ts";
import { labOf, type Lab } from "../colour/lab.ts";
import { SPACES, toD50 } from "../colour/spaces.ts";
import { densityOf, MID_GREY } from "../colour/density.ts";
import { apply } from "../math/matrix.ts";
import { toneCurve } from "./print-curve.ts";
import { printColour } from "./toning.ts";
import type { FrameLook, OutputSpace, Rgb } from "../types.ts";

/** One pixel's values along the chain. One-channel film carries its one value three times. */
export interface Reading {
  /** Transmittance, held to what the chain takes. What is no finite number counts as clear film further on. */
  readonly transmittance: Rgb;
  /** Density above base, before unmixing and filtration. */
  readonly density: Rgb;
  /** Density above base, unmixed and filtered. */
  readonly balanced: Rgb;
  /** log10 exposure relative to mid-grey, brightness included. */
  readonly logExposure: Rgb;
  /** Linear output RGB before the print curve; 0.18 is mid-grey. */
  readonly exposure: Rgb;
  /** Linear output RGB after it, 0 … 1. */
  readonly linear: Rgb;
  /** Encoded for the output space, 0 … 1. */
  readonly encoded: Rgb;
  /** L*a*b* under D50. */
  readonly lab: Lab;
}

const each = (v: Rgb, f: (x: number, c: 0 | 1 | 2) => number): Rgb => [f(v[0], 0), f(v[1], 1), f(v[2], 2)];

/** What an area of local exposure adds at a pixel; see engine/local/areas.ts. */
interface Adjustment {
  readonly density: Rgb;
  readonly exposure: number;
  readonly contrast: number;
}

const NOTHING: Adjustment = { density: [0, 0, 0], exposure: 0, contrast: 1 };

/** Makes the function that reads one pixel; see `chainOf` for weights and errors. */
export function evaluator(
  look: FrameLook,
  space: OutputSpace,
  weights?: Rgb,
): (transmittance: Rgb, local?: Adjustment) => Reading {
  const chain = chainOf(look, space, weights);
  const mono = chain.channels === 1;
  const tone = toneCurve(look.tone);
  const colour = printColour(look, space);
  const { encode } = SPACES[space];
  const toXyz = toD50(SPACES[space]);

  return (scan, local = NOTHING) => {
    const w = chain.weights;
    const sum = w[0] * scan[0] + w[1] * scan[1] + w[2] * scan[2];
    const transmittance = each(mono ? [sum, sum, sum] : scan, (t) => (isFinite(t) ? clamp(t, MIN_T, MAX_T) : NaN));
    const opacity = each(transmittance, densityOf);
    const o = chain.offset;
    const unfiltered: Rgb = look.film === "slide" ? [0, 0, 0] : look.base;
    const density = each(opacity, (d, c) => (mono ? d + o[0] : d - unfiltered[c]));
    const mixed = apply(chain.unmix, opacity);
    const balanced = mono ? density : each(mixed, (d, c) => d + o[c] + local.density[c]);
    const gain = 2 ** local.exposure;
    const film = each(balanced, (d, c) => gain * chain.exposureOf[mono ? 0 : c](clamp(d, MIN_D, MAX_D)));
    const exposure = apply(chain.colour, film);
    const spread = (h: number): number =>
      local.contrast === 1 ? h : MID_GREY * (clamp(h, MIN_H, MAX_H) / MID_GREY) ** local.contrast;
    const linear = each(exposure, (h, c) => {
      const y = tone(clamp(spread(h), MIN_H, MAX_H));
      return colour ? colour(c, y) : y;
    });
    return {
      transmittance,
      density,
      balanced,
      logExposure: each(film, (h) => Math.log10(h / MID_GREY)),
      exposure,
      linear,
      encoded: each(linear, encode),
      lab: labOf(apply(toXyz, linear)),
    };
  };
}
