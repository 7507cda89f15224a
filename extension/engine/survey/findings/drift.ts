/** Finding: the frame moved from scan to scan against the roll's rectangle. */
import type { Side } from "../../types.ts";
import { median } from "../../math/statistics.ts";
import { msg } from "../../messages.ts";
import type { FindingKind, Found, ScanReading, SurveyedRoll } from "../types.ts";
import { at, percent, PRACTICE } from "./common.ts";

/** How far a pair of opposite edges lies from where most scans have it, in parts of the side; absent where neither is seen. */
function offset(
  scan: ScanReading,
  usual: Partial<Record<Side, number>>,
  sides: readonly [Side, Side],
): number | undefined {
  const moves = sides.flatMap((side) => {
    const [own, reference] = [scan.edges[side], usual[side]];
    return own === undefined || reference === undefined ? [] : [own - reference];
  });
  if (moves.length === 0) return undefined;
  // An edge that the picture's own dark parts hide seems to lie too far in: both have moved at least by the lesser.
  if (moves.length === 2 && moves[0] * moves[1] <= 0) return 0;
  return moves.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
}

/** Where each scan's picture lies against the roll's usual place, in parts of the scan's width. */
export function offsets({ scans }: SurveyedRoll): { scan: ScanReading; x: number; y: number }[] {
  const usual: Partial<Record<Side, number>> = {};
  for (const side of ["left", "right", "top", "bottom"] as const) {
    const seen = scans.flatMap((s) => s.edges[side] ?? []);
    if (seen.length) usual[side] = median(seen);
  }
  return scans.flatMap((scan) => {
    const x = offset(scan, usual, ["left", "right"]);
    const y = offset(scan, usual, ["top", "bottom"]);
    if (x === undefined || y === undefined) return [];
    return [{ scan, x, y: (y * scan.info.height) / scan.info.width }];
  });
}

export const drift: FindingKind = {
  code: "frame-drift",
  severity: "info",
  meaning: "The picture does not lie at the same place in all scans, so that one frame's area does not fit the next.",
  limit: 0.3,
  unit: "% of the scan's width from the usual place",
  source: PRACTICE,
  cause: "The film was not pushed to the same place, or camera and holder move relative to each other.",
  remedy: "Fit stops to the holder and clamp camera and holder, or find the area of each frame separately.",
  find: (roll) =>
    offsets(roll).flatMap(({ scan, x, y }): Found[] => {
      const away = Math.hypot(x, y);
      if (100 * away <= drift.limit) return [];
      const { left, top, width, height } = scan.area;
      const pixels = away * scan.info.width;
      return [
        {
          measured: 100 * away,
          message: msg(
            "The picture lies {0} px ({1} of the width) from where the roll usually has it.",
            pixels.toFixed(0),
            percent(away),
          ),
          place: at(scan, [left + x, top + (y * scan.info.width) / scan.info.height, width, height]),
        },
      ];
    }),
};
