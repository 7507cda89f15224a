/**
 * Versions of the recipe format. `version` changes only when the same text would mean something else, or nothing, to a
 * newer Rollbook; keys that are added do not change it. A step then goes here that says the old meaning in the new words,
 * so that old recipes keep their pictures; tests/golden holds the pixels.
 */
import { parseRecipe } from "../problems/document.ts";
import { applyChanges, editRecipe, type ValueEdit } from "./edit.ts";
import type { Value } from "../yaml/values.ts";

/** The version that this Rollbook writes and reads. */
export const CURRENT_VERSION = 1;

/** From a recipe's value in one version to the edits that make it one of the next; `version` itself is seen to. */
export type Step = (value: Readonly<Record<string, Value>>) => readonly ValueEdit[];

/** By the version that they lead from. Version 1 is the first there was. */
const STEPS: ReadonlyMap<number, Step> = new Map();

/**
 * The text in the current version: comments, order and layout stay where no step changes them. A text that is current,
 * is of a version without a step, or is not YAML comes back as it is; its problems say what is wrong.
 */
export function migrateRecipe(
  text: string,
  { file }: { readonly file: string },
  steps: ReadonlyMap<number, Step> = STEPS,
): string {
  let now = text;
  // Each step leads to a higher version, so there are no more rounds than steps.
  for (let round = 0; round < steps.size; round++) {
    const { value, wellFormed } = parseRecipe(now, { file });
    if (!wellFormed || typeof value !== "object" || value === null || Array.isArray(value)) return now;
    const fields = value as Readonly<Record<string, Value>>;
    const { version } = fields;
    const step = typeof version === "number" ? steps.get(version) : undefined;
    if (!step || typeof version !== "number") return now;
    const edits = [...step(fields), { path: ["version"], value: version + 1 }];
    now = applyChanges(now, editRecipe(now, edits, { file }));
  }
  return now;
}
