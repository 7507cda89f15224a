/** What a reviewer does with a change becomes an edit of the recipe's text: one step to undo, whatever it touches. */
import { recipeText } from "../files.ts";
import * as vscode from "vscode";
import type { Change } from "../../recipe/diff/diff.ts";
import { withEdits } from "../../recipe/diff/stated.ts";
import { editsToSide } from "../../recipe/diff/edits-to-side.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { wholeChange } from "../../recipe/edit/changes.ts";
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import { kindOfFile } from "../../recipe/path.ts";
import type { Value } from "../../recipe/yaml/values.ts";

type MakeEdits = (now: Value | undefined) => readonly ValueEdit[];

/** Makes a change's value what it was before, or what it is in the later state. @returns whether any text changed */
export async function take(
  change: Change,
  side: "before" | "after",
  uriOf: (file: string) => vscode.Uri,
): Promise<boolean> {
  return apply(editsToSide(change, side).map(({ file, edits }) => ({ uri: uriOf(file), edits })));
}

/**
 * Asks for a remark and writes it as the roll's or the frame's `note`, behind what stands there; an empty one takes the
 * note away. A remark on one value begins with the value's name.
 */
export async function note(uri: vscode.Uri, frame: string | undefined, about?: string): Promise<boolean> {
  const document = await vscode.workspace.openTextDocument(uri);
  const path = [...(frame === undefined ? [] : ["frames", frame]), "note"];
  const recipe = parseRecipe(recipeText(document), { file: uri.path });
  const range = recipe.rangeOf(path);
  const old = path.reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], recipe.value);
  const there = range && typeof old === "string" ? old.trim() : "";
  const prefix = [there, about === undefined ? "" : `${about}: `].filter(Boolean).join("; ");
  const text = await vscode.window.showInputBox({
    title: frame === undefined ? vscode.l10n.t("Note") : vscode.l10n.t("Note on frame {0}", frame),
    prompt: vscode.l10n.t("A note for people, kept in the recipe. It changes nothing in the picture."),
    value: prefix,
    valueSelection: [prefix.length, prefix.length],
  });
  if (text === undefined) return false;
  return apply([{ uri, edits: () => [{ path, value: text.trim() === "" ? undefined : text }] }]);
}

async function apply(files: readonly { readonly uri: vscode.Uri; readonly edits: MakeEdits }[]): Promise<boolean> {
  const edit = new vscode.WorkspaceEdit();
  for (const { uri, edits } of files) {
    const document = await vscode.workspace.openTextDocument(uri);
    const text = recipeText(document);
    const kind = kindOfFile(uri.path);
    const made = withEdits(text, edits(parseRecipe(text, { file: uri.path, kind }).value), kind);
    for (const change of wholeChange(text, made)) {
      const range = new vscode.Range(document.positionAt(change.start), document.positionAt(change.end));
      edit.replace(uri, range, change.text);
    }
  }
  return edit.size > 0 && (await vscode.workspace.applyEdit(edit));
}
