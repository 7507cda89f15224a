/** The recipe that grows, as the editor has it: open and unsaved texts included, each scan one step to undo. */
import * as vscode from "vscode";
import { editRecipe } from "../../recipe/edit/edit.ts";
import { writeAtomic } from "../../scans/files/atomic.ts";
import type { RecipeText } from "../../work/copy-stand/recipe/growing-recipe.ts";
import { fileOf } from "../uris.ts";

export function recipeText(uri: vscode.Uri): RecipeText {
  const exists = async (): Promise<boolean> =>
    Promise.resolve(vscode.workspace.fs.stat(uri)).then(
      () => true,
      () => false,
    );
  return {
    file: uri.fsPath,
    read: async () => ((await exists()) ? (await vscode.workspace.openTextDocument(uri)).getText() : undefined),
    create: (text) => writeAtomic(uri.fsPath, text, { replace: false }),
    async change(seen, edits, label) {
      const document = await vscode.workspace.openTextDocument(uri);
      if (document.getText() !== seen) return false;
      const unsaved = document.isDirty;
      const edit = new vscode.WorkspaceEdit();
      for (const { start, end, text } of editRecipe(seen, edits, { file: fileOf(uri) }))
        edit.replace(uri, new vscode.Range(document.positionAt(start), document.positionAt(end)), text, {
          label,
          needsConfirmation: false,
        });
      if (!(await vscode.workspace.applyEdit(edit))) return false;
      // What somebody is writing is theirs to save; it is saved for them only where they had saved before.
      if (!unsaved) await document.save();
      return true;
    },
  };
}
