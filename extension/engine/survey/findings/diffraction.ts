/** Finding: the lens was stopped down so far that diffraction costs detail. */
import { FADGI_SOURCE } from "../fadgi.ts";
import { diffractionCutoff, effectiveAperture, HALF_OF_CUTOFF } from "../optics.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, ScanReading, SurveyedRoll } from "../types.ts";
import { at } from "./common.ts";

/** Where diffraction alone takes half of the response, in percent of half the sampling frequency. */
export function diffractionHalf({ picture, sensor }: SurveyedRoll, { area, info }: ScanReading): number | undefined {
  if (!picture || !sensor || !info.aperture) return undefined;
  const long = Math.max(area.width * info.width, area.height * info.height);
  const pitch = sensor / info.width;
  const magnification = (long / picture[0]) * pitch;
  const half = HALF_OF_CUTOFF * diffractionCutoff(effectiveAperture(info.aperture, magnification));
  return (100 * half) / (0.5 / pitch);
}

export const diffraction: FindingKind = {
  code: "diffraction",
  severity: "warning",
  meaning:
    "The stop is so small that diffraction alone blurs more than the pixels do: near 1:1 the working f-number is twice the one that is set.",
  limit: 35,
  unit: "% of half the sampling frequency (MTF50 of diffraction, at least)",
  source: `${FADGI_SOURCE}, three stars; diffraction at 550 nm by the textbook formula`,
  cause: "The lens was stopped down for depth of field.",
  remedy: "Open to f/8 or f/5.6. Flat film and a camera that points straight down need less depth of field.",
  find(roll) {
    const worst = roll.scans
      .map((scan) => ({ scan, half: diffractionHalf(roll, scan) }))
      .filter((s): s is { scan: ScanReading; half: number } => s.half !== undefined)
      .toSorted((a, b) => a.half - b.half)[0];
    if (!worst || worst.half >= diffraction.limit) return [];
    return [
      {
        measured: worst.half,
        message: msg(
          "At f/{0} diffraction takes half of the response at {1} % of half the sampling frequency.",
          worst.scan.info.aperture ?? "",
          worst.half.toFixed(0),
        ),
        place: at(worst.scan),
      },
    ];
  },
};
