/** Finding: photosites at full scale inside the picture. */
import { msg } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, CHANNEL, largest, percent, PRACTICE } from "./common.ts";

export const clipping: FindingKind = {
  code: "clipped",
  severity: "error",
  meaning:
    "Part of the film is at the sensor's limit in at least one channel. Those tones (the shadows of a negative, and the base itself) cannot be told apart any more.",
  limit: 0.1,
  unit: "% of the film's pixels",
  source: PRACTICE,
  cause: "The shutter was open too long for film this clear, or the light is too bright.",
  remedy: "Shorten the shutter time until the film's base stays below the limit in every channel; meter on the rebate.",
  find: ({ scans }) =>
    scans.flatMap((scan): Found[] => {
      const { value, index } = largest(scan.clipped);
      if (100 * value <= clipping.limit) return [];
      return [
        {
          measured: 100 * value,
          message: msg("{0} of the film is at the sensor's limit in {1}.", percent(value), CHANNEL[index]!),
          place: at(scan, scan.clippedAt),
        },
      ];
    }),
};
