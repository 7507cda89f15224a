/** Writes measured values into a recipe that is open. */
import * as vscode from "vscode";
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import { changes, fileEdits } from "../../recipe/language/edits.ts";
import { toWorkspaceEdit } from "../ranges.ts";
import type { EditorServices } from "../services.ts";

/**
 * Writes values that were measured into the recipe's text as it is now: one step to undo.
 * @returns false where the text cannot be edited any more; the person has been told
 */
export async function writeValues(
  uri: vscode.Uri,
  edits: readonly ValueEdit[],
  { recipes }: EditorServices,
): Promise<boolean> {
  const { document } = await recipes.read(await vscode.workspace.openTextDocument(uri));
  if (document.wellFormed) {
    const made = changes(document, edits);
    if (!made || (await vscode.workspace.applyEdit(toWorkspaceEdit([fileEdits(document, made)])))) return true;
  }
  void vscode.window.showErrorMessage(
    vscode.l10n.t("{0} was changed meanwhile and cannot be edited. Fix it, and run this again.", uri.fsPath),
  );
  return false;
}
