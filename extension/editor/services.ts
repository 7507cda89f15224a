/** What the parts of the extension share: documents, surveys, log. */
import type * as vscode from "vscode";
import type { Say } from "../recipe/language/types.ts";
import type { Recipes } from "./recipes.ts";
import type { Surveys } from "./survey/surveys.ts";

/** What the text features use: those run in a browser too. */
export interface TextServices {
  /** Recipes, read and resolved, unsaved changes included. */
  readonly recipes: Recipes;
  /** What surveys of the scans found. */
  readonly surveys: Pick<Surveys, "findings" | "of" | "recall" | "onDidChange">;
  /** Whether pictures can be made here: in a browser without a remote they cannot. */
  readonly makesPictures: boolean;
  /** The log that "Show log" opens. */
  readonly log: vscode.LogOutputChannel;
  /** Puts messages of the recipe room into the reader's language. */
  readonly t: Say;
}

/** What every part of the extension may use. */
export interface EditorServices extends TextServices {
  readonly surveys: Surveys;
}
