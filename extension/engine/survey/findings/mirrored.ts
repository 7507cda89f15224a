import { mean } from "../statistics.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, names, PRACTICE } from "./common.ts";

export const mirrored: FindingKind = {
  code: "mirrored",
  severity: "warning",
  meaning:
    "The frame numbers on the film's edge read better mirrored: the film lay with its emulsion towards the camera, or the recipe's mirror is set wrongly.",
  limit: 0.06,
  unit: "agreement (mirrored less upright)",
  source: PRACTICE,
  cause: "The film lies the wrong way round in the holder.",
  cure: "Turn the film over, or set mirror: true for these frames.",
  find({ scans }): Found[] {
    const read = scans.filter((s) => s.lettering !== undefined);
    if (read.length === 0) return [];
    const all = -mean(read.map((s) => s.lettering ?? 0));
    if (all > mirrored.limit)
      return [
        {
          measured: all,
          message: `The numbers on the film's edge read better mirrored (${names(read)}).`,
          place: at(read[0]),
        },
      ];
    const off = read.filter((s) => -(s.lettering ?? 0) > 2 * mirrored.limit);
    return off.map((scan) => ({
      measured: -(scan.lettering ?? 0),
      message: "The number on the film's edge reads better mirrored, unlike the rest of the roll.",
      place: at(scan),
    }));
  },
};
