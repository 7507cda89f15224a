/** How a roll's base differs from the one its stock was measured with, and of which kind the difference is. */
import type { Rgb } from "../../types.ts";

export interface BaseDifference {
  /** New minus reference, per channel. */
  readonly density: Rgb;
  /** The part that all channels share, and what is left over. */
  readonly even: number;
  readonly colour: Rgb;
  /** One of: the same, denser alike (fog, age, development), thinner alike, other colour (light, camera, stock). */
  readonly kind: "same" | "denser" | "thinner" | "fogged" | "other colour";
  /** Whether both can be of one stock, light and camera. */
  readonly isOneStock: boolean;
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
  return { density, even, colour, kind: kindOf(density, even, cast), isOneStock: cast <= MAX_CAST };
}

function kindOf([red, green, blue]: Rgb, even: number, cast: number): BaseDifference["kind"] {
  if (Math.max(Math.abs(red), Math.abs(green), Math.abs(blue)) <= READING_TOLERANCE) return "same";
  const isFogLike = blue >= green - 0.005 && green >= red - 0.005 && even > 0;
  if (cast > MAX_CAST) return "other colour";
  if (cast > READING_TOLERANCE) return isFogLike ? "fogged" : "other colour";
  return even > 0 ? "denser" : "thinner";
}
