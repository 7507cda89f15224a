/** Finding: the film stood at an angle to the sensor, by the sharpness of opposite sides. */
import { tiltOfBlur } from "../optics.ts";
import { scaleOf } from "../scale.ts";
import { addedAlong, type BlurMap, blurMap } from "../sharpness/sharpness-map.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found, ScanReading, SurveyedRoll } from "../types.ts";
import { at, PRACTICE } from "./common.ts";

/** The tilt in degrees that explains the blur, where size and stop are known: a disc's sigma is a quarter of its width. */
function degrees(roll: SurveyedRoll, scan: ScanReading, added: number): number | undefined {
  const { sensor } = roll;
  const { aperture, width } = scan.info;
  const scale = scaleOf(roll, scan);
  if (!sensor || !scale || !aperture) return undefined;
  const { perMm } = scale;
  const magnification = (perMm * sensor) / width;
  return tiltOfBlur((4 * added) / perMm, (scan.area.width * width) / perMm / 2, aperture, magnification);
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
  find: (roll) =>
    setUps(roll.scans).flatMap((scans) => {
      const common = tiltOf(scans, CLEAR);
      return scans.flatMap((scan): Found[] => {
        const own = common && sharesTilt(scan, common) ? common : tiltOf([scan], CLEAR_ALONE);
        return own ? [foundOn(roll, scan, own)] : [];
      });
    }),
};

/** Scans of one set-up: camera, lens, stop and size in pixels. */
function setUps(scans: readonly ScanReading[]): ScanReading[][] {
  const groups = new Map<string, ScanReading[]>();
  for (const scan of scans) {
    const { model, lens, aperture, width, height } = scan.info;
    const key = JSON.stringify([model, lens, aperture, width, height]);
    const group = groups.get(key);
    if (group) group.push(scan);
    else groups.set(key, [scan]);
  }
  return [...groups.values()];
}

/** Standard errors by which blur has to grow; more of them where one scan says so alone, for its picture may feign it. */
const [CLEAR, CLEAR_ALONE] = [2.5, 5.5];
/** Variance that the tilt adds over a typical cell's standard deviation: where grain is faint, chance draws any trend. */
const OVER_NOISE = 4;
/** Part of the set-up's tilt that a scan's own cells have to show, where there are enough of them to tell. */
const SHARED = 0.5;

function tiltOf(scans: readonly ScanReading[], clear: number): BlurMap | undefined {
  const map = blurMap(scans);
  if (map?.form !== "tilt" || map.added <= filmTilt.limit) return undefined;
  return map.certainty > clear && map.added ** 2 > OVER_NOISE * map.deviation ? map : undefined;
}

const sharesTilt = (scan: ScanReading, { trend, added }: BlurMap): boolean =>
  (addedAlong(scan, trend) ?? added) >= SHARED * added;

function foundOn(roll: SurveyedRoll, scan: ScanReading, { added, direction, worst }: BlurMap): Found {
  const angle = degrees(roll, scan, added);
  const grows = [added.toFixed(1), direction.toFixed(0)];
  return {
    measured: added,
    message:
      angle === undefined
        ? msg("Blur grows by {0} px along {1}° (0° is from left to right).", ...grows)
        : msg(
            "Blur grows by {0} px along {1}° (0° is from left to right), about {2}° of tilt.",
            ...grows,
            angle.toFixed(2),
          ),
    place: at(scan, worst),
  };
}
