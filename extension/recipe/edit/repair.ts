/** Keeps comments that an edit moves from falling into block texts. */
import { readSyntax } from "../yaml/syntax.ts";
import type { Comment, AstNode } from "../yaml/ast.ts";
import { applyChanges, type TextChange } from "./changes.ts";
import { type Part, partsOf, startOf, TextLines } from "./lines.ts";

/**
 * A block text takes every line below it that is set in far enough, comments too. Moves comments that a change would
 * put there out to the column of the text's key.
 */
export function keepOutOfBlockTexts(text: string, changes: TextChange[], comments: readonly Comment[]): TextChange[] {
  const after = applyChanges(text, changes);
  const { ast } = readSyntax(after);
  if (!ast) return changes;
  const [lines, newLines] = [new TextLines(text), new TextLines(after)];
  const added: TextChange[] = [];
  for (const comment of comments) {
    const at = moved(changes, comment.start);
    const lineStart = lines.start(comment.start);
    if (at === undefined || !/^[ \t]*$/.test(text.slice(lineStart, comment.start))) continue;
    const part = blockTextAt(ast, at);
    if (!part || changes.some(({ start, end }) => start < comment.start && end > lineStart)) continue;
    added.push({ start: lineStart, end: comment.start, text: " ".repeat(newLines.column(startOf(part))) });
  }
  return added.length === 0 ? changes : [...changes, ...added].toSorted((a, b) => a.start - b.start || a.end - b.end);
}

/** Where an offset of the old text is in the new one; undefined for what was changed. */
function moved(changes: readonly TextChange[], offset: number): number | undefined {
  let shift = 0;
  for (const { start, end, text } of changes) {
    if (start > offset) break;
    if (end > offset) return undefined;
    shift += text.length - (end - start);
  }
  return offset + shift;
}

/** The key or item whose block text an offset is in. */
function blockTextAt(ast: AstNode, offset: number): Part | undefined {
  if (ast.kind !== "mapping" && ast.kind !== "list") return undefined;
  for (const part of partsOf(ast)) {
    const { value } = part;
    if (offset < value.start || offset >= value.end) continue;
    return value.kind === "scalar" ? (value.style === "block" ? part : undefined) : blockTextAt(value, offset);
  }
  return undefined;
}
