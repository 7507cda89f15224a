/** Converts between VS Code's addresses and the recipe room's file names. */
import * as vscode from "vscode";

/**
 * The name that a document has for the recipe room: an absolute path with /. Files of this machine keep their path, and
 * so do texts that are to be saved there; others carry scheme and authority in front, as //scheme+authority/path.
 */
export function fileOf(uri: vscode.Uri): string {
  if (uri.scheme === "file" && uri.authority === "") return uri.path;
  if (uri.scheme === "untitled" && uri.path.startsWith("/")) return uri.path;
  return `//${uri.scheme}+${encodeURIComponent(uri.authority)}${uri.path}`;
}

/** The document that a name stands for. */
export function uriOf(file: string): vscode.Uri {
  const unsaved = vscode.workspace.textDocuments.find(({ uri }) => uri.scheme === "untitled" && uri.path === file);
  if (unsaved) return unsaved.uri;
  const other = /^\/\/([^+/]+)\+([^/]*)(\/.*)?$/.exec(file);
  if (!other) return vscode.Uri.file("/").with({ path: file });
  const [, scheme = "", authority = "", path = ""] = other;
  return vscode.Uri.from({ scheme, authority: decodeURIComponent(authority), path });
}

/** Recipes wherever they are: in the workspace, outside it, in a comparison. */
export const recipeSelector: vscode.DocumentSelector = [{ pattern: "**/*.{roll,stock}.{yaml,yml}" }];

export const isRecipe = (uri: vscode.Uri): boolean => /\.(roll|stock)\.ya?ml$/i.test(uri.path);

/** Whether somebody edits the document: not the other side of a comparison, nor a piece of chat. */
export const isEdited = ({ uri }: vscode.TextDocument): boolean =>
  isRecipe(uri) &&
  (["file", "untitled"].includes(uri.scheme) ||
    (vscode.workspace.workspaceFolders ?? []).some((folder) => folder.uri.scheme === uri.scheme));
