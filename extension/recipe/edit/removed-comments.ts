/** Which comments go when a value is removed. */
import type { Comment, List, Mapping, AstNode } from "../yaml/ast.ts";
import type { RecipePath } from "../path.ts";
import type { Value } from "../yaml/values.ts";
import { endOf, type Part, partsOf, startOf, type TextLines } from "./lines.ts";
import { isFields, isSame } from "./model.ts";

/** The comments that may go with what goes from `before` to `after`: those in it, behind it, and directly above it. */
export function removedComments(
  lines: TextLines,
  comments: readonly Comment[],
  ast: AstNode | undefined,
  before: Value | undefined,
  after: Value,
  removed: Removed,
): Comment[] {
  if (!ast || comments.length === 0) return [];
  const ranges: (readonly [from: number, to: number])[] = [];
  walk(ast, before, after, []);
  return comments.filter(({ start }) => ranges.some(([from, to]) => start >= from && start < to));

  function walk(
    ast: AstNode,
    before: Value | undefined,
    after: Value | undefined,
    path: RecipePath,
    holder?: Part,
  ): void {
    if (isSame(before, after) || ast.kind === "alias" || ast.kind === "scalar") return;
    if (ast.kind === "mapping" && isFields(before) && isFields(after)) {
      const isEmptied = ast.entries.length > 0 && !ast.entries.some((entry) => Object.hasOwn(after, entry.name));
      if (isEmptied) addWhole(ast, holder);
      for (const entry of ast.entries) {
        const wanted = Object.hasOwn(after, entry.name) ? after[entry.name] : undefined;
        if (wanted === undefined) add(ast, entry);
        else walk(entry.value, before[entry.name], wanted, [...path, entry.name], entry);
      }
    } else if (ast.kind === "list" && Array.isArray(before) && Array.isArray(after)) {
      const [old, now] = [before as readonly Value[], after as readonly Value[]];
      if (old.length > 0 && now.length === 0) addWhole(ast, holder);
      const { paired, tail } = pairing(old, now, removed(path));
      for (let i = 0; i < paired; i++) walk(ast.items[i]!.value, old[i], now[i], [...path, i], ast.items[i]);
      for (const item of ast.items.slice(paired, old.length - tail)) add(ast, item);
    } else addWhole(ast, holder);
  }

  /** All that stood in a group, from behind the line of its key or bracket to the end of its block. */
  function addWhole(ast: Mapping | List, holder?: Part): void {
    const [first] = partsOf(ast);
    const opening = !holder || ast.flow ? ast.start : "key" in holder ? holder.key.end : holder.start;
    const from = Math.min(lines.next(opening), first ? startOf(first) : ast.end);
    ranges.push([from, Math.max(ast.end, holder && !ast.flow ? lines.after(holder) : 0)]);
  }

  /** The comma behind a part, outside comments; the part's end where there is none before `limit`. */
  function commaAfter(part: Part, limit: number): number {
    const end = endOf(part);
    for (let at = end; at < limit; at++) {
      const comment = comments.find(({ start }) => start === at);
      if (comment) at = comment.end;
      if (lines.text[at] === ",") return at;
    }
    return end;
  }

  function add(group: Mapping | List, part: Part): void {
    const parts = partsOf(group);
    const i = parts.indexOf(part);
    const [before, next] = [parts[i - 1], parts[i + 1]];
    const start = startOf(part);
    if (!group.flow) {
      const limit = before ? lines.after(before) : 0;
      ranges.push([Math.min(lines.attached(lines.start(start), limit), start), lines.after(part)]);
      return;
    }
    // In brackets: the lines between the part before with its comma and this one, and all up to its own comma.
    const above = lines.next(before ? commaAfter(before, start) : group.start);
    const end = next ? startOf(next) : group.end;
    const behind = Math.min(lines.next(commaAfter(part, end)), end);
    ranges.push([Math.min(above, start), behind]);
  }
}

/** Of the list at a path, the item that an edit removes, where it is one. */
export type Removed = (path: RecipePath) => number | undefined;

/** How many items at the beginning of two lists belong together, and how many at the end are the same. */
export function pairing(
  before: readonly Value[],
  after: readonly Value[],
  removed?: number,
): { head: number; paired: number; tail: number } {
  // Of items that are alike it is the one that was named that goes, with its comments.
  if (removed !== undefined && isSame(before.toSpliced(removed, 1), after))
    return { head: removed, paired: removed, tail: before.length - 1 - removed };
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && isSame(before[head], after[head])) head++;
  let tail = 0;
  while (tail < shorter - head && isSame(before[before.length - 1 - tail], after[after.length - 1 - tail])) tail++;
  return { head, paired: shorter - tail, tail };
}
