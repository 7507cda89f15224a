/** What is to be said of a scan's exposure beside its blank's, or beside the scan's that the base was read from. */
import type { RelativeExposure } from "../../engine/flat-field/exposure.ts";

/** Ten stops: two scans of one film under one light lie nearer. Common practice, no source. */
const MAX_RATIO = 2 ** 10;

/** Sentences on settings that are not known, and on a difference that cannot be true; none when only the f-number is unknown. */
export function exposureWarnings({ ratio, unknown }: RelativeExposure): string[] {
  return [...unknownSettings(unknown), ...implausible(ratio)];
}

function unknownSettings(unknown: readonly string[]): string[] {
  // A lens without contacts never states its f-number, and on a copy stand nobody turns it between two scans.
  const missing = unknown.filter((name) => name !== "aperture");
  if (missing.length === 0) return [];
  const names = missing.map((name) => (name === "iso" ? "ISO" : "shutter time")).join(" and ");
  return [`Scan and blank do not both state their ${names}; they are taken as exposed alike.`];
}

function implausible(ratio: number): string[] {
  if (ratio <= MAX_RATIO && ratio >= 1 / MAX_RATIO) return [];
  const stops = Math.abs(Math.log2(ratio)).toFixed(1);
  return [
    `By their EXIF data this scan and the one that it is compared with were exposed ${stops} EV apart, which is hardly true; the picture is as dark or bright as that makes it. Check shutter time, ISO and f-number of both.`,
  ];
}
