/** Finding: scans are JPEG files in place of raw files. */
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { at, names, PRACTICE } from "./common.ts";

export const fileKind: FindingKind = {
  code: "jpeg",
  severity: "warning",
  meaning:
    "The scan is a JPEG: eight bits, a tone curve and sharpening already applied. Densities read from it are guesses.",
  limit: 0,
  unit: "scans",
  source: `${PRACTICE}; FADGI 2016 asks for 16 bits from three stars on`,
  cause: "The camera was set to JPEG, or the files were exported.",
  remedy: "Set the camera to raw and scan again.",
  find({ scans }) {
    const off = scans.filter((s) => s.info.source === "jpeg");
    if (off.length <= fileKind.limit) return [];
    return [
      {
        measured: off.length,
        message: off.length === 1 ? msg("{0} is a JPEG.", names(off)) : msg("{0} are JPEG files.", names(off)),
        place: at(off[0]),
      },
    ];
  },
};
