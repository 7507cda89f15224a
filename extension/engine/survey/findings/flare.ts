/** Finding: light that did not pass through the film, measured on the holder. */
import type { Rgb } from "../../types.ts";
import { median } from "../../math/statistics.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found, ScanReading, SurveyedRoll } from "../types.ts";
import { at, largest, percent, PRACTICE } from "./common.ts";

export const flare: FindingKind = {
  code: "flare",
  severity: "warning",
  meaning:
    "The holder, which lets nothing through, is not black in the scan, or, where none is in view, the specks on dense film are not grey: veiling light lies over everything and flattens the film's dense tones.",
  limit: 1,
  unit: "% of the bare light",
  source: PRACTICE,
  cause:
    "Light from the panel beside the film, a bright room, a dusty or unhooded lens, or reflections between film and lens.",
  remedy: "Mask the panel down to the film, darken the room, clean and hood the lens; then measure light.flare again.",
  find: (roll) => [...onHolders(roll), ...bySpecks(roll)],
};

function onHolders({ scans, flare: known }: SurveyedRoll): Found[] {
  return scans.flatMap((scan): Found[] => {
    if (!scan.mask) return [];
    const { value } = largest(scan.mask);
    if (100 * value <= flare.limit) return [];
    return [
      {
        measured: 100 * value,
        message:
          Math.max(...known) > 0
            ? msg("The holder's dark edge shows {0} of the bare light more than light.flare subtracts.", percent(value))
            : msg("The holder's dark edge shows {0} of the bare light.", percent(value)),
        place: at(scan, scan.maskAt),
      },
    ];
  });
}

/** One scan's specks may be wrong, and most of a roll's scans hardly: they hold about the same flare. */
function bySpecks({ scans }: SurveyedRoll): Found[] {
  if (100 * (flareFromSpecksOf(scans) ?? 0) <= flare.limit) return [];
  return scans.flatMap((scan): Found[] => {
    const { mask, flareFromSpecks: value = 0 } = scan;
    if (mask || 100 * value <= flare.limit) return [];
    return [
      {
        measured: 100 * value,
        message: msg(
          "No holder is in view, but the specks on the film become neutral only when {0} of the bare light is subtracted as flare, beyond light.flare.",
          percent(value),
        ),
        place: at(scan),
      },
    ];
  });
}

/** Middle of what the specks tell in the scans in which no holder can be read; undefined where that is nothing. */
function flareFromSpecksOf(scans: readonly ScanReading[]): number | undefined {
  const fromSpecks = scans.flatMap(({ mask, flareFromSpecks = 0 }) => (mask ? [] : [flareFromSpecks]));
  return fromSpecks.length > 0 && median(fromSpecks) > 0 ? median(fromSpecks) : undefined;
}

/**
 * Flare of the whole roll as a fraction of the bare light, per channel: the middle of what the holder shows in its scans,
 * else of what the specks tell, with what the recipe takes off already. Undefined where neither says anything.
 */
export function measuredFlare({ scans, flare: known }: Pick<SurveyedRoll, "scans" | "flare">): Rgb | undefined {
  const masks = scans.flatMap(({ mask }) => (mask ? [mask] : []));
  const fromSpecks = masks.length === 0 ? flareFromSpecksOf(scans) : undefined;
  if (masks.length === 0 && fromSpecks === undefined) return undefined;
  // The holder's transmittance is what is left of it: T = (s − f) / (1 − f).
  const of = (c: 0 | 1 | 2): number =>
    Math.max(0, known[c] + (fromSpecks ?? median(masks.map((mask) => mask[c]))) * (1 - known[c]));
  return [of(0), of(1), of(2)];
}
