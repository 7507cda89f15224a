/** Reads from the text before the caret what is being written: a key, a value or an item. */
import type { RecipePath, TextRange } from "../../path.ts";
import { closingQuote, readBrackets } from "./flow.ts";

/** What is being written at the caret. */
export interface WritingContext {
  /** A key of the mapping at `path`, or the value at `path`. */
  readonly what: "key" | "value";
  readonly path: RecipePath;
  /** Keys that the mapping has already, the one at the caret left out. */
  readonly present: readonly string[];
  /** The text that a completion replaces, and what of it stands before the caret. */
  readonly word: TextRange;
  readonly prefix: string;
  /** Inside brackets. */
  readonly flow: boolean;
  /** A colon follows the key already. */
  readonly hasColon: boolean;
  /** Spaces before the line. */
  readonly indent: number;
  /** The value would stand right behind its colon. */
  readonly needsBlank?: boolean;
}

interface Block {
  readonly indent: number;
  readonly kind: "mapping" | "list";
  readonly keys: string[];
  /** Path of the mapping or list itself. */
  readonly path: RecipePath;
  /** Items so far, of a list. */
  count: number;
  /** The last key, and whether a value stands behind it. */
  last?: string;
  filled: boolean;
}

const keyPattern = /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*'|[^\s#"'[{\]},&*!|>%@`-][^:#]*?|-[^\s:][^:]*?)\s*:(?=\s|$)/;

/**
 * Where the caret is, told from indentation and brackets alone: works on lines that are still being written and on
 * texts that are no YAML at the moment. Undefined in comments, in running text, and where nothing can be written.
 */
export function contextAt(text: string, offset: number): WritingContext | undefined {
  const blocks: Block[] = [{ indent: 0, kind: "mapping", keys: [], path: [], count: 0, filled: false }];
  const caretLine = text.lastIndexOf("\n", offset - 1) + 1;
  let at = 0;
  while (at < caretLine) {
    const end = lineEnd(text, at);
    if (isEmpty(text, at, end)) at = end + 1;
    else {
      const after = readLine(text, at, end, blocks, offset);
      if (typeof after !== "number") return after.context;
      at = after;
    }
    if (at > caretLine) return undefined; // inside a text of several lines
  }
  return contextOnLine(text, caretLine, offset, blocks);
}

const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end;
};

const isEmpty = (text: string, start: number, end: number): boolean => /^\s*(#.*)?$/.test(text.slice(start, end));

const indentOf = (text: string, start: number): number => /^ */.exec(text.slice(start, start + 200))![0].length;

/** Reads one line before the caret's and gives the offset of the next; or the context, when it is in brackets that begin here. */
function readLine(
  text: string,
  start: number,
  end: number,
  blocks: Block[],
  offset: number,
): number | { context: WritingContext | undefined } {
  let indent = indentOf(text, start);
  let at = start + indent;
  open(blocks, indent, text[at] === "-" && /\s|^$/.test(text[at + 1] ?? ""));
  for (;;) {
    const dash = /^-(\s+|$)/.exec(text.slice(at, end));
    if (!dash) break;
    blocks.at(-1)!.count++;
    indent += dash[0].length;
    at += dash[0].length;
    if (at >= end || text[at] === "#") return end + 1;
    openItem(blocks, indent, text.slice(at, end));
  }
  const block = blocks.at(-1)!;
  const key = keyPattern.exec(text.slice(at, end));
  if (key) {
    block.last = unquoted(key[1]!);
    block.keys.push(block.last);
    at += key[0].length;
    while (text[at] === " ") at++;
  }
  const rest = text.slice(at, end).trimEnd();
  block.filled = rest !== "" && !rest.startsWith("#");
  if (/^[|>][+-]?\d?[+-]?\s*(#.*)?$/.test(rest)) return afterBlockText(text, end + 1, indent);
  if (text[at] !== "{" && text[at] !== "[") return end + 1;
  const found = readBrackets(text, at, offset, (line) => continues(text, line, indent));
  if (found.open.length > 0) {
    const path =
      key || block.kind === "mapping"
        ? [...block.path, ...(block.last === undefined ? [] : [block.last])]
        : [...block.path, block.count - 1];
    return { context: inBrackets(text, offset, path, found, indent) };
  }
  const next = text.indexOf("\n", Math.max(found.end - 1, end));
  return next < 0 ? text.length + 1 : next + 1;
}

/** Whether a line can still belong to brackets that were opened on a line indented by `indent`. */
function continues(text: string, line: number, indent: number): boolean {
  const end = lineEnd(text, line);
  if (isEmpty(text, line, end)) return true;
  const own = indentOf(text, line);
  return own > indent || /^\s*[}\]]/.test(text.slice(line, end));
}

function afterBlockText(text: string, from: number, indent: number): number {
  let at = from;
  while (at < text.length) {
    const end = lineEnd(text, at);
    if (text.slice(at, end).trim() !== "" && indentOf(text, at) <= indent) break;
    at = end + 1;
  }
  return at;
}

/** Leaves the blocks that a line at `indent` ends, and enters the one that it begins. */
function open(blocks: Block[], indent: number, isItem: boolean): void {
  while (
    blocks.length > 1 &&
    (blocks.at(-1)!.indent > indent || (blocks.at(-1)!.indent === indent && blocks.at(-1)!.kind === "list" && !isItem))
  )
    blocks.pop();
  const top = blocks.at(-1)!;
  const begins = isItem ? top.kind === "mapping" && !(top.indent > indent) : top.indent < indent;
  if (!begins) return;
  const path =
    top.kind === "list" ? [...top.path, top.count - 1] : top.last === undefined ? top.path : [...top.path, top.last];
  if (top.last === undefined && top.kind === "mapping" && top.keys.length === 0 && !isItem) {
    // The first line decides where the outermost mapping stands.
    blocks.splice(-1, 1, { ...top, indent });
    return;
  }
  blocks.push({ indent, kind: isItem ? "list" : "mapping", keys: [], path, count: 0, filled: false });
}

function openItem(blocks: Block[], indent: number, rest: string): void {
  const list = blocks.at(-1)!;
  const isList = /^-(\s|$)/.test(rest);
  blocks.push({
    indent,
    kind: isList ? "list" : "mapping",
    keys: [],
    path: [...list.path, list.count - 1],
    count: 0,
    filled: false,
  });
}

function contextOnLine(text: string, start: number, offset: number, blocks: Block[]): WritingContext | undefined {
  const end = lineEnd(text, start);
  const before = text.slice(start, offset);
  const isBlank = text.slice(start, end).trim() === "";
  let indent = isBlank ? before.length : Math.min(indentOf(text, start), before.length);
  if (/^\s*#|\s#/.test(withoutQuotes(before)) || before.slice(0, indent).includes("\t")) return undefined;
  let at = start + indent;
  const isItem = text[at] === "-" && /\s|^$/.test(text[at + 1] ?? "");
  open(blocks, indent, isItem && at < offset);
  for (;;) {
    const dash = /^-\s+/.exec(text.slice(at, offset));
    if (!dash) break;
    blocks.at(-1)!.count++;
    indent += dash[0].length;
    at += dash[0].length;
    openItem(blocks, indent, text.slice(at, offset));
  }
  const block = blocks.at(-1)!;
  if (
    block.kind === "list" ||
    (blocks.at(-2)?.filled === true && block.keys.length === 0 && blocks.at(-2)!.kind === "mapping")
  )
    return undefined;
  const key = keyPattern.exec(text.slice(at, end));
  if (key && at + key[0].length <= offset - (text[at + key[0].length] === " " ? 1 : 0)) {
    const name = unquoted(key[1]!);
    let from = at + key[0].length;
    while (from < offset && text[from] === " ") from++;
    const path = [...block.path, name];
    if (text[from] === "{" || text[from] === "[") {
      if (offset > from) {
        const found = readBrackets(text, from, offset, () => true);
        if (found.open.length > 0) return inBrackets(text, offset, path, found, indent);
        return undefined;
      }
    }
    return valueContext(text, from, offset, end, path, indent);
  }
  if (!key && isScalarItem(blocks, text.slice(at, end))) {
    return valueContext(text, at, offset, end, block.path, indent);
  }
  const bracket = text[at] === "{" || text[at] === "[";
  if (bracket && offset > at) {
    const found = readBrackets(text, at, offset, () => true);
    return found.open.length > 0 ? inBrackets(text, offset, block.path, found, indent) : undefined;
  }
  const wordEnd = key ? at + key[1]!.length : offset + /^[\w"'-]*/.exec(text.slice(offset, end))![0].length;
  const here = key ? unquoted(key[1]!) : undefined;
  return {
    what: "key",
    path: block.path,
    present: [...block.keys, ...keysBelow(text, end + 1, indent)].filter((name) => name !== here),
    word: [at, wordEnd],
    prefix: text.slice(at, offset),
    flow: false,
    hasColon: key !== null,
    indent,
  };
}

/** An item of a list that is no mapping: a value of its own. Told by what the line holds so far. */
const isScalarItem = (blocks: readonly Block[], rest: string): boolean =>
  blocks.at(-2)?.kind === "list" && /^["']|\.\w*$|^\d/.test(rest.trim());

function valueContext(
  text: string,
  from: number,
  offset: number,
  end: number,
  path: RecipePath,
  indent: number,
): WritingContext {
  const quoted = text[from] === '"' || text[from] === "'";
  const close = quoted ? closingQuote(text, from, end) : -1;
  const comment = text.slice(from, end).search(/\s+#/);
  const plainEnd = from + (comment < 0 ? text.slice(from, end).trimEnd().length : comment);
  const to = Math.max(offset, close >= 0 ? close + 1 : plainEnd);
  return {
    what: "value",
    path,
    present: [],
    word: [from, to],
    prefix: text.slice(from, offset),
    flow: false,
    hasColon: true,
    indent,
    needsBlank: text[from - 1] === ":",
  };
}

function inBrackets(
  text: string,
  offset: number,
  path: RecipePath,
  { open, inComment, quoteStart }: ReturnType<typeof readBrackets>,
  indent: number,
): WritingContext | undefined {
  if (inComment) return undefined;
  const top = open.at(-1)!;
  const way: (string | number)[] = [...path];
  for (const bracket of open.slice(0, -1)) {
    if (bracket.kind === "list") way.push(bracket.index);
    else if (bracket.key !== undefined) way.push(bracket.key);
  }
  let from = quoteStart ?? top.wordStart;
  while (from < offset && /\s/.test(text[from]!)) from++;
  const rest = /^[^,}\]\n#:]*/.exec(text.slice(offset, lineEnd(text, offset)))![0].trimEnd();
  const to = offset + rest.length;
  const prefix = text.slice(from, offset);
  const common = { word: [from, to] as const, prefix, flow: true, indent };
  if (top.kind === "list") return { what: "value", path: [...way, top.index], present: [], hasColon: false, ...common };
  if (top.key !== undefined) return { what: "value", path: [...way, top.key], present: [], hasColon: true, ...common };
  const present = [...top.keys, ...keysBehind(text, to)];
  return { what: "key", path: way, present, hasColon: /^\s*:/.test(text.slice(to)), ...common };
}

/** Keys of the same mapping in the lines below. */
function keysBelow(text: string, from: number, indent: number): string[] {
  const keys: string[] = [];
  for (let at = from; at < text.length; at = lineEnd(text, at) + 1) {
    const end = lineEnd(text, at);
    if (isEmpty(text, at, end)) continue;
    const own = indentOf(text, at);
    if (own < indent) break;
    const key = own === indent ? keyPattern.exec(text.slice(at + own, end)) : null;
    if (key) keys.push(unquoted(key[1]!));
  }
  return keys;
}

/** Keys of the same brackets behind the caret, up to the bracket that closes them. */
function keysBehind(text: string, from: number): string[] {
  const end = lineEnd(text, from);
  const rest = text.slice(from, end);
  const keys: string[] = [];
  let depth = 0;
  for (const [token] of rest.matchAll(/[{[]|[}\]]|,\s*("[^"]*"|[\w-]+)\s*:/g)) {
    if (token === "{" || token === "[") depth++;
    else if (token === "}" || token === "]") {
      if (depth-- === 0) break;
    } else if (depth === 0) keys.push(unquoted(token.slice(1).replace(/:$/, "").trim()));
  }
  return keys;
}

const unquoted = (key: string): string => (key.startsWith('"') || key.startsWith("'") ? key.slice(1, -1) : key);

const withoutQuotes = (line: string): string =>
  line.replaceAll(/"(?:[^"\\]|\\.)*"|'[^']*'/g, (quoted) => "x".repeat(quoted.length));
