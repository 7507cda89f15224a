/** What a click on the picture sets: filtration from a neutral, exposure from a mid-grey. */
import { chainOf } from "../../extension/engine/film/look-steps.ts";
import { SPACES, toD50 } from "../../extension/engine/colour/spaces.ts";
import type { LocalAdjustment } from "../../extension/engine/local/areas.ts";
import { MID_GREY, STOP } from "../../extension/engine/colour/density.ts";
import { evaluator } from "../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../extension/engine/types.ts";

/** Filters beyond this help nobody: the recipe allows no more. */
const MAX_CC = 200;

/**
 * Filtration that makes a place neutral: cyan stays as it is, as at an enlarger, magenta and yellow bring green and blue
 * to the red's exposure. Undefined for film without colours, and where no filter reaches that far.
 */
export function neutralFiltration(
  look: FrameLook,
  transmittance: Rgb,
  local?: LocalAdjustment,
): FrameLook["filtration"] | undefined {
  if (look.film === "black-and-white-negative") return undefined;
  const chain = chainOf(look, "srgb");
  const read = evaluator(look, "srgb")(transmittance, local);
  const wanted = read.logExposure[0] - STOP * (local?.exposure ?? 0);
  const filter = (c: 1 | 2, now: number): number | undefined => {
    const log = (cc: number): number =>
      Math.log10(chain.exposureOf[c](read.balanced[c] + (cc - now) / 100) / MID_GREY) - wanted;
    let [low, high] = [-MAX_CC, MAX_CC];
    const rising = log(high) > log(low);
    if (log(low) > 0 === log(high) > 0) return undefined;
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (log(middle) > 0 === rising) high = middle;
      else low = middle;
    }
    return (low + high) / 2;
  };
  const magenta = filter(1, look.filtration.magenta);
  const yellow = filter(2, look.filtration.yellow);
  if (magenta === undefined || yellow === undefined) return undefined;
  return { cyan: look.filtration.cyan, magenta, yellow };
}

/** Exposure, in stops, that brings a place's luminance before the print curve to mid-grey; undefined for pure black. */
export function greyExposure(look: FrameLook, transmittance: Rgb, local?: LocalAdjustment): number | undefined {
  const read = evaluator(look, "srgb")(transmittance, local);
  const [r, g, b] = toD50(SPACES.srgb)[1];
  const luminance = r * read.exposure[0] + g * read.exposure[1] + b * read.exposure[2];
  if (!(luminance > 0)) return undefined;
  return look.exposure + Math.log2(MID_GREY / luminance);
}
