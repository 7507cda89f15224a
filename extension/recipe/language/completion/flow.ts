/** One open bracket between the start of a value in brackets and the caret. */
export interface OpenBracket {
  readonly kind: "mapping" | "list";
  /** Keys that stand in it so far, of a mapping. */
  readonly keys: string[];
  /** The key whose value is being written; undefined while a key is. */
  key: string | undefined;
  /** Number of commas so far, of a list: the index of the item that is being written. */
  index: number;
  /** Where the word at the end of the text begins. */
  wordStart: number;
}

/**
 * Reads a value in brackets, or the beginning of one, with all its faults.
 * @param until offset to stop at
 * @param each is told whenever a bracket closes, with what was in it
 * @returns the brackets that are open at `until`, outermost first, and whether `until` is inside quotes or a comment
 */
export function readBrackets(
  text: string,
  from: number,
  until: number,
  isIn: (offset: number) => boolean,
): { open: OpenBracket[]; end: number; quoteStart?: number; inComment: boolean } {
  const open: OpenBracket[] = [];
  let wordStart = from;
  let at = from;
  const word = () =>
    text
      .slice(wordStart, at)
      .trim()
      .replace(/^(["'])(.*)\1$/s, "$2");
  while (at < until) {
    const sign = text[at]!;
    const top = open.at(-1);
    if (sign === "\n" && !isIn(at + 1)) return { open: [], end: at, inComment: false };
    if (sign === "#" && /[\s]/.test(text[at - 1] ?? " ")) {
      const eol = text.indexOf("\n", at);
      if (eol < 0 || eol >= until) return { open, end: until, inComment: true };
      at = eol;
      continue;
    }
    if ((sign === '"' || sign === "'") && /[\s,[{:]/.test(text[at - 1] ?? " ")) {
      const close = closingQuote(text, at, until);
      if (close < 0) {
        if (top) top.wordStart = at;
        return { open, end: until, quoteStart: at, inComment: false };
      }
      at = close + 1;
      continue;
    }
    if (sign === "{" || sign === "[") {
      open.push({
        kind: sign === "{" ? "mapping" : "list",
        keys: [],
        key: undefined,
        index: 0,
        wordStart: at + 1,
      });
      wordStart = at + 1;
    } else if (sign === "}" || sign === "]") {
      if (top?.kind === "mapping" && top.key === undefined && word()) top.keys.push(word());
      open.pop();
      if (open.length === 0) return { open, end: at + 1, inComment: false };
      wordStart = at + 1;
    } else if (sign === "," && top) {
      if (top.kind === "mapping" && top.key === undefined && word()) top.keys.push(word());
      top.key = undefined;
      top.index++;
      wordStart = at + 1;
      top.wordStart = wordStart;
    } else if (
      sign === ":" &&
      top?.kind === "mapping" &&
      top.key === undefined &&
      /[\s,}\]]|^$/.test(text[at + 1] ?? "")
    ) {
      top.key = word();
      top.keys.push(top.key);
      wordStart = at + 1;
      top.wordStart = wordStart;
    }
    at++;
  }
  return { open, end: until, inComment: false };
}

/** The quote that ends a text in quotes on its line; -1 where there is none. */
export function closingQuote(text: string, start: number, until: number): number {
  const quote = text[start]!;
  for (let at = start + 1; at < until && text[at] !== "\n"; at++) {
    if (quote === '"' && text[at] === "\\") at++;
    else if (text[at] === quote) {
      if (quote === "'" && text[at + 1] === "'") at++;
      else return at;
    }
  }
  return -1;
}
