/** Every kind of finding, in the order in which reports show them. */
import { aperture } from "./findings/aperture.ts";
import { banding } from "./findings/banding.ts";
import { clipping } from "./findings/clipping.ts";
import { diffraction } from "./findings/diffraction.ts";
import { sensorDust } from "./findings/sensor-dust.ts";
import { drift } from "./findings/drift.ts";
import { dustOnFilm } from "./findings/dust-on-film.ts";
import { evenness } from "./findings/evenness.ts";
import { fileKind } from "./findings/file-kind.ts";
import { filmTilt } from "./findings/film-tilt.ts";
import { flare } from "./findings/flare.ts";
import { headroom } from "./findings/headroom.ts";
import { iso } from "./findings/iso.ts";
import { lateralColour } from "./findings/lateral-colour.ts";
import { lightLeak } from "./findings/light-leak.ts";
import { mirrored } from "./findings/mirrored.ts";
import { mixedSetup } from "./findings/mixed-setup.ts";
import { noBlank } from "./findings/no-blank.ts";
import { resolution } from "./findings/resolution.ts";
import { shake } from "./findings/shake.ts";
import { shutter } from "./findings/shutter.ts";
import { softCorners } from "./findings/soft-corners.ts";
import { softness } from "./findings/softness.ts";
import { twoColours } from "./findings/two-colours.ts";
import { underExposure } from "./findings/under-exposure.ts";
import { english, formatMessage } from "../messages.ts";
import type { Finding, FindingKind, SurveyedRoll } from "./types.ts";

export const FINDING_KINDS: readonly FindingKind[] = [
  clipping,
  headroom,
  underExposure,
  evenness,
  twoColours,
  banding,
  flare,
  lightLeak,
  softness,
  softCorners,
  filmTilt,
  lateralColour,
  shake,
  diffraction,
  aperture,
  dustOnFilm,
  sensorDust,
  drift,
  resolution,
  mirrored,
  fileKind,
  iso,
  shutter,
  mixedSetup,
  noBlank,
];

/** What a roll's scans give cause to say, kind by kind. */
export function findAll(roll: SurveyedRoll): Finding[] {
  return FINDING_KINDS.flatMap((kind) =>
    kind.find(roll).map((found) => ({
      code: kind.code,
      severity: found.severity ?? kind.severity,
      message: formatMessage(found.message, english),
      translatable: found.message,
      measured: found.measured,
      limit: found.limit ?? kind.limit,
      unit: kind.unit,
      source: kind.source,
      place: found.place,
      cause: kind.cause,
      remedy: kind.remedy,
    })),
  );
}
