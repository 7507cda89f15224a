/** Finding: the scan is blurred along one direction. */
import { shakeOf } from "../sharpness/sharpness-map.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, PRACTICE } from "./common.ts";

export const shake: FindingKind = {
  code: "shaken",
  severity: "warning",
  meaning: "Grain is blurred in one direction all over the scan: camera or film moved while the shutter was open.",
  limit: 1.8,
  unit: "px of movement",
  source: PRACTICE,
  cause: "The release was pressed by hand, the shutter shook the stand, or somebody walked by.",
  remedy: "Release by cable or timer with the electronic first curtain, weight the stand, and wait until it is still.",
  find: ({ scans }) =>
    scans.flatMap((scan): Found[] => {
      const found = shakeOf(scan);
      if (!found || found.length <= shake.limit) return [];
      const { left, top, width, height } = scan.area;
      return [
        {
          measured: found.length,
          message: msg(
            "The scan is smeared by {0} px along {1}° (clockwise from level).",
            found.length.toFixed(1),
            found.angle.toFixed(0),
          ),
          place: at(scan, [left, top, width, height]),
        },
      ];
    }),
};
