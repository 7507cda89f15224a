import * as vscode from "vscode";
import { rename, renameable } from "../../recipe/language/rename.ts";
import { toRange, toWorkspaceEdit } from "../ranges.ts";
import type { EditorServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

export function registerRename({ recipes, say }: EditorServices): vscode.Disposable {
  return vscode.languages.registerRenameProvider(recipeSelector, {
    async prepareRename(document, position) {
      const { document: recipe } = await recipes.read(document);
      const found = renameable(recipe, document.offsetAt(position));
      if (!found) throw new Error(say("Only the id of a frame can be renamed."));
      return { range: toRange(found.range), placeholder: found.id };
    },
    async provideRenameEdits(document, position, name) {
      const { document: recipe } = await recipes.read(document);
      const edits = rename(recipe, document.offsetAt(position), name, say);
      if ("refusal" in edits) throw new Error(edits.refusal);
      return toWorkspaceEdit([edits]);
    },
  });
}
