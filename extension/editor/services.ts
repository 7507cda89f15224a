import type * as vscode from "vscode";
import type { Say } from "../recipe/language/types.ts";
import type { Recipes } from "./recipes.ts";
import type { Surveys } from "./survey/surveys.ts";

/** What every part of the extension may use. */
export interface EditorServices {
  /** Recipes, read and resolved, unsaved changes included. */
  readonly recipes: Recipes;
  /** What surveys of the scans found. */
  readonly surveys: Surveys;
  /** The log that "Show log" opens. */
  readonly log: vscode.LogOutputChannel;
  /** Puts messages of the recipe room into the reader's language. */
  readonly t: Say;
}
