/** Reads what a menu or a tree row hands to a command. */
import * as vscode from "vscode";
import { uriOf } from "./uris.ts";

/** What a menu hands to a command: the address of a recipe, and the frame where it is about one. */
export interface Target {
  readonly uri?: vscode.Uri;
  readonly frame?: string;
}

/** Understands an address (as a text too), a row of the Rolls view, and a row of source control. */
export function targetOf(given: unknown): Target {
  if (given instanceof vscode.Uri) return { uri: given };
  // A link in a text hands over an address as text.
  if (typeof given === "string") return { uri: vscode.Uri.parse(given) };
  if (typeof given !== "object" || given === null) return {};
  const { resourceUri, roll, parent, frame } = given as {
    resourceUri?: unknown;
    roll?: { file?: unknown };
    parent?: { roll?: { file?: unknown } };
    frame?: { id?: unknown };
  };
  const file = roll?.file ?? parent?.roll?.file;
  const id = frame?.id;
  return {
    ...(resourceUri instanceof vscode.Uri
      ? { uri: resourceUri }
      : typeof file === "string"
        ? { uri: uriOf(file) }
        : {}),
    ...(typeof id === "string" ? { frame: id } : {}),
  };
}
