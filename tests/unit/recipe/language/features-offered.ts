/**
 * The text features as tests ask for them, whoever serves them: the functions of recipe/language/ themselves, or the
 * extension's build for a browser through the editor's interface. Results have one form, that of the functions.
 */
import type { Completion } from "../../../../extension/recipe/language/completion/completion.ts";
import type { Definition } from "../../../../extension/recipe/language/definition.ts";
import type { Fold } from "../../../../extension/recipe/language/folding.ts";
import type { Hover } from "../../../../extension/recipe/language/hover.ts";
import type { Symbol } from "../../../../extension/recipe/language/symbols.ts";
import type { FileEdits, Place, Range } from "../../../../extension/recipe/language/types.ts";

export type Refusal = { readonly problem: string };

export interface ShownProblem {
  readonly code: string;
  readonly message: string;
  readonly range: Range;
}

export interface OfferedFix {
  readonly title: string;
  readonly preferred: boolean;
  readonly edits: FileEdits["edits"];
}

/** One opened recipe with a caret. Files are named as in the memory workspace: /w/NAME. */
export interface OpenedRecipe {
  readonly text: string;
  /** Every file's text, by its path. */
  readonly files: ReadonlyMap<string, string>;
  problems(): Promise<readonly ShownProblem[]>;
  hover(): Promise<Hover | undefined>;
  definition(): Promise<Definition | undefined>;
  links(): Promise<readonly { readonly range: Range; readonly file: string }[]>;
  symbols(): Promise<readonly Symbol[]>;
  folds(): Promise<readonly Fold[]>;
  inlays(
    first: number,
    last: number,
  ): Promise<
    readonly { at: Place; label: string; tooltip?: string; origin?: { file: string; line: number } | undefined }[]
  >;
  /** Frames with problems, and how many. */
  lenses(): Promise<readonly { readonly range: Range; readonly problems: number }[]>;
  renameable(): Promise<string | undefined>;
  rename(name: string): Promise<FileEdits["edits"] | Refusal>;
  completions(): Promise<readonly Completion[]>;
  /** Fixes of the first problem with a code. */
  fixes(code: string): Promise<readonly OfferedFix[]>;
  fixAll(): Promise<FileEdits["edits"] | undefined>;
  /** Moves the value at the caret; undefined where that is not offered. */
  move(target: "roll" | "stock"): Promise<readonly FileEdits[] | Refusal | undefined>;
  formatted(): Promise<string>;
}

export interface TextFeatures {
  readonly name: string;
  /** @param roll a recipe's text, in which | may mark the caret; @param others files beside it */
  open(roll: string, others?: Readonly<Record<string, string>>, name?: string): Promise<OpenedRecipe>;
}
