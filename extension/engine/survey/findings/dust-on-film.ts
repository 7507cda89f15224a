/** Finding: specks and hairs on the film. */
import { isLine } from "../../image/spot.ts";
import { dustOf } from "../dust.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, PRACTICE } from "./common.ts";

export const dustOnFilm: FindingKind = {
  code: "dust",
  severity: "info",
  meaning:
    "Specks and hairs lie on the film. Each can be healed as a spot of its frame, but a clean film keeps its own grain.",
  limit: 18,
  unit: "specks on a frame",
  source: PRACTICE,
  cause: "Dust from the air, the sleeve or the holder.",
  remedy:
    "Blow or brush the film just before the scan, with an antistatic brush; heal the rest by the spots that the survey proposes.",
  find: (roll) =>
    roll.scans.flatMap((scan): Found[] => {
      const dust = dustOf(roll, scan);
      if (dust.length <= dustOnFilm.limit) return [];
      const hairs = dust.filter(({ spots }) => spots.some(isLine)).length;
      const { left, top, width, height } = scan.area;
      return [
        {
          measured: dust.length,
          message:
            hairs === 0
              ? msg("{0} specks lie on the film.", dust.length)
              : hairs === 1
                ? msg("{0} specks lie on the film, one of them a hair.", dust.length)
                : msg("{0} specks lie on the film, {1} of them hairs.", dust.length, hairs),
          place: at(scan, [left, top, width, height]),
        },
      ];
    }),
};
