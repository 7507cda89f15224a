/** Finding: the bare light falls off towards edges or corners. */
import { FADGI_SOURCE, starsOf } from "../fadgi.ts";
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { PRACTICE, where } from "./common.ts";

export const evenness: FindingKind = {
  code: "uneven-light",
  severity: "warning",
  meaning:
    "The bare light falls off over the field. Dividing by the blank takes the falloff out, but dark corners keep less signal and more noise.",
  limit: 20,
  unit: "% from brightest to darkest",
  source: `${PRACTICE} (a third of a stop); stars by ${FADGI_SOURCE}, which asks for less than 8 to 1 % where nothing is divided out`,
  cause:
    "The light is too small or too near the film, the lens is wide open, or the camera does not point at the light's middle.",
  remedy: "Put the film farther above a larger light, stop down to f/8, and centre the light under the lens.",
  find({ blank }) {
    if (!blank || blank.unevenness <= evenness.limit) return [];
    const [x, y, w, h] = blank.darkestAt;
    const stars = starsOf("evenness", blank.unevenness);
    const [fall, at] = [blank.unevenness.toFixed(0), where(x + w / 2, y + h / 2)];
    return [
      {
        measured: blank.unevenness,
        message:
          stars === 1
            ? msg("The bare light falls off by {0} % towards the {1} (1 FADGI star).", fall, at)
            : msg("The bare light falls off by {0} % towards the {1} ({2} FADGI stars).", fall, at, stars || msg("no")),
        place: { scan: blank.name, area: blank.darkestAt },
      },
    ];
  },
};
