/** Finding: the scan shows the film from its emulsion side. */
import { mean } from "../../math/statistics.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found, ScanReading } from "../types.ts";
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
  remedy: "Turn the film over, or set mirror: true for these frames.",
  find({ scans }): Found[] {
    const { read, whole, agreement, off } = mirroredScans(scans);
    if (whole)
      return [
        {
          measured: agreement,
          message: msg("The numbers on the film's edge read better mirrored ({0}).", names(read)),
          place: at(read[0]),
        },
      ];
    return off.map((scan) => ({
      measured: -(scan.lettering ?? 0),
      message: msg("The number on the film's edge reads better mirrored, unlike the rest of the roll."),
      place: at(scan),
    }));
  },
};

interface Turned {
  /** Scans on whose edge a number can be read. */
  readonly read: readonly ScanReading[];
  /** Whether all of the roll lies the wrong way round, and how clearly: agreement mirrored less upright. */
  readonly whole: boolean;
  readonly agreement: number;
  /** Otherwise the scans that do. */
  readonly off: readonly ScanReading[];
}

/** Which scans read better mirrored: the whole roll, or single ones. */
export function mirroredScans(scans: readonly ScanReading[]): Turned {
  const read = scans.filter((s) => s.lettering !== undefined);
  const agreement = read.length === 0 ? 0 : -mean(read.map((s) => s.lettering ?? 0));
  const whole = agreement > mirrored.limit;
  const off = whole ? [] : read.filter((s) => -(s.lettering ?? 0) > 2 * mirrored.limit);
  return { read, whole, agreement, off };
}
