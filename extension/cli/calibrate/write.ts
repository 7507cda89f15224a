/** Writes calibrated values into the recipe that `--write` names. */
import { decodeRecipe } from "../../recipe/yaml/encoding.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { hasErrors } from "../../recipe/problems.ts";
import { existsSync } from "node:fs";
import { applyChanges, editRecipe, type ValueEdit } from "../../recipe/edit/edit.ts";
import { readPlainFile } from "../../work/files/read-plain-file.ts";
import { replaceRecipe } from "../change.ts";
import { workspaceFor } from "../load.ts";
import { type Call, text, UsageError } from "../verb.ts";

/** Writes values into the recipe that --write names; says nothing and does nothing without it. */
export async function writeValues(call: Call, edits: readonly ValueEdit[]): Promise<string | undefined> {
  const shown = text(call, "write");
  if (shown === undefined) return undefined;
  if (!/\.(roll|stock)\.ya?ml$/i.test(shown))
    throw new UsageError(`--write takes a recipe, NAME.roll.yaml or NAME.stock.yaml, not "${shown}".`);
  const workspace = workspaceFor(call, shown);
  const file = workspace.absolute(workspace.inside(shown));
  if (!existsSync(file)) throw new UsageError(`The recipe ${shown} to write to was not found.`);
  const before = decodeRecipe(readPlainFile(file));
  const after = applyChanges(before, editRecipe(before, edits, { file }));
  // What was measured may still be no legal value; a recipe is not spoiled for that.
  const { problems } = parseRecipe(after, { file });
  if (hasErrors(problems) && !hasErrors(parseRecipe(before, { file }).problems))
    throw new UsageError(
      `${shown} was not changed: ${problems.find((p) => p.severity === "error")?.message ?? "it would not be valid."}`,
    );
  if (!(await replaceRecipe(call, file, before, after))) return undefined;
  call.terminal.print(`Written to ${shown}.`);
  return shown;
}
