/** One replacement in a text: `start` to `end` (exclusive, UTF-16 units) becomes `text`. */
export interface TextChange {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text with the changes made. They are in order of place and do not overlap. */
export function applyChanges(text: string, changes: readonly TextChange[]): string {
  let out = "";
  let at = 0;
  for (const change of changes) {
    if (change.start < at || change.end < change.start || change.end > text.length)
      throw new RangeError("The changes overlap, are out of order, or leave the text.");
    out += text.slice(at, change.start) + change.text;
    at = change.end;
  }
  return out + text.slice(at);
}

/** In order of place, without changes that change nothing; removals that meet become one, and leave no blank lines at the end. */
export function tidyChanges(text: string, changes: readonly TextChange[]): TextChange[] {
  const tidy: TextChange[] = [];
  const ordered = changes
    .filter((change) => text.slice(change.start, change.end) !== change.text)
    .toSorted((a, b) => a.start - b.start || a.end - b.end);
  for (const change of ordered) {
    const last = tidy.at(-1);
    if (last && last.text === "" && change.text === "" && change.start <= last.end)
      tidy[tidy.length - 1] = { start: last.start, end: Math.max(last.end, change.end), text: "" };
    else {
      // Blank lines that would have gone with a removal stay when something is put in front of them.
      if (last?.text === "" && change.start < last.end) tidy[tidy.length - 1] = { ...last, end: change.start };
      tidy.push(change);
    }
  }
  const final = tidy.at(-1);
  if (final?.text === "" && final.end === text.length)
    tidy[tidy.length - 1] = { ...final, start: beforeBlankLines(text, final.start, tidy.at(-2)?.end ?? 0) };
  return tidy;
}

/** Start of the blank lines that end at the start of a line, not before `limit`. */
function beforeBlankLines(text: string, lineStart: number, limit: number): number {
  let at = lineStart;
  while (at > limit && text[at - 1] === "\n") {
    const start = at < 2 ? 0 : text.lastIndexOf("\n", at - 2) + 1;
    if (start < limit || text.slice(start, at).trim() !== "") break;
    at = start;
  }
  return at;
}

/** One change for everything between the first line that differs and the last. */
export function wholeChange(text: string, wanted: string): TextChange[] {
  if (text === wanted) return [];
  let start = 0;
  while (start < Math.min(text.length, wanted.length) && text[start] === wanted[start]) start++;
  start = start === 0 ? 0 : text.lastIndexOf("\n", start - 1) + 1;
  let same = 0;
  const maxLength = Math.min(text.length, wanted.length) - start;
  while (same < maxLength && text[text.length - 1 - same] === wanted[wanted.length - 1 - same]) same++;
  // Back to a line's end, so that whole lines are replaced.
  while (same > 0 && text[text.length - same - 1] !== "\n") same--;
  return [{ start, end: text.length - same, text: wanted.slice(start, wanted.length - same) }];
}
