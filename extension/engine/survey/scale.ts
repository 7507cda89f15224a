/** How large a scan's film is in its pixels. */
import type { ScanReading, SurveyedRoll } from "./types.ts";

export interface Scale {
  /** Pixels of the scan per millimetre of film. */
  readonly perMm: number;
  /** Relative standard deviation of `perMm`. */
  readonly deviation: number;
  /** The pitch of the film's perforations, or the nominal size of the format's picture. */
  readonly from: "perforations" | "picture size";
}

/** Gates differ from the format's nominal size by a percent or two (common practice, no source). */
const GATE = 0.015;
const MM_PER_INCH = 25.4;

/** The scale of a scan: by its perforations where they are in view, else by the format; undefined where neither is known. */
export function scaleOf({ picture }: Pick<SurveyedRoll, "picture">, scan: ScanReading): Scale | undefined {
  const { perforations, area, info } = scan;
  if (perforations) {
    const { perMm, deviation } = perforations;
    return { perMm, deviation: deviation / perMm, from: "perforations" };
  }
  if (!picture) return undefined;
  const long = Math.max(area.width * info.width, area.height * info.height);
  return { perMm: long / picture[0], deviation: GATE, from: "picture size" };
}

/** Samples per inch on the film; undefined where nothing tells the scale. */
export function ppiOf(roll: Pick<SurveyedRoll, "picture">, scan: ScanReading): number | undefined {
  const scale = scaleOf(roll, scan);
  return scale && MM_PER_INCH * scale.perMm;
}
