/** How a roll's base differs from the one its stock was measured with, and what that usually means. */
import type { Rgb } from "../types.ts";

export interface BaseDifference {
  /** New minus reference, per channel. */
  readonly density: Rgb;
  /** The part that all channels share, and what is left over. */
  readonly even: number;
  readonly colour: Rgb;
  /** One of: the same, denser alike (fog, age, development), thinner alike, other colour (light, camera, stock). */
  readonly kind: "same" | "denser" | "thinner" | "fogged" | "other colour";
  readonly words: string;
}

/** Bases of two rolls of one stock, read on one stand, agree within this. */
const READING_TOLERANCE = 0.03;
/** Above this it is not the same stock, or not the same light and camera. */
const MAX_CAST = 0.12;

/**
 * @param reference base that the stock's recipe states
 * @param read base of the new roll
 */
export function compareBase(reference: Rgb, read: Rgb): BaseDifference {
  const density: Rgb = [read[0] - reference[0], read[1] - reference[1], read[2] - reference[2]];
  const even = (density[0] + density[1] + density[2]) / 3;
  const colour: Rgb = [density[0] - even, density[1] - even, density[2] - even];
  const cast = Math.max(...colour.map(Math.abs));
  const size = Math.max(...density.map(Math.abs));
  const numbers = density.map((d) => `${d < 0 ? "−" : "+"}${Math.abs(d).toFixed(3)}`).join(", ");
  const result = (kind: BaseDifference["kind"], words: string): BaseDifference => ({
    density,
    even,
    colour,
    kind,
    words: `Against the stock's base (red, green, blue): ${numbers} D. ${words}`,
  });
  if (size <= READING_TOLERANCE) return result("same", "As it should be: the stock's look applies as it is.");
  if (cast > MAX_CAST)
    return result(
      "other colour",
      "Too much for one stock: another light or camera, no blank, or another film. Measure the stock's values again.",
    );
  const isFogLike = density[2] >= density[1] - 0.005 && density[1] >= density[0] - 0.005 && even > 0;
  if (cast > READING_TOLERANCE && isFogLike)
    return result(
      "fogged",
      "Denser, most of all in blue: age, heat or fog. Shadows have less room; the look transfers, check the balance.",
    );
  if (cast > READING_TOLERANCE)
    return result(
      "other colour",
      "Of another colour: another light or camera than the stock was measured with, or another development.",
    );
  return even > 0
    ? result("denser", "Denser in all channels alike: more development, fog, or a dimmer blank. The look transfers.")
    : result("thinner", "Thinner in all channels alike: less development, or flare. The look transfers.");
}
