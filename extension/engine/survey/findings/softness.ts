/** Finding: grain is blurred even where the scan is sharpest. */
import { FADGI_SOURCE } from "../fadgi.ts";
import { halfResponse, sharpestOf } from "../sharpness/sharpness-map.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at } from "./common.ts";

/** Standard errors by which blur has to exceed the limit. */
const CLEAR = 1.5;

export const softness: FindingKind = {
  code: "unsharp",
  severity: "warning",
  meaning:
    "Grain is blurred even where the scan is sharpest: the response falls to half at a low frequency, and fine detail of the film is lost.",
  limit: 35,
  unit: "% of half the sampling frequency (MTF50, at least)",
  source: `${FADGI_SOURCE}, three stars`,
  cause: "Focus is off, the stop is too small or too large, or the lens is not made for this magnification.",
  remedy: "Focus on the grain itself with the magnified live view at the working stop, then do not touch the lens.",
  find: ({ scans }) =>
    scans.flatMap((scan): Found[] => {
      const sharpest = sharpestOf(scan);
      if (!sharpest) return [];
      const half = halfResponse(sharpest.sigma);
      if (halfResponse(sharpest.sigma - CLEAR * sharpest.error) >= softness.limit) return [];
      return [
        {
          measured: half,
          message: msg(
            "Where the scan is sharpest, its response falls to half at {0} % of half the sampling frequency (blur of {1} px).",
            half.toFixed(0),
            sharpest.sigma.toFixed(1),
          ),
          place: at(scan, sharpest.area),
        },
      ];
    }),
};
