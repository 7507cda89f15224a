/** Finding: the clearest film comes near the sensor's limit. */
import { msg } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, CHANNEL, largest, percent, PRACTICE } from "./common.ts";

export const headroom: FindingKind = {
  code: "little-headroom",
  severity: "info",
  meaning:
    "The clearest film comes so near the sensor's limit that a slightly brighter light or clearer frame would clip.",
  limit: 96,
  unit: "% of saturation",
  source: PRACTICE,
  cause: "The exposure was set right up to the sensor's limit.",
  remedy: "Expose a third of a stop less.",
  find: ({ scans }) =>
    scans.flatMap((scan): Found[] => {
      const { value, index } = largest(scan.brightest);
      // Where more of it is at the limit, it is a finding of its own.
      if (100 * value <= headroom.limit || Math.max(...scan.clipped) > 0.001) return [];
      return [
        {
          measured: 100 * value,
          message: msg(
            "The clearest film reaches {0} of the sensor's range in {1}.",
            percent(value, 0),
            CHANNEL[index]!,
          ),
          place: at(scan),
        },
      ];
    }),
};
