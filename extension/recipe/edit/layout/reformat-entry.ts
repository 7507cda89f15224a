/** Lays out one entry of a text before an edit changes it. */
import { isSimple } from "./format.ts";
import { attachToPart } from "../../yaml/comments.ts";
import type { RecipeKind, RecipePath } from "../../path.ts";
import { Printer } from "./print.ts";
import { readComments, readSyntax } from "../../yaml/syntax.ts";
import { child, type AstNode } from "../../yaml/ast.ts";
import { type Part, startOf, TextLines } from "../lines.ts";

/**
 * The text with the innermost key or item of a block on the way to `path` in canonical layout, so that comments in its
 * brackets stand on lines of their own; undefined where that cannot be.
 */
export function reformatEntry(text: string, kind: RecipeKind, path: RecipePath): string | undefined {
  const { ast } = readSyntax(text);
  const found = ast && innermost(ast, path);
  if (!found || !isSimple(found.part.value) || text.includes("\r")) return undefined;
  const { part, at } = found;
  const lines = new TextLines(text);
  const [lineStart, column] = [lines.start(startOf(part)), lines.column(startOf(part))];
  const before = text.slice(lineStart, startOf(part)).replace("\uFEFF", "");
  if (!/^ *$/.test(before)) return undefined;
  const member = attachToPart(text, part, column, readComments(text));
  const printer = new Printer(kind);
  const settled = printer.settle(
    { kind: "key" in part ? "mapping" : "list", flow: false, members: [member], tail: [] },
    at.slice(0, -1),
    column,
  );
  const printed = printer.block(settled, at.slice(0, -1), column).join("\n");
  const from = startOf(part) - column;
  return `${text.slice(0, from)}${printed}\n${text.slice(lines.after(part))}`;
}

function innermost(ast: AstNode, path: RecipePath): { part: Part; at: RecipePath } | undefined {
  let found: { part: Part; at: RecipePath } | undefined;
  let group: AstNode = ast;
  for (const [i, name] of path.entries()) {
    if ((group.kind !== "mapping" && group.kind !== "list") || group.flow) break;
    const step = child(group, name);
    const part = step?.entry ?? step?.item;
    if (!part) break;
    found = { part, at: path.slice(0, i + 1) };
    group = part.value;
  }
  return found;
}
