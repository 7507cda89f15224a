/** Colours of an export that a screen cannot show. */
import { conversion, SPACES } from "../../extension/engine/colour/spaces.ts";
import { evaluator } from "../../extension/engine/film/reference-pixel.ts";
import { apply } from "../../extension/engine/math/matrix.ts";
import type { FrameLook, OutputSpace, Rgb } from "../../extension/engine/types.ts";

/** Linear light beyond the screen's primaries by less than this is not seen as another colour. */
const TOLERANCE = 0.002;
/** Places that are looked at: enough for a part of a thousandth. */
const PLACES = 3000;

/**
 * Part of a picture, 0 … 1, whose colours in an output's space lie outside of the screen's.
 * @param samples transmittances, three a place (histogram.ts)
 */
export function beyondScreen(
  samples: Float32Array,
  look: FrameLook,
  output: OutputSpace,
  screen: "srgb" | "p3",
  weights: Rgb,
): number {
  if (output === screen || output === "srgb" || (look.film === "black-and-white-negative" && !look.toning)) return 0;
  const read = evaluator(look, output, weights);
  const toScreen = conversion(SPACES[output], SPACES[screen]);
  const places = samples.length / 3;
  const step = Math.max(1, Math.floor(places / PLACES));
  let [seen, beyond] = [0, 0];
  for (let i = 0; i < places; i += step, seen++) {
    const { linear } = read([samples[3 * i], samples[3 * i + 1], samples[3 * i + 2]]);
    const shown = apply(toScreen, linear);
    if (Math.min(...shown) < -TOLERANCE || Math.max(...shown) > 1 + TOLERANCE) beyond++;
  }
  return seen === 0 ? 0 : beyond / seen;
}
