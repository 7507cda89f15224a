/** A change in the shape of the review's report. */
import type { Change, RecipeState } from "../../recipe/diff/diff.ts";
import type { ReviewChange } from "../../review-report.ts";

/** A change as reports show it. */
export function reportChange(change: Change, id: string, now: RecipeState | undefined): ReviewChange {
  const { group, frame, name, kind, before, after, text, origin, followers } = change;
  const place = placeOf(change, now);
  return {
    id,
    group,
    ...(frame === undefined ? {} : { frame }),
    name,
    kind,
    ...(before ? { before: before.shown } : {}),
    ...(after ? { after: after.shown } : {}),
    text,
    ...(origin === undefined ? {} : { origin }),
    followers,
    ...(place ? { place } : {}),
  };
}

/** Where the value is written now; where it is gone, the nearest thing around it. */
function placeOf({ after, frame, path }: Change, now: RecipeState | undefined): ReviewChange["place"] {
  const origin = after?.origin;
  if (origin && origin.level !== "default") return { file: origin.file, line: origin.line, column: origin.column };
  if (!now) return undefined;
  const { roll } = now;
  for (let way = [...(frame === undefined ? [] : ["frames", frame]), ...path]; way.length > 0; way = way.slice(0, -1)) {
    const range = roll.rangeOf(way, "key");
    if (range) return { file: roll.file, ...roll.positionOf(range[0]) };
  }
  return { file: roll.file, line: 1, column: 1 };
}
