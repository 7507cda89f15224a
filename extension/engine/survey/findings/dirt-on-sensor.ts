import { dirtOf } from "../dust.ts";
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { PRACTICE } from "./common.ts";

export const dirtOnSensor: FindingKind = {
  code: "dirt",
  severity: "warning",
  meaning:
    "Dark spots lie at the same place in every scan: dirt on the sensor, the lens or the light, not on the film.",
  limit: 0,
  unit: "spots",
  source: PRACTICE,
  cause:
    "Dust on the sensor's cover glass shows at small stops; dust on the light shows when the film lies too near to it.",
  remedy:
    'Clean sensor and light; heal the rest for the whole roll as light.spots with "rollbook survey --write-spots".',
  find(roll) {
    const dirt = dirtOf(roll);
    if (dirt.length <= dirtOnSensor.limit) return [];
    const reference = roll.blank ?? roll.scans[0];
    const { width, height } = reference.info;
    const xs = dirt.map((d) => d.x);
    const ys = dirt.map((d) => (d.y * width) / height);
    const dark = (100 * dirt.reduce((a, d) => Math.max(a, d.opacity), 0)).toFixed(0);
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    return [
      {
        measured: dirt.length,
        message:
          dirt.length === 1
            ? msg("1 spot of dirt, up to {0} % dark, at the same place in every scan.", dark)
            : msg("{0} spots of dirt, up to {1} % dark, at the same place in every scan.", dirt.length, dark),
        place: { scan: reference.name, area: [x, y, Math.max(...xs) - x, Math.max(...ys) - y] },
      },
    ];
  },
};
