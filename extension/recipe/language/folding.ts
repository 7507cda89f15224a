/** The lines that fold: frames, blocks and runs of comments. */
import type { RecipeDocument } from "../problems/document.ts";
import { type AstNode, target } from "../yaml/ast.ts";

/** Lines that fold into the first of them; counted from 0, the last one included. */
export interface Fold {
  readonly start: number;
  readonly end: number;
  readonly kind?: "comment";
}

/** Every key whose value goes on over further lines (so, every frame), and blocks of comments. */
export function folds(document: RecipeDocument): Fold[] {
  const found: Fold[] = commentBlocks(document.text);
  const lineOf = (offset: number) => document.positionOf(offset).line - 1;
  const add = (from: number, to: number) => {
    const [start, end] = [lineOf(from), lineOf(to)];
    if (end > start) found.push({ start, end });
  };
  const walk = (ast: AstNode): void => {
    if (ast.kind === "alias") return;
    const value = target(ast);
    if (value?.kind === "mapping")
      for (const entry of value.entries) {
        if (entry.value.kind !== "scalar") walk(entry.value);
        add(entry.key.start, entry.value.end);
      }
    else if (value?.kind === "list")
      for (const item of value.items) {
        if (item.value.kind === "scalar") continue;
        walk(item.value);
        add(item.start, item.value.end);
      }
  };
  if (document.ast) walk(document.ast);
  return found.sort((a, b) => a.start - b.start || b.end - a.end);
}

/** Runs of lines that hold nothing but a comment. */
function commentBlocks(text: string): Fold[] {
  const found: Fold[] = [];
  let start = -1;
  for (const [line, content] of [...text.split("\n"), ""].entries()) {
    const isComment = /^\s*#/.test(content);
    if (isComment && start < 0) start = line;
    else if (!isComment && start >= 0) {
      if (line - 1 > start) found.push({ start, end: line - 1, kind: "comment" });
      start = -1;
    }
  }
  return found;
}
