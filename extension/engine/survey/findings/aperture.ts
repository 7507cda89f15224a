/** Finding: the scan's stop lies outside the range in which copy lenses are at their best. */
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { at, names, PRACTICE } from "./common.ts";

/** Stops that copy lenses are best at. */
const [MIN_F_NUMBER, MAX_F_NUMBER] = [4, 11];

export const aperture: FindingKind = {
  code: "aperture",
  severity: "info",
  meaning: "The stop lies outside the range in which copy lenses are at their best.",
  limit: MAX_F_NUMBER,
  unit: "f-number (f/4 to f/11)",
  source: PRACTICE,
  cause: "The stop was set for depth or for light and not for sharpness, or has moved.",
  remedy: "Set f/5.6 to f/8 and adjust the shutter time.",
  find({ scans }) {
    // Cameras write f/11 as 11 or 11.3.
    const off = scans.filter(
      ({ info: { aperture: n } }) => n !== undefined && (n < MIN_F_NUMBER * 0.95 || n > MAX_F_NUMBER * 1.05),
    );
    const stop = off[0]?.info.aperture;
    if (stop === undefined) return [];
    const number = Number(stop.toFixed(1));
    return [
      {
        measured: stop,
        message:
          off.length === 1
            ? msg("{0} was taken at f/{1}.", names(off), number)
            : msg("{0} were taken at f/{1}.", names(off), number),
        ...(stop < MIN_F_NUMBER ? { limit: MIN_F_NUMBER } : {}),
        place: at(off[0]),
      },
    ];
  },
};
