import { readFile } from "node:fs/promises";
import { applyChanges, editRecipe, type ValueEdit } from "../recipe/edit.ts";
import { writeAtomic } from "../scans/atomic.ts";
import { UsageError } from "./verb.ts";

/**
 * Changes values in a recipe's text and puts the file in place as a whole. The text is read again right before, and
 * must still be what the values were worked out from.
 */
export async function changeRecipe(file: string, seen: string, edits: readonly ValueEdit[]): Promise<void> {
  const text = await readFile(file, "utf8");
  if (text !== seen)
    throw new UsageError(`${file} was changed while this was running; nothing was written. Run it again.`);
  await writeAtomic(file, applyChanges(text, editRecipe(text, edits, { file })));
}
