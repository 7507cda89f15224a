import { decodeRecipe } from "../../recipe/yaml/encoding.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { hasErrors } from "../../recipe/problems.ts";
import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import { applyChanges, editRecipe, type ValueEdit } from "../../recipe/edit/edit.ts";
import { writeAtomic } from "../../scans/atomic.ts";
import { type Call, text, UsageError } from "../verb.ts";

/** Writes values into the recipe that --write names; says nothing and does nothing without it. */
export async function writeValues(call: Call, edits: readonly ValueEdit[]): Promise<string | undefined> {
  const shown = text(call, "write");
  if (shown === undefined) return undefined;
  const file = resolve(shown);
  const bytes = await readFile(file).catch(() => {
    throw new UsageError(`There is no recipe ${shown} to write to.`);
  });
  const before = decodeRecipe(bytes);
  const after = applyChanges(before, editRecipe(before, edits, { file }));
  // What was measured may still be no legal value; a recipe is not spoiled for that.
  const { problems } = parseRecipe(after, { file });
  if (hasErrors(problems) && !hasErrors(parseRecipe(before, { file }).problems))
    throw new UsageError(
      `${shown} was not changed: ${problems.find((p) => p.severity === "error")?.message ?? "it would not be valid."}`,
    );
  await writeAtomic(file, after);
  call.terminal.print(`Written to ${shown}.`);
  return shown;
}
