/** Upgrades a recipe to the current version of the format, and tells how far its pictures move. */
import { toneDifference } from "../../engine/film/tone-versions.ts";
import type { ToneLook } from "../../engine/types.ts";
import { parseRecipe, type RecipeDocument } from "../problems/document.ts";
import { resolveRoll, type ResolvedRoll } from "../resolve/resolve.ts";
import { CURRENT_VERSION, versionOf } from "../version.ts";
import { migrateRecipe } from "./versions.ts";

export interface Upgrade {
  readonly text: string;
  /** The largest ΔE00 between any frame's print before and after, over greys and colours; mid-grey stays. */
  readonly difference: number;
}

/** @returns undefined where the recipe is of the current version, or is not YAML */
export function upgradeRecipe(document: RecipeDocument, stock?: RecipeDocument): Upgrade | undefined {
  const { file, kind, text } = document;
  if (!document.wellFormed || document.value === undefined || versionOf(document.value) === CURRENT_VERSION)
    return undefined;
  const upgraded = migrateRecipe(text, { file, kind });
  const [before, after] = [document, parseRecipe(upgraded, { file, kind })].map((one) => resolveRoll(one, stock));
  return { text: upgraded, difference: largestDifference(before!, after!) };
}

function largestDifference(before: ResolvedRoll, after: ResolvedRoll): number {
  const channels = before.film === "black-and-white-negative" ? 1 : 3;
  const compared = new Set<string>();
  let most = 0;
  const compare = (one: ToneLook, two: ToneLook): void => {
    const key = JSON.stringify([one, two]);
    if (compared.has(key)) return;
    compared.add(key);
    most = Math.max(most, toneDifference(one, two, channels));
  };
  compare(before.shared.look.tone, after.shared.look.tone);
  before.frames.forEach(({ look }, i) => compare(look.tone, after.frames[i]!.look.tone));
  return most;
}
