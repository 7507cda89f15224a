/** Finding: the scan took less light than the sensor could have, so that dense tones are noisy. */
import { msg } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, PRACTICE } from "./common.ts";

/** Range left unused, in stops, above which noise in dense tones is worth a finding, and above which it always is. */
const [MIN_UNUSED_STOPS, ALWAYS_REPORTED_STOPS] = [1.3, 2.3];

export const underExposure: FindingKind = {
  code: "under-exposed",
  severity: "warning",
  meaning:
    "Light that the sensor could have taken was left out, and in the film's densest tones (the highlights of a negative) the sensor's noise rivals the film's grain.",
  limit: 0.6,
  unit: "noise over grain",
  source: PRACTICE,
  cause: "The shutter was open too briefly, the stop too small or the light too weak.",
  remedy: "Lengthen the shutter time by the stops that are free, at the lowest ISO; film does not move.",
  find: ({ scans }) =>
    scans.flatMap((scan): Found[] => {
      const unused = Math.log2(0.9 / Math.max(1e-4, ...scan.brightest));
      const ratio = scan.noiseOverGrain;
      const noisy = ratio !== undefined && ratio > underExposure.limit;
      if (unused < MIN_UNUSED_STOPS || !(noisy || unused > ALWAYS_REPORTED_STOPS)) return [];
      return [
        {
          measured: ratio ?? 2 ** unused,
          message:
            ratio === undefined
              ? msg("The clearest film stays {0} EV below the sensor's limit.", unused.toFixed(1))
              : msg(
                  "The clearest film stays {0} EV below the sensor's limit. Noise is {1} of the grain in the densest tones.",
                  unused.toFixed(1),
                  ratio.toFixed(2),
                ),
          place: at(scan, scan.densestAt),
        },
      ];
    }),
};
