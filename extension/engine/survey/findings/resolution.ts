/** Finding: few samples to an inch of film. */
import { FADGI_FILM, FADGI_SOURCE } from "../fadgi.ts";
import { msg } from "../../messages.ts";
import { ppiOf } from "../scale.ts";
import type { FindingKind } from "../types.ts";
import { at, usual } from "./common.ts";

/** Pixels an inch of paper that a print looked at closely carries (common practice). */
const PRINT = 300;

export const resolution: FindingKind = {
  code: "low-resolution",
  severity: "info",
  meaning: "There are few samples to an inch of film: grain is not resolved, and prints stay small.",
  limit: FADGI_FILM.resolution.levels[0],
  unit: "ppi on the film (at least)",
  source: `${FADGI_SOURCE}, one star`,
  cause: "The frame fills too little of the sensor, or the sensor has few pixels for film this large.",
  remedy:
    "Move the camera nearer until the frame fills the sensor (35 mm: about 1:1, 15 MP are enough; common practice), or join several scans.",
  find(roll) {
    const ppis = roll.scans.map((scan) => ppiOf(roll, scan));
    const ppi = usual(ppis);
    if (ppi === undefined || ppi >= resolution.limit) return [];
    const scan = roll.scans[ppis.indexOf(ppi)];
    const long = ((scan.area.width * scan.info.width) / PRINT) * 2.54;
    const { left, top, width, height } = scan.area;
    return [
      {
        measured: ppi,
        message: msg(
          "{0} samples per inch of film are enough for a print {1} cm wide at {2} ppi.",
          ppi.toFixed(0),
          long.toFixed(0),
          PRINT,
        ),
        place: at(scan, [left, top, width, height]),
      },
    ];
  },
};
