/** Finding: the lens draws red and blue at another scale than green. */
import { fitLateralColour, type LateralFit } from "../../lens/lateral-colour.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, ScanReading } from "../types.ts";
import { at, PRACTICE } from "./common.ts";

export const lateralColour: FindingKind = {
  code: "lateral-colour",
  severity: "info",
  meaning:
    "Red or blue is drawn larger or smaller than green (lateral chromatic aberration): edges away from the middle have coloured fringes, and grain loses sharpness.",
  limit: 0.5,
  unit: "px in the corner",
  source: PRACTICE,
  cause: "The lens is not corrected for this magnification; most lenses for distant subjects are not.",
  remedy:
    'Measure the lens and let light.lens correct it in every frame: "rollbook lens ROLL --write", or "Measure Lens Faults" in the editor.',
  find({ scans }) {
    const found = measuredLateralColour(scans);
    if (!found) return [];
    const { fit, halfDiagonal } = found;
    const [red, blue] = [fit.red, fit.blue].map(({ corner, error }) => ({
      shift: corner * halfDiagonal,
      error: error * halfDiagonal,
    }));
    const sure = [red, blue].filter(
      ({ shift, error }) => Math.abs(shift) > lateralColour.limit && Math.abs(shift) > CERTAIN * error,
    );
    if (sure.length === 0) return [];
    return [
      {
        measured: Math.max(...sure.map(({ shift }) => Math.abs(shift))),
        message: msg(
          "In the corners red lies {0} px and blue {1} px farther out than green.",
          signed(red.shift),
          signed(blue.shift),
        ),
        place: at(scans[0]),
      },
    ];
  },
};

/** A shift counts from so many of its standard errors. */
const CERTAIN = 4;

const signed = (value: number): string => value.toFixed(1).replace("-", "−");

/** What all scans of a survey show together, and half of a scan's diagonal in pixels. */
export function measuredLateralColour(
  scans: readonly ScanReading[],
): { readonly fit: LateralFit; readonly halfDiagonal: number } | undefined {
  const fit = fitLateralColour(scans.flatMap(({ lateral }) => lateral ?? []));
  const { width, height } = scans[0]?.info ?? { width: 0, height: 0 };
  return fit && { fit, halfDiagonal: Math.hypot(width, height) / 2 };
}
