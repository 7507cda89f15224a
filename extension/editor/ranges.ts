/** Converts positions, ranges and edits of the recipe room to VS Code's types. */
import * as vscode from "vscode";
import type { FileEdits, Place, Range } from "../recipe/language/types.ts";
import { uriOf } from "./uris.ts";

/** Lines and characters of the recipe room as VS Code's own; both count from 0. */
export const toPosition = ({ line, character }: Place): vscode.Position => new vscode.Position(line, character);

export const toRange = ({ start, end }: Range): vscode.Range => new vscode.Range(toPosition(start), toPosition(end));

/** One edit of the workspace: one step to undo, however many files. */
export function toWorkspaceEdit(files: readonly FileEdits[]): vscode.WorkspaceEdit {
  const edit = new vscode.WorkspaceEdit();
  for (const { file, edits } of files)
    for (const { range, text } of edits) edit.replace(uriOf(file), toRange(range), text);
  return edit;
}
