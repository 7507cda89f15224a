/** Which frames look different because a stock changed. */
import type { RecipeDocument } from "../problems/document.ts";
import { resolveRoll } from "../resolve/resolve.ts";
import type { RecipeState } from "./compare.ts";
import { pictureKey } from "./pictures.ts";

/** Frames of one roll that look different because its stock changed. */
export interface RollImpact {
  readonly file: string;
  readonly title?: string;
  readonly frames: readonly string[];
  /** How many frames the roll has. */
  readonly of: number;
}

/**
 * What a change of a stock does to the rolls that use it: each roll as it is now, once with the stock as it was and once
 * as it is, so that changes of the roll's own do not count. A stock that is new or gone is undefined on one side.
 */
export function stockImpact(
  before: RecipeDocument | undefined,
  after: RecipeDocument | undefined,
  rolls: readonly Pick<RecipeState, "roll">[],
): RollImpact[] {
  return rolls.flatMap(({ roll }): RollImpact[] => {
    const was = new Map(resolveRoll(roll, before).frames.map((frame) => [frame.id, pictureKey(frame)]));
    const now = resolveRoll(roll, after);
    const shown = now.frames.filter((frame) => !frame.skip);
    const frames = shown.filter((frame) => was.get(frame.id) !== pictureKey(frame)).map((frame) => frame.id);
    return frames.length > 0 ? [{ file: roll.file, title: now.title, frames, of: shown.length }] : [];
  });
}
