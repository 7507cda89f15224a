/** Formats a recipe: canonical order and layout, every comment kept. */
import { attachComments } from "../../yaml/comments.ts";
import { kindOfFile, type RecipeKind } from "../../path.ts";
import { Printer } from "./print.ts";
import { limitProblem } from "../../yaml/limits.ts";
import { readComments, readSyntax } from "../../yaml/syntax.ts";
import type { Mapping, AstNode } from "../../yaml/ast.ts";
import { differenceOf } from "../verify.ts";

export interface Formatted {
  readonly text: string;
  /** Why the text was left as it is, in a sentence; absent where it is in canonical layout now. */
  readonly left?: string;
  /** It is left for its anchors, tags and the like, not for a fault. */
  readonly isOddity?: boolean;
}

interface FormatOptions {
  readonly file?: string;
  readonly kind?: RecipeKind;
}

/**
 * The recipe in the canonical order and layout: keys in the schema's order, two spaces of indentation, short values on
 * one line (a mapping in brackets ends before column 100, else it is a block), frame ids in double quotes, at most one blank line in a row. Values, comments, quotes and line endings stay
 * as they are. A text that cannot be read, or that uses anchors, aliases, tags, directives or ? keys, is given back
 * unchanged.
 */
export const formatRecipe = (text: string, options: FormatOptions = {}): string => tryFormat(text, options).text;

/** The same, with the reason where a text is left as it is. */
export function tryFormat(text: string, options: FormatOptions = {}): Formatted {
  const kind = options.kind ?? kindOfFile(options.file ?? "");
  const mark = text.startsWith("\uFEFF") ? "\uFEFF" : "";
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? "\n";
  const plain = text.slice(mark.length).replaceAll("\r\n", "\n");
  const limit = limitProblem(text);
  if (limit) return { text, left: limit.message };
  const ast = read(plain);
  if (typeof ast === "string") return { text, left: ast, isOddity: ast === NOT_SIMPLE };
  if (!ast) return { text };
  const comments = readComments(plain);
  const { header, ...root } = attachComments(plain, ast, comments);
  const printer = new Printer(kind);
  const lines = printer.block(printer.settle(root, [], 0), [], 0);
  const top = header.filter((line, i) => line !== "" || (i > 0 && header[i - 1] !== ""));
  if (top.at(-1) === "") top.pop();
  const printed = [...(top.length > 0 ? [...top, ""] : []), ...lines, ""].join("\n");
  const lost = differenceOf({ text: plain, ast, comments }, printed);
  if (lost) return { text, left: `Formatting would change its values (${lost}). Please report this with the text.` };
  return { text: mark + printed.replaceAll("\n", lineEnd) };
}

/** The tree of a text that can be laid out again; a sentence where it cannot; undefined where it says nothing. */
function read(text: string): Mapping | string | undefined {
  let syntax;
  try {
    syntax = readSyntax(text);
  } catch (error) {
    if (error instanceof RangeError) return "Its values are nested too deeply.";
    throw error;
  }
  const { ast, syntaxErrors } = syntax;
  if (syntaxErrors.length > 0) return 'It is not valid YAML; "rollbook check" says where.';
  if (!ast) return undefined;
  if (ast.kind !== "mapping") return "It is not a mapping of keys and values.";
  if (ast.entries.length === 0) return undefined;
  return /^%|^(?:---|\.\.\.)(?:\s|$)|\r/m.test(text) || !isSimple(ast) ? NOT_SIMPLE : ast;
}

const NOT_SIMPLE =
  "It uses anchors, aliases, tags, ? keys, --- lines or single carriage returns, which the canonical layout does not have.";

/** No anchors, aliases or tags, and every key a text in front of its colon. */
export function isSimple(ast: AstNode): boolean {
  if (ast.kind === "alias" || ast.props !== undefined) return false;
  if (ast.kind === "scalar") return true;
  if (ast.kind === "list") return ast.items.every((item) => isSimple(item.value));
  return ast.entries.every(({ key, value, explicit }) => {
    return !explicit && key.kind === "scalar" && key.props === undefined && key.end > key.start && isSimple(value);
  });
}
