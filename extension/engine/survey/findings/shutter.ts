/** Finding: scans of the roll have different shutter times. */
import { msg } from "../../messages.ts";
import type { FindingKind, ScanReading } from "../types.ts";
import { at, names, PRACTICE, usual } from "./common.ts";

export const shutter: FindingKind = {
  code: "shutter-differs",
  severity: "info",
  meaning:
    "Scans have different shutter times. They are compared by the times that the camera wrote or, where `light.times` is `nominal`, by the true times that those stand for.",
  limit: 0.02,
  unit: "EV from the usual time",
  source: PRACTICE,
  cause: "Aperture priority: the camera metered each frame by itself.",
  remedy: "Meter once on the rebate, then set time, stop and ISO by hand for the whole roll.",
  find({ scans }) {
    const timed = scans.filter((s): s is ScanReading & { info: { shutter: number } } => s.info.shutter !== undefined);
    const time = usual(timed.map((s) => s.info.shutter));
    if (time === undefined) return [];
    const away = (s: { info: { shutter: number } }): number => Math.abs(Math.log2(s.info.shutter / time));
    const off = timed.filter((s) => away(s) > shutter.limit);
    if (off.length === 0) return [];
    const farthest = off.reduce((a, b) => (away(b) > away(a) ? b : a));
    const stops = away(farthest).toFixed(1);
    return [
      {
        measured: away(farthest),
        message:
          off.length === 1
            ? msg("{0} has another shutter time than the rest, by {1} EV.", names(off), stops)
            : msg("{0} have another shutter time than the rest, by up to {1} EV.", names(off), stops),
        place: at(farthest),
      },
    ];
  },
};
