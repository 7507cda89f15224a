/** A grey card, or anything known to be grey: the filtration that makes it neutral and the exposure that makes it 18 %. */
import { chainOf } from "../film/look-steps.ts";
import { MID_GREY, STOP } from "../colour/density.ts";
import { apply } from "../math/matrix.ts";
import type { FrameLook, Rgb } from "../types.ts";

export interface GreySetting {
  /** CC units; the filter of the green channel stays as it is. */
  readonly filtration: { readonly cyan: number; readonly magenta: number; readonly yellow: number };
  /** Stops. */
  readonly exposure: number;
}

/** Why a reading cannot be made grey. */
export class GreyError extends Error {
  readonly code = "grey";
}

/** More than this in any filter is no cast of a light but another subject. */
const MAX_CC = 150;

/**
 * Solves for filtration and exposure, exactly: each channel's filter is moved until its exposure is green's.
 * @param transmittance of the card, with the look's light and flare taken off
 * @param reflectance of the card: 0.18
 * @throws GreyError where the reading is at the end of the film's scale, or far from any grey
 */
export function neutralise(look: FrameLook, transmittance: Rgb, reflectance: number = MID_GREY): GreySetting {
  if (look.film === "black-and-white-negative")
    throw new GreyError("Black-and-white film has no colour to balance; set its exposure.");
  const chain = chainOf({ ...look, exposure: 0 }, "srgb");
  const seen: Rgb = [0, 1, 2].map((c) => -Math.log10(Math.max(transmittance[c], 1e-6))) as unknown as Rgb;
  const mixed = apply(chain.unmix, seen);
  const density = [0, 1, 2].map((c) => mixed[c] + chain.offset[c]);
  const green = chain.exposureOf[1](density[1]);
  const added = [0, 2].map((c) => solveDensity(chain.exposureOf[c], green) - density[c]);
  const { cyan, magenta, yellow } = look.filtration;
  const filtration = { cyan: cyan + 100 * added[0], magenta, yellow: yellow + 100 * added[1] };
  if (Math.max(Math.abs(filtration.cyan), Math.abs(filtration.yellow)) > MAX_CC)
    throw new GreyError("This is not grey, or not this film: more than 150 CC would be needed. Choose another place.");
  return { filtration, exposure: Math.log10(reflectance / green) / STOP };
}

/** The density whose exposure is `wanted`; exposures rise or fall steadily with density. */
function solveDensity(exposureOf: (density: number) => number, wanted: number): number {
  let [low, high] = [-1, 5];
  const rising = exposureOf(high) > exposureOf(low);
  const [min, max] = rising ? [exposureOf(low), exposureOf(high)] : [exposureOf(high), exposureOf(low)];
  if (!(wanted > min && wanted < max))
    throw new GreyError("The place is beyond what the film records: choose a lighter or a darker one.");
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (exposureOf(middle) < wanted === rising) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
