/** Finding: the scan's ISO was above the camera's lowest, so that noise is higher for nothing. */
import { msg } from "../../messages.ts";
import type { FindingKind, ScanReading } from "../types.ts";
import { at, names, PRACTICE } from "./common.ts";

/** Lowest settings of cameras are 64, 80, 100, 160 and 200. */
const MAX_BASE_ISO = 200;

export const iso: FindingKind = {
  code: "iso",
  severity: "warning",
  meaning: "The sensitivity was above the lowest: less light is collected, and noise is higher for nothing.",
  limit: MAX_BASE_ISO,
  unit: "ISO (or the lowest that the roll's scans use)",
  source: PRACTICE,
  cause: "Automatic sensitivity, or a setting left over.",
  remedy: "Set the lowest ISO by hand and adjust the shutter time.",
  find({ scans, blank }) {
    const all = [...scans, ...(blank ? [blank] : [])];
    // Cameras have different lowest settings: only what the same camera used says that less would do.
    const limitOf = (scan: ScanReading): number =>
      Math.min(MAX_BASE_ISO, ...all.flatMap((s) => (s.info.model === scan.info.model ? (s.info.iso ?? []) : [])));
    const above = scans.filter((s) => s.info.iso !== undefined && s.info.iso > limitOf(s) * 1.1);
    if (above.length === 0) return [];
    const highest = above.reduce((a, b) => ((b.info.iso ?? 0) > (a.info.iso ?? 0) ? b : a));
    const [taken, limit] = [highest.info.iso ?? 0, limitOf(highest)];
    return [
      {
        measured: taken,
        limit,
        message:
          above.length === 1
            ? msg("{0} was taken at ISO {1}, where ISO {2} would do.", names(above), taken, limit)
            : msg("{0} were taken at up to ISO {1}, where ISO {2} would do.", names(above), taken, limit),
        place: at(highest),
      },
    ];
  },
};
