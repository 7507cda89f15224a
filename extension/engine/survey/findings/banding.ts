import type { FindingKind } from "../types.ts";
import { PRACTICE } from "./common.ts";

export const banding: FindingKind = {
  code: "banded-light",
  severity: "warning",
  meaning:
    "Bright and dark bands run across the scan. They lie elsewhere in every scan, so a blank cannot take them out.",
  limit: 0.5,
  unit: "% of the light (half the swing)",
  source: `${PRACTICE} (a band of that size shows in an even sky)`,
  cause: "The light flickers with its dimmer or the mains while the electronic shutter reads the sensor line by line.",
  cure: "Use the mechanical shutter or a time of 1/15 s and longer, and do not dim the light.",
  find({ blank }) {
    if (!blank || blank.banding <= banding.limit) return [];
    return [
      {
        measured: blank.banding,
        message: `Bands along the ${blank.bandingAlong} swing by ±${blank.banding.toFixed(2)} % of the light.`,
        place: { scan: blank.name, area: [0, 0, 1, 1] },
      },
    ];
  },
};
