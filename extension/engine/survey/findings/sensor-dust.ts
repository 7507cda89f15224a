/** Finding: specks at the same photosites on several scans. */
import { sensorDustOf } from "../dust.ts";
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { PRACTICE } from "./common.ts";

export const sensorDust: FindingKind = {
  code: "sensor-dust",
  severity: "warning",
  meaning: "Dark spots lie at the same place in every scan: on the sensor, the lens or the light, not on the film.",
  limit: 0,
  unit: "spots",
  source: PRACTICE,
  cause:
    "Dust on the sensor's cover glass shows at small stops; dust on the light shows when the film lies too near to it.",
  remedy:
    "Clean sensor and light; heal the rest for the whole roll by the spots that the survey proposes for the light.",
  find(roll) {
    const spots = sensorDustOf(roll);
    if (spots.length <= sensorDust.limit) return [];
    const reference = roll.blank ?? roll.scans[0];
    const { width, height } = reference.info;
    const xs = spots.map((d) => d.x);
    const ys = spots.map((d) => (d.y * width) / height);
    const dark = (100 * spots.reduce((a, d) => Math.max(a, d.opacity), 0)).toFixed(0);
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    return [
      {
        measured: spots.length,
        message:
          spots.length === 1
            ? msg("1 spot of sensor dust, up to {0} % dark, at the same place in every scan.", dark)
            : msg("{0} spots of sensor dust, up to {1} % dark, at the same place in every scan.", spots.length, dark),
        place: { scan: reference.name, area: [x, y, Math.max(...xs) - x, Math.max(...ys) - y] },
      },
    ];
  },
};
