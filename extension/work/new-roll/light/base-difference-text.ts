/** What a difference of base usually means, for people. */
import type { BaseDifference } from "../../../engine/auto/roll/base-difference.ts";

const MEANINGS: Readonly<Record<BaseDifference["kind"], string>> = {
  same: "As it should be: the stock's look applies as it is.",
  fogged:
    "Denser, most of all in blue: age, heat or fog. Shadows have less room; the look transfers, check the balance.",
  "other colour":
    "Of another colour: another light or camera than the stock was measured with, or another development.",
  denser: "Denser in all channels alike: more development, fog, or a dimmer blank. The look transfers.",
  thinner: "Thinner in all channels alike: less development, or flare. The look transfers.",
};
const OTHER_STOCK =
  "Too much for one stock: another light or camera, no blank, or another film. Measure the stock's values again.";

/** Two sentences: the numbers, and what they mean. */
export function baseDifferenceText({ density, kind, isOneStock }: BaseDifference): string {
  const numbers = density.map((d) => `${d < 0 ? "−" : "+"}${Math.abs(d).toFixed(3)}`).join(", ");
  return `Against the stock's base (red, green, blue): ${numbers} D. ${isOneStock ? MEANINGS[kind] : OTHER_STOCK}`;
}
