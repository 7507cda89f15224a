/** A recipe's text, read and checked: the one parser of recipes. */
import { checkMeaning } from "./checks/all.ts";
import { syntaxProblems } from "../yaml/syntax-problems.ts";
import { Lines } from "../yaml/lines.ts";
import { kindOfFile, type Position, type RecipeKind, type RecipePath, type TextRange } from "../path.ts";
import { type Place, placeAt, rangeOf, type RangePart } from "../yaml/positions.ts";
import { type Problem, problem } from "../problems.ts";
import { deep, limitProblem } from "../yaml/limits.ts";
import { readSyntax, type Syntax } from "../yaml/syntax.ts";
import type { AstNode } from "../yaml/ast.ts";
import { validateValue } from "./validate.ts";
import { readValues, type Value } from "../yaml/values.ts";

/** Problems beyond this number are not reported: whoever has a thousand to fix will read again. */
export const maximumProblems = 1000;

export interface ParseOptions {
  /** The file's path, with / between folders; relative to the workspace root, or absolute. */
  readonly file: string;
  /** Told by the file's name where absent. */
  readonly kind?: RecipeKind;
  /**
   * Folders that paths in the recipe may lead to. Absent: for a relative `file` the workspace root; for an absolute
   * one the check of `..` is left to whoever opens the file.
   */
  readonly roots?: readonly string[];
}

/** A recipe's text with everything that is known of it. Never changes. */
export interface RecipeDocument {
  readonly file: string;
  readonly kind: RecipeKind;
  readonly text: string;
  /** What the text says, as far as it could be read; wrong values included. Undefined for text without any. */
  readonly value: Value | undefined;
  /** The text's shape; undefined when it could not be read. */
  readonly ast: AstNode | undefined;
  /** Whether the text is YAML. If not, `value` and `tree` are a guess and no edit is possible. */
  readonly wellFormed: boolean;
  /** In order of place. */
  readonly problems: readonly Problem[];
  /** The same without limit and for text that is not YAML too: what may not be relied on when resolving. */
  readonly invalid: readonly Problem[];
  /** The place of a key, of its value, or of both; undefined for what the text does not say. */
  rangeOf(path: RecipePath, part?: RangePart): TextRange | undefined;
  /** What stands at an offset of the text. */
  pathAt(offset: number): Place;
  positionOf(offset: number): Position;
}

/**
 * Reads a recipe. Never throws: whatever is wrong with the text is among `problems`, with the exact range of the
 * offending text. A text that is too large, has conflict markers or is nested hundreds of
 * levels deep is not read at all; see refuse.ts.
 */
export function parseRecipe(text: string, options: ParseOptions): RecipeDocument {
  const kind = options.kind ?? kindOfFile(options.file);
  const syntax = read(text);
  const { ast } = syntax;
  let suggestion: Problem[] = [];
  let value: Value | undefined;
  if (ast) {
    const read = readValues(ast);
    value = read.value;
    suggestion = read.problems;
    if (value !== undefined) {
      const subject = { kind, file: options.file, roots: options.roots, text, ast, value };
      suggestion = suggestion.concat(validateValue(subject, suggestion));
      suggestion = suggestion.concat(checkMeaning(subject, suggestion));
    }
  } else if (syntax.problems.length === 0) suggestion = [emptyRecipe(text)];
  // What a text that is not YAML means is a guess: its other problems are kept back until it is.
  const isGuess = syntax.problems.length > 0;
  const problems = (isGuess ? syntax.problems : suggestion).slice(0, maximumProblems);
  problems.sort((a, b) => a.range[0] - b.range[0] || a.range[1] - b.range[1]);

  let lines: Lines | undefined;
  return {
    file: options.file,
    kind,
    text,
    value,
    ast,
    wellFormed: ast !== undefined && !isGuess,
    problems,
    invalid: suggestion,
    rangeOf: (path, part = "value") => ast && rangeOf(ast, path, part),
    pathAt: (offset) => placeAt(text, ast, offset),
    positionOf: (offset) => (lines ??= new Lines(text)).positionOf(offset),
  };
}

function read(text: string): Syntax & { problems: Problem[] } {
  const nothing = { ast: undefined, syntaxErrors: [] };
  const limit = limitProblem(text);
  if (limit) return { ...nothing, problems: [limit] };
  try {
    const syntax = readSyntax(text);
    return { ...syntax, problems: syntaxProblems(text, syntax.syntaxErrors) };
  } catch (error) {
    // The stack ran out on nesting that could not be counted beforehand. Anything else is a fault of ours.
    if (!(error instanceof RangeError)) throw error;
    return { ...nothing, problems: [deep(0)] };
  }
}

function emptyRecipe(text: string): Problem {
  const message = "The recipe is empty. Begin with: version: 2";
  return problem("not-a-mapping", [0, text.length === 0 ? 0 : 1], [], message, { data: { key: "version" } });
}
