/** Finding: the bare light has not one colour over the field. */
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { PRACTICE, where } from "./common.ts";

export const twoColours: FindingKind = {
  code: "two-coloured-light",
  severity: "warning",
  meaning:
    "The bare light has not one colour over the field: dye sees another spectrum on one side than on the other, which a blank corrects only in part.",
  limit: 2.3,
  unit: "% between channels",
  source: `${PRACTICE} (0.01 density, one CC unit of filtration)`,
  cause: "Two kinds of lamps, daylight falling in from one side, or a panel whose diodes differ.",
  remedy: "Darken the room, use one light, and turn the panel or put a diffuser between it and the film.",
  find({ blank }) {
    if (!blank || blank.colourSpan <= twoColours.limit) return [];
    const [x, y, w, h] = blank.colourAt;
    return [
      {
        measured: blank.colourSpan,
        message: msg(
          "The colour of the bare light changes by {0} % over the field, most at the {1}.",
          blank.colourSpan.toFixed(1),
          where(x + w / 2, y + h / 2),
        ),
        place: { scan: blank.name, area: blank.colourAt },
      },
    ];
  },
};
