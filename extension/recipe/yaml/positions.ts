/** From a path in a recipe to its place in the text, and back. */
import type { RecipePath, TextRange } from "../path.ts";
import { child, type Entry, type AstNode, target } from "./ast.ts";

/** Which part of an entry a range covers. Of list items "key" and "both" are the item's value too. */
export type RangePart = "key" | "value" | "both";

/**
 * What stands at an offset: on a key, in or on a value, or between entries ("gap"), where `path` leads to the mapping
 * or list that a new entry written there, at that column, would belong to.
 */
export interface Place {
  readonly path: RecipePath;
  readonly part: "key" | "value" | "gap";
}

/** The tree at `path`; undefined for what the text does not say. The way may lead through aliases. */
export function nodeAt(ast: AstNode, path: RecipePath): { entry?: Entry; value: AstNode } | undefined {
  let at: ReturnType<typeof child> = { value: ast };
  for (const part of path) {
    at = child(at.value, part);
    if (!at) return undefined;
  }
  return at;
}

export function rangeOf(ast: AstNode, path: RecipePath, part: RangePart): TextRange | undefined {
  const at = nodeAt(ast, path);
  if (!at) return undefined;
  const key = at.entry?.key;
  const { start, end } = at.value;
  if (part === "key" && key) return [key.start, key.end];
  if (part === "both" && key) return [key.start, Math.max(end, key.end)];
  return [start, end];
}

export function placeAt(text: string, ast: AstNode | undefined, offset: number): Place {
  const path: (string | number)[] = [];
  const column = columnOf(text, offset);
  let at = ast;
  while (at) {
    const inside = target(at);
    if (at.kind === "alias" || !inside || inside.kind === "scalar") return { path, part: "value" };
    if (inside.flow && offset > inside.start && offset >= inside.end && sameLine(text, inside.end, offset))
      return { path, part: "value" };
    const found: Entry | { start: number; value: AstNode } | undefined =
      inside.kind === "mapping"
        ? before(inside.entries, (e) => e.key.start, offset)
        : before(inside.items, (i) => i.start, offset);
    if (!found) return { path, part: "gap" };
    const start = "key" in found ? found.key.start : found.start;
    const name = "key" in found ? found.name : (inside as { items: readonly unknown[] }).items.indexOf(found);
    if ("key" in found && offset <= found.key.end) return { path: [...path, name], part: "key" };
    const { value } = found;
    const past = offset > value.end && !(value.start === value.end && sameLine(text, value.end, offset));
    const deeper = inside.flow ? !past : !past || column > columnOf(text, start) || sameLine(text, value.end, offset);
    if (!deeper) return { path, part: "gap" };
    path.push(name);
    at = value;
    if (value.kind === "scalar") return { path, part: past && !sameLine(text, value.end, offset) ? "gap" : "value" };
  }
  return { path, part: "gap" };
}

/** The last of the entries that begins at or before the offset. */
function before<T>(entries: readonly T[], start: (entry: T) => number, offset: number): T | undefined {
  let low = 0;
  let high = entries.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (start(entries[middle]!) <= offset) low = middle + 1;
    else high = middle;
  }
  return entries[low - 1];
}

const columnOf = (text: string, offset: number): number =>
  offset - (offset <= 0 ? 0 : text.lastIndexOf("\n", offset - 1) + 1);

function sameLine(text: string, from: number, to: number): boolean {
  const end = text.indexOf("\n", Math.min(from, to));
  return end < 0 || end >= Math.max(from, to);
}
