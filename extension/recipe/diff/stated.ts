/** Differences between what two texts say, value by value, whatever follows from it. */
import { isFields, isSame, type ValueEdit } from "../edit/model.ts";
import { applyChanges, editRecipe } from "../edit/edit.ts";
import type { RecipeKind, RecipePath } from "../path.ts";
import type { Value } from "../yaml/values.ts";

/**
 * The edits that make a recipe that says `before` say `after`: values set or removed, mappings key by key, lists and
 * single values as a whole. `editRecipe` writes them into a text.
 */
export function statedEdits(before: Value | undefined, after: Value | undefined, path: RecipePath = []): ValueEdit[] {
  if (isSame(before, after)) return [];
  if (!isFields(before) || !isFields(after) || (Object.keys(after).length === 0 && path.length > 0))
    return [{ path, value: after }];
  const edits: ValueEdit[] = [];
  // What goes comes first: where one key replaces another, the text never holds both.
  for (const key of Object.keys(before))
    if (!Object.hasOwn(after, key)) edits.push({ path: [...path, key], value: undefined });
  for (const [key, value] of Object.entries(after))
    edits.push(...statedEdits(Object.hasOwn(before, key) ? before[key] : undefined, value, [...path, key]));
  return edits;
}

/** A text with values set or removed. */
export const withEdits = (text: string, edits: readonly ValueEdit[], kind: RecipeKind): string =>
  applyChanges(text, editRecipe(text, edits, { kind }));
