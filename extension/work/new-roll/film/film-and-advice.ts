/** Which kind of film a folder's scans show, and what would make a roll's start surer. */
import { filmKindOf } from "../../../engine/auto/film-kind.ts";
import { type StartValues, whiteOf } from "../../../engine/auto/start-values.ts";
import type { Film } from "../../../engine/types.ts";
import type { StartedRoll } from "../started-roll.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { exposureOf } from "../../../engine/auto/roll/scan-roles.ts";

/** The kind of film as stated, or as the middles of the scans show it. */
export function filmOf(
  stated: Film | undefined,
  pictures: readonly FirstPassScan[],
  blank: FirstPassScan | undefined,
): StartedRoll["film"] {
  if (stated) return { film: stated, certainty: 1, from: "stated" };
  const display = pictures.every(({ info }) => info.display);
  const matrix = pictures.find(({ info }) => info.colourMatrix)?.info.colourMatrix;
  const white = matrix && !blank && !display ? whiteOf(matrix) : undefined;
  const blocks = pictures.map((picture) => {
    if (!blank) return picture.blocks;
    const ratio = exposureOf(blank.info) / exposureOf(picture.info);
    return picture.blocks.map((v, i) => (v / blank.middle[i % 3]) * ratio);
  });
  const against = display ? "display" : blank ? "blank" : "raw";
  const { film, certainty } = filmKindOf(blocks, { against, white });
  return { film, certainty, from: "inferred" };
}

/** Greys that are expected further off than this (ΔC*ab) deserve a neutral picked by hand. */
const DOUBTFUL_CAST = 5;

/** What would make a start surer, a sentence each. */
export function adviceFor(
  start: Pick<StartValues, "cast" | "negative">,
  frames: number,
  blank: boolean,
  base: boolean,
): string[] {
  if (!start.negative) return [];
  const isDoubtful = (start.cast ?? 0) > DOUBTFUL_CAST;
  return [
    ...(blank ? [] : ["A blank (a scan of the bare light) would take out uneven light and fix the base's colour."]),
    ...(base ? [] : ["A scan of the leader, or the rebate in view, would fix the base and with it brightness."]),
    ...(isDoubtful && frames < 4
      ? ["More frames of the same film, created as one roll, would make the balance surer."]
      : []),
    ...(isDoubtful ? ["Pick a neutral by hand, or photograph a grey card on the next roll."] : []),
  ];
}
