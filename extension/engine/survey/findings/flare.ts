import type { Rgb } from "../../types.ts";
import { median } from "../statistics.ts";
import { said } from "../../sentence.ts";
import type { FindingKind, Found, SurveyedRoll } from "../types.ts";
import { at, largest, percent, PRACTICE } from "./common.ts";

export const flare: FindingKind = {
  code: "flare",
  severity: "warning",
  meaning:
    "The holder, which lets nothing through, is not black in the scan: veiling light lies over everything and flattens the film's dense tones.",
  limit: 1,
  unit: "% of the bare light",
  source: PRACTICE,
  cause:
    "Light from the panel beside the film, a bright room, a dusty or unhooded lens, or reflections between film and lens.",
  cure: "Mask the panel down to the film, darken the room, clean and hood the lens; then measure light.flare again.",
  find: ({ scans, flare: known }) =>
    scans.flatMap((scan): Found[] => {
      if (!scan.mask) return [];
      const { value } = largest(scan.mask);
      if (100 * value <= flare.limit) return [];
      return [
        {
          measured: 100 * value,
          message:
            Math.max(...known) > 0
              ? said(
                  "The holder's dark edge holds {0} of the bare light more than the recipe takes off.",
                  percent(value),
                )
              : said("The holder's dark edge holds {0} of the bare light.", percent(value)),
          place: at(scan, scan.maskAt),
        },
      ];
    }),
};

/**
 * Flare of the whole roll as a fraction of the bare light, per channel: the middle of what the holder shows in its scans,
 * with what the recipe takes off already. Undefined where no holder is in view.
 */
export function measuredFlare({ scans, flare: known }: Pick<SurveyedRoll, "scans" | "flare">): Rgb | undefined {
  const masks = scans.flatMap(({ mask }) => (mask ? [mask] : []));
  if (masks.length === 0) return undefined;
  // The holder's transmittance is what is left of it: T = (s − f) / (1 − f).
  const of = (c: 0 | 1 | 2): number => Math.max(0, known[c] + median(masks.map((mask) => mask[c])) * (1 - known[c]));
  return [of(0), of(1), of(2)];
}
