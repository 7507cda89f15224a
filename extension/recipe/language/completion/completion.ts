/** The shape of a completion. */
import type { Reading } from "../document-cache.ts";
import type { Range, Say } from "../types.ts";
import type { RecipeWorkspace } from "../workspace.ts";

/** One proposal at the caret. */
export interface Completion {
  readonly label: string;
  readonly kind: "section" | "key" | "value" | "frame" | "file" | "folder";
  /** A word beside the label. */
  readonly detail?: string;
  /** Markdown. */
  readonly documentation?: string;
  /** What is written: a snippet in the syntax of the Language Server Protocol. */
  readonly snippet: string;
  readonly range: Range;
  /** Proposals are shown in this order. */
  readonly sort: string;
  /** Ask for proposals again once this one is written. */
  readonly again?: boolean;
}

/** What the completions are told of the place that they are for. */
export interface CompletionPlace {
  readonly reading: Reading;
  readonly range: Range;
  readonly workspace: RecipeWorkspace;
  readonly t: Say;
}
