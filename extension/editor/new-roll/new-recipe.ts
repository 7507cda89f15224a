/** The commands that create an empty recipe. */
import * as vscode from "vscode";
import type { RecipeKind } from "../../recipe/path.ts";
import { CURRENT_VERSION } from "../../recipe/version.ts";

/** What a new recipe begins with, as a snippet: each stop is a place to fill in. */
const templates: Readonly<Record<RecipeKind, string>> = {
  roll: [
    `version: ${CURRENT_VERSION}`,
    "title: ${1:Harbour, first light}",
    "stock: ${2}",
    "scans: ${3:scans}",
    "frames:",
    '  "${4:01}":',
    "    scan: ${5}",
    "",
  ].join("\n"),
  stock: [
    `version: ${CURRENT_VERSION}`,
    "title: ${1:Northlight 400}",
    "film: ${2|colour-negative,black-and-white-negative,slide|}",
    "iso: ${3:400}",
    "negative:",
    "  gamma: ${4:0.55}",
    "",
  ].join("\n"),
};

/** Begins an unsaved recipe beside the recipe that is open, or in the workspace's folder. */
export function registerNewRecipe(): vscode.Disposable {
  const createRecipe = (kind: RecipeKind) => async () => {
    const active = vscode.window.activeTextEditor?.document.uri;
    const folder =
      active && vscode.workspace.getWorkspaceFolder(active)
        ? vscode.Uri.joinPath(active, "..")
        : vscode.workspace.workspaceFolders?.[0]?.uri;
    const name = `new.${kind}.yaml`;
    const uri = folder
      ? vscode.Uri.joinPath(folder, name).with({ scheme: "untitled" })
      : vscode.Uri.from({ scheme: "untitled", path: name });
    const document = await vscode.workspace.openTextDocument(uri);
    const editor = await vscode.window.showTextDocument(document);
    if (document.languageId !== "yaml") await vscode.languages.setTextDocumentLanguage(document, "yaml");
    if (document.getText() === "") await editor.insertSnippet(new vscode.SnippetString(templates[kind]));
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand("rollbook.newEmptyRoll", createRecipe("roll")),
    vscode.commands.registerCommand("rollbook.newEmptyStock", createRecipe("stock")),
  );
}
