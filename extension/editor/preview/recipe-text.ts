/** What a panel does with the recipe's text editor: apply a gesture as one edit, show a key, follow the cursor. */
import { recipeText } from "../files.ts";
import * as vscode from "vscode";
import type { ValueEdit, RecipePath } from "../../messages.ts";
import { JobError } from "../../failure.ts";
import type { RecipeDocument } from "../../recipe/problems/document.ts";
import { editRecipe } from "../../recipe/edit/edit.ts";
import type { Value } from "../../recipe/yaml/values.ts";
import { fileOf } from "../uris.ts";
import { placeOf } from "./roll-state.ts";

/** Edits come from the panel's page: what has not the shape of one is refused before it gets near the text. */
function isEdit(edit: unknown): edit is ValueEdit {
  if (typeof edit !== "object" || edit === null) return false;
  const { path, value } = edit as Partial<ValueEdit>;
  return (
    Array.isArray(path) &&
    path.length > 0 &&
    path.length < 12 &&
    path.every((part) => typeof part === "string" || typeof part === "number") &&
    isPlain(value)
  );
}

function isPlain(value: unknown): boolean {
  if (value === undefined || typeof value === "string" || typeof value === "boolean") return true;
  if (typeof value === "number") return Number.isFinite(value);
  if (Array.isArray(value)) return value.every((v) => v !== undefined && isPlain(v));
  return typeof value === "object" && value !== null && Object.values(value).every(isPlain);
}

/** Writes a gesture into the text: the smallest change, one step of undo. */
export async function applyGesture(document: vscode.TextDocument, edits: readonly ValueEdit[]): Promise<void> {
  if (!Array.isArray(edits) || !edits.every(isEdit))
    throw new JobError({
      code: "bad-edit",
      message: vscode.l10n.t("The panel sent an edit that cannot be read. Nothing was changed."),
    });
  const changes = editRecipe(
    recipeText(document),
    edits.map(({ path, value }) => ({ path, value: value as Value | undefined })),
    { file: fileOf(document.uri) },
  );
  if (changes.length === 0) return;
  const edit = new vscode.WorkspaceEdit();
  for (const { start, end, text } of changes)
    edit.replace(document.uri, new vscode.Range(document.positionAt(start), document.positionAt(end)), text);
  if (!(await vscode.workspace.applyEdit(edit)))
    throw new JobError({
      code: "refused",
      message: vscode.l10n.t(
        "The editor did not apply the change: the text may be read-only, or was changed at the same moment. Try again.",
      ),
    });
}

/** Moves the cursor of the text's editors to a value; does nothing where the text is not in view. */
export function followInText(
  document: vscode.TextDocument,
  recipe: RecipeDocument,
  frame: string | undefined,
  path: RecipePath | undefined,
): void {
  const place = placeOf(recipe, frame, path);
  if (!place) return;
  const range = new vscode.Range(document.positionAt(place[0]), document.positionAt(place[1]));
  for (const editor of vscode.window.visibleTextEditors) {
    if (editor.document !== document) continue;
    editor.selection = new vscode.Selection(range.start, range.start);
    // The start of the line: the end of a long one would scroll the text sideways.
    const line = new vscode.Range(range.start.line, 0, range.start.line, 0);
    editor.revealRange(line, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  }
}

/** Shows a place of a recipe in the text, and takes the focus there. */
export async function showInText(
  recipe: RecipeDocument,
  uri: vscode.Uri,
  frame: string | undefined,
  path: RecipePath | undefined,
): Promise<void> {
  const place = placeOf(recipe, frame, path) ?? [0, 0];
  const [start, end] = [recipe.positionOf(place[0]), recipe.positionOf(place[1])];
  const selection = new vscode.Range(start.line - 1, start.column - 1, end.line - 1, end.column - 1);
  const shown = vscode.window.visibleTextEditors.find((e) => e.document.uri.toString() === uri.toString());
  const editor = await vscode.window.showTextDocument(uri, {
    selection,
    viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One,
  });
  editor.revealRange(new vscode.Range(selection.start.line, 0, selection.start.line, 0));
}
