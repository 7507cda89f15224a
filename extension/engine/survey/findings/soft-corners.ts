/** Finding: the corners are softer than the centre. */
import { blurMap } from "../sharpness/sharpness-map.ts";
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { at, PRACTICE, where } from "./common.ts";

export const softCorners: FindingKind = {
  code: "soft-corners",
  severity: "warning",
  meaning: "Grain is blurred more in the corners than in the middle.",
  limit: 0.6,
  unit: "px of blur added (one sigma)",
  source: PRACTICE,
  cause:
    "The film is not flat, the lens's field is curved at this stop, or the lens is not made for this magnification.",
  remedy: "Flatten the film, stop down to f/8, and focus a third of the way from the middle to the corner.",
  find({ scans }) {
    const map = blurMap(scans);
    if (map?.form !== "corners" || map.added <= softCorners.limit) return [];
    const [x, y, w, h] = map.worst;
    return [
      {
        measured: map.added,
        message: msg(
          "Blur grows by {0} px from the middle to the corners, most at the {1}.",
          map.added.toFixed(1),
          where(x + w / 2, y + h / 2),
        ),
        place: at(scans[0], map.worst),
      },
    ];
  },
};
