/** Registers renaming of frames. */
import * as vscode from "vscode";
import { rename, renameable } from "../../recipe/language/rename.ts";
import { toRange, toWorkspaceEdit } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

export function registerRename({ recipes, t }: TextServices): vscode.Disposable {
  return vscode.languages.registerRenameProvider(recipeSelector, {
    async prepareRename(document, position) {
      const { document: recipe } = await recipes.read(document);
      const found = renameable(recipe, document.offsetAt(position));
      if (!found) throw new Error(t("Only the id of a frame can be renamed."));
      return { range: toRange(found.range), placeholder: found.id };
    },
    async provideRenameEdits(document, position, name) {
      const { document: recipe } = await recipes.read(document);
      const edits = rename(recipe, document.offsetAt(position), name, t);
      if ("problem" in edits) throw new Error(edits.problem);
      return toWorkspaceEdit([edits]);
    },
  });
}
