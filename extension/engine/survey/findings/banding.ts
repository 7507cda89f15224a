/** Finding: bright and dark bands run across the scan, as a flickering lamp leaves them. */
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { PRACTICE } from "./common.ts";

export const banding: FindingKind = {
  code: "banded-light",
  severity: "warning",
  meaning:
    "Bright and dark bands run across the scan. They lie elsewhere in every scan, so a blank cannot take them out.",
  limit: 0.5,
  unit: "% of the light (amplitude)",
  source: `${PRACTICE} (a band of that size shows in an even sky)`,
  cause: "The light flickers with its dimmer or the mains while the electronic shutter reads the sensor line by line.",
  remedy: "Use the mechanical shutter or a time of 1/15 s and longer, and do not dim the light.",
  find({ blank }) {
    if (!blank || blank.banding <= banding.limit) return [];
    const amplitude = blank.banding.toFixed(2);
    return [
      {
        measured: blank.banding,
        message:
          blank.bandingAlong === "rows"
            ? msg("Bands along the rows vary the light by ±{0} %.", amplitude)
            : msg("Bands along the columns vary the light by ±{0} %.", amplitude),
        place: { scan: blank.name, area: [0, 0, 1, 1] },
      },
    ];
  },
};
