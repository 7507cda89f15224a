/** Finding: light leaks in along one side of the frame. */
import { median } from "../../math/statistics.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found, SurveyedRoll } from "../types.ts";
import { at, percent, PRACTICE } from "./common.ts";

/** Transmittance of the base beside the picture, per channel: what most sides show, and not below the recipe's. */
function baseOf({ base }: SurveyedRoll, strips: SurveyedRoll["scans"][0]["rebate"]): number[] {
  return [0, 1, 2].map((c) => {
    const usual = median(strips.map((s) => s.inner[c]));
    return Math.max(usual, base ? 10 ** -base[c] : 0);
  });
}

const SIDE = { left: msg("left"), right: msg("right"), top: msg("top"), bottom: msg("bottom") };

export const lightLeak: FindingKind = {
  code: "light-leak",
  severity: "warning",
  meaning:
    "Light leaks in along one side: the rebate is clearer there than elsewhere, in every channel alike, and the picture beside it is too thin.",
  limit: 1.5,
  unit: "% of the bare light",
  source: PRACTICE,
  cause: "Light passes between film and holder, or the panel shines past the holder's edge.",
  remedy: "Press the film flat into the holder, tape the gap, and mask the panel outside the frame.",
  find: (roll) =>
    roll.scans.flatMap((scan): Found[] => {
      if (scan.rebate.length < 2) return [];
      const base = baseOf(roll, scan.rebate);
      // Leaking light adds the same to every channel; a clearer film or a hole does not.
      const transmittanceAboveBase = scan.rebate.map((strip) => Math.min(...strip.outer.map((t, c) => t - base[c])));
      const max = Math.max(...transmittanceAboveBase);
      const strip = scan.rebate[transmittanceAboveBase.indexOf(max)];
      const inside = Math.max(0, Math.min(...strip.inner.map((t, c) => t - base[c])));
      // Bare light beside the film ends with the film; a leak reaches on towards the picture.
      const isBare = Math.max(...strip.outer) > 0.97 && 100 * inside <= lightLeak.limit;
      if (100 * max <= lightLeak.limit || isBare) return [];
      return [
        {
          measured: 100 * max,
          message: msg(
            "Light leaks in along the {1}: {0} of the bare light, and {2} at the picture's edge.",
            percent(max),
            SIDE[strip.side],
            percent(inside),
          ),
          place: at(scan, strip.area),
        },
      ];
    }),
};
