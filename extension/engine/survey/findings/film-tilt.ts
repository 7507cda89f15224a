import { tiltOfBlur } from "../optics.ts";
import { blurMap } from "../sharpness/sharpness-map.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, ScanReading, SurveyedRoll } from "../types.ts";
import { at, PRACTICE } from "./common.ts";

/** The tilt in degrees that explains the blur, where size and stop are known: a disc's sigma is a quarter of its width. */
function degrees(roll: SurveyedRoll, scan: ScanReading, added: number): number | undefined {
  const { sensor, picture } = roll;
  const { aperture, width } = scan.info;
  if (!sensor || !picture || !aperture) return undefined;
  const long = scan.area.width * width >= scan.area.height * scan.info.height ? picture[0] : picture[1];
  const perMm = (scan.area.width * width) / long;
  const magnification = (perMm * sensor) / width;
  return tiltOfBlur((4 * added) / perMm, long / 2, aperture, magnification);
}

export const filmTilt: FindingKind = {
  code: "film-tilted",
  severity: "warning",
  meaning: "The scan is sharp along a line and grows soft away from it: film and sensor are not parallel.",
  limit: 0.6,
  unit: "px of blur added (one sigma)",
  source: PRACTICE,
  cause: "The camera does not look straight down, or the holder does not lie flat.",
  remedy:
    "Put a small mirror where the film lies and turn the camera until the lens sees its own middle; then focus again.",
  find(roll) {
    const map = blurMap(roll.scans);
    if (map?.form !== "tilt" || map.added <= filmTilt.limit) return [];
    const angle = degrees(roll, roll.scans[0], map.added);
    const grows = [map.added.toFixed(1), map.direction.toFixed(0)];
    return [
      {
        measured: map.added,
        message:
          angle === undefined
            ? msg("Blur grows by {0} px along {1}° (0° is from left to right).", ...grows)
            : msg(
                "Blur grows by {0} px along {1}° (0° is from left to right), about {2}° of tilt.",
                ...grows,
                angle.toFixed(2),
              ),
        place: at(roll.scans[0], map.worst),
      },
    ];
  },
};
