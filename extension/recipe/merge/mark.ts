/** Marks conflicts in a text as git does, on the lines of the value alone. */
import type { RecipeKind } from "../path.ts";
import { withEdits } from "../diff/stated.ts";
import type { Conflict } from "./three-way.ts";

export interface Markers {
  /** What the two sides are called behind the markers. */
  readonly ours: string;
  readonly theirs: string;
  /** How many signs a marker has; git's default is 7. */
  readonly size: number;
}

/** Lines `from` … `to` (exclusive) of our text, and what they are on the other side. */
interface Hunk {
  readonly from: number;
  readonly to: number;
  readonly theirs: readonly string[];
  readonly conflicts: readonly Conflict[];
}

/** The text, which has our values, with both values at each conflict. Conflicts that share lines share their markers. */
export function markConflicts(
  text: string,
  conflicts: readonly Conflict[],
  kind: RecipeKind,
  markers: Markers,
): string {
  const lineEnd = text.includes("\r\n") ? "\r\n" : "\n";
  const lines = linesOf(text);
  let hunks = conflicts.map((conflict) => hunkOf(text, lines, [conflict], kind));
  for (let done = false; !done;) {
    done = true;
    hunks.sort((a, b) => a.from - b.from || a.to - b.to);
    for (let i = 0; i + 1 < hunks.length; i++) {
      const [one, next] = [hunks[i]!, hunks[i + 1]!];
      if (next.from > one.to || (next.from === one.to && one.from !== one.to && next.from !== next.to)) continue;
      hunks = hunks.toSpliced(i, 2, hunkOf(text, lines, [...one.conflicts, ...next.conflicts], kind));
      done = false;
      break;
    }
  }
  const sign = (letter: string, name = ""): string => letter.repeat(markers.size) + (name && ` ${name}`);
  const out: string[] = [];
  let at = 0;
  for (const { from, to, theirs } of hunks) {
    out.push(...lines.slice(at, from), sign("<", markers.ours), ...lines.slice(from, to));
    out.push(sign("="), ...theirs, sign(">", markers.theirs));
    at = to;
  }
  return [...out, ...lines.slice(at)].join(lineEnd) + (text.endsWith("\n") ? lineEnd : "");
}

/** The lines that differ between our text and the same text with their values at some conflicts. */
function hunkOf(text: string, lines: readonly string[], conflicts: readonly Conflict[], kind: RecipeKind): Hunk {
  const edits = conflicts
    // What goes makes room first.
    .toSorted((a, b) => Number(a.theirs !== undefined) - Number(b.theirs !== undefined))
    .map(({ path, theirs }) => ({ path, value: theirs }));
  const other = linesOf(withEdits(text, edits, kind));
  let start = 0;
  while (start < lines.length && start < other.length && lines[start] === other[start]) start++;
  let same = 0;
  while (same < Math.min(lines.length, other.length) - start && lines.at(-1 - same) === other.at(-1 - same)) same++;
  return { from: start, to: lines.length - same, theirs: other.slice(start, other.length - same), conflicts };
}

const linesOf = (text: string): string[] => text.replace(/\r?\n$/, "").split(/\r?\n/);
