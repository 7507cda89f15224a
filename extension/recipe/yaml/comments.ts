/** Attaches comments and blank lines to the keys and items that they belong to. */
import {
  type Comment,
  type Entry,
  type Item,
  type List,
  type Mapping,
  type Scalar,
  type AstNode,
  target,
} from "./ast.ts";

/** A tree with its comments and blank lines attached to the keys and items they belong to. */
export type Commented = CommentedScalar | CommentedGroup;

export interface CommentedScalar {
  readonly kind: "scalar";
  readonly scalar: Pick<Scalar, "value" | "style">;
  /** The text as written, one line or several; "" for a value left out. */
  readonly source: string;
}

/** A mapping or a list. */
export interface CommentedGroup {
  readonly kind: "mapping" | "list";
  /** Whether it was written in brackets. */
  readonly flow: boolean;
  readonly members: readonly Member[];
  /** Comments and blank lines after the last member. */
  readonly tail: readonly string[];
}

/** An entry of a mapping or an item of a list (then without name and key). */
export interface Member {
  readonly name: string;
  /** The key as written. */
  readonly key: string;
  /** Comment lines and blank lines ("") before it, without indentation. */
  readonly lead: readonly string[];
  /** The comment on its own line, with the blanks before it. */
  readonly trail: string;
  readonly value: Commented;
}

/**
 * Attaches every comment of `text` to its key. The text has LF line endings; the tree has no anchors, aliases or tags.
 * Comments are taken from the list one after the other, so that none can be left out or taken twice.
 */
export function attachComments(
  text: string,
  ast: Mapping,
  comments: readonly Comment[],
): CommentedGroup & { header: readonly string[] } {
  const reader = new CommentReader(text, comments);
  const { header, rest } = reader.header(ast.start);
  // Of a recipe in brackets what stands before and behind the first one belongs to the file.
  const { group, opening } = reader.group(ast, -1, ast.flow ? [] : rest);
  const top = ast.flow ? [...header, ...rest, ...marks(opening)] : header;
  return { ...group, tail: [...group.tail, ...reader.lines(text.length)], header: top };
}

/** The same for one key or item of a block alone; its lead stays outside. */
export function attachToPart(text: string, part: Entry | Item, column: number, comments: readonly Comment[]): Member {
  const from = startOf(part);
  return new CommentReader(
    text,
    comments.filter((comment) => comment.start >= from),
    from,
  ).member(part, [], column);
}

export const hasComments = (value: Commented): boolean =>
  value.kind !== "scalar" &&
  (value.tail.length > 0 ||
    value.members.some((m) => m.trail !== "" || m.lead.some((line) => line !== "") || hasComments(m.value)));

class CommentReader {
  readonly #text: string;
  readonly #comments: readonly Comment[];
  /** The first comment that is not attached yet. */
  #next = 0;
  /** Everything before this offset is attached already. */
  #at: number;

  constructor(text: string, comments: readonly Comment[], from = 0) {
    this.#text = text;
    this.#comments = comments;
    this.#at = from;
  }

  /** Comments at the top, set off by a blank line, belong to the file and stay there. */
  header(start: number): { header: readonly string[]; rest: readonly string[] } {
    const lines = this.lines(start);
    const blank = lines.lastIndexOf("");
    return blank < 0 || lines.slice(0, blank).every((line) => line === "")
      ? { header: [], rest: lines.filter((line) => line !== "") }
      : { header: lines.slice(0, blank), rest: lines.slice(blank + 1) };
  }

  /** Comments and blank lines from here to `end`. */
  lines(end: number): string[] {
    const lines: string[] = [];
    let at = this.#at;
    // What ends the line of another value is no blank line; nor is the last piece, which is indentation or a bracket.
    let isWhole = at === 0 || this.#text[at - 1] === "\n";
    while (at < end) {
      const lineEnd = Math.min(this.#lineEnd(at), end);
      const comment = this.#comments[this.#next];
      if (comment && comment.start < lineEnd) {
        lines.push(comment.text);
        this.#next++;
      } else if (isWhole && lineEnd < end && isBlank(this.#text.slice(at, lineEnd))) lines.push("");
      isWhole = true;
      at = lineEnd + 1;
    }
    this.#at = Math.max(this.#at, end);
    return lines;
  }

  /** `opening` is the comment behind the bracket, with the blanks before it. */
  group(
    ast: Mapping | List,
    outerColumn: number,
    first: readonly string[] = [],
  ): { group: CommentedGroup; opening: string } {
    const { kind, flow } = ast;
    const parts: readonly (Entry | Item)[] = ast.kind === "mapping" ? ast.entries : ast.items;
    // A single pair in a list is a mapping without brackets of its own.
    const isBracket = flow && /[[{]/.test(this.#text[ast.start] ?? "");
    this.#at = isBracket ? ast.start + 1 : Math.max(this.#at, parts[0] ? startOf(parts[0]) : ast.start);
    const opening = isBracket ? this.#trail() : "";
    const column = parts[0] ? this.#column(startOf(parts[0])) : 0;
    const members = parts.map((part, i) => {
      const lead = [...(i === 0 ? first : []), ...this.lines(startOf(part))];
      const member = this.member(part, lead, flow ? outerColumn : column);
      const next = parts[i + 1];
      // What stands before the comma, or on its line, belongs to the part before it.
      const own = flow && next ? this.lines(this.#commaLineEnd(startOf(next))).filter((line) => line !== "") : [];
      return own.length > 0 ? { ...member, lead: [...member.lead, ...own] } : member;
    });
    if (!flow) return { group: { kind, flow, members, tail: this.#claim(column, outerColumn) }, opening };
    const tail = isBracket ? this.lines(ast.end).filter((line) => line !== "") : [];
    return { group: { kind, flow, members, tail }, opening };
  }

  /** The end of the line of the comma before the next part in brackets, which starts at `limit`. */
  #commaLineEnd(limit: number): number {
    let at = this.#at;
    for (let next = this.#next; at < limit && this.#text[at] !== ","; at++) {
      const comment = this.#comments[next];
      if (comment?.start !== at) continue;
      at = comment.end - 1;
      next++;
    }
    // Not there: the comment behind it is attached already.
    return at < limit ? Math.min(this.#lineEnd(at), limit) : this.#at;
  }

  member(part: Entry | Item, lead: readonly string[], column: number): Member {
    const isEntry = "key" in part;
    const name = isEntry ? part.name : "";
    const key = isEntry ? this.#text.slice(part.key.start, part.key.end) : "";
    const ast = target(part.value)!;
    // What stands between the key and its value: a comment on the key's line, then lines of their own.
    this.#at = isEntry ? part.key.end : part.start;
    const head = ast.start > this.#at ? this.#trail(ast.start) : "";
    const between = this.lines(ast.start);
    this.#at = Math.max(ast.start, this.#at);
    if (ast.kind === "scalar") {
      const { source, header } = this.#scalar(ast);
      const trail = header || this.#trail();
      return {
        name,
        key,
        lead: [...lead, ...(trail ? marks(head) : []), ...between.filter((line) => line !== "")],
        trail: trail || head,
        value: { kind: "scalar", scalar: ast, source },
      };
    }
    const isEmpty = (ast.kind === "mapping" ? ast.entries : ast.items).length === 0;
    const { group, opening } = this.group(ast, column, isEmpty ? [] : between);
    const trails = [head, opening, ast.flow ? this.#trail() : ""].filter((comment) => comment !== "");
    const trail = trails.pop() ?? "";
    // Empty brackets stay on one line: what stood in them stands above.
    const inside = isEmpty ? [...between, ...group.tail].filter((line) => line !== "") : [];
    return {
      name,
      key,
      lead: [...lead, ...trails.flatMap(marks), ...inside],
      trail,
      value: isEmpty ? { ...group, tail: [] } : group,
    };
  }

  /** A scalar as written, and the comment behind the mark of a block text, with the blanks before it. */
  #scalar(ast: Scalar): { source: string; header: string } {
    const source = this.#text.slice(ast.start, ast.end);
    const comment = this.#comments[this.#next];
    const isHeader = ast.style === "block" && comment !== undefined && comment.start < ast.end;
    this.#at = Math.max(this.#at, ast.end);
    if (!isHeader) return { source, header: "" };
    this.#next++;
    const line = this.#text.slice(ast.start, comment.start);
    const mark = line.trimEnd();
    const body = source.slice(comment.end - ast.start).replace(/^[ \t]+/, "");
    return { source: mark + body, header: spaced(line.slice(mark.length)) + comment.text };
  }

  /** The comment on the rest of this line, with the blanks before it, past colon and commas; not behind `end`. */
  #trail(end = this.#text.length): string {
    const comment = this.#comments[this.#next];
    if (!comment || comment.start >= end) return "";
    const before = this.#text.slice(this.#at, comment.start);
    // A comma on the next line still belongs to what stands before it, and so does the comment behind it.
    if (!/^[ \t,:-]*$|^[ \t\n]*,[ \t]*$/.test(before)) return "";
    this.#next++;
    this.#at = comment.end;
    return spaced(/[ \t]*$/.exec(before)![0]) + comment.text;
  }

  /** Comment lines after a block that are indented at least as far as the block, and further than what is around it. */
  #claim(column: number, outerColumn: number): string[] {
    const claimed: string[] = [];
    for (;;) {
      const comment = this.#comments[this.#next];
      if (!comment) break;
      const lineStart = this.#lineStart(comment.start);
      const indent = comment.start - lineStart;
      const rest = this.#text.slice(this.#at, comment.start);
      if (!rest.includes("\n") || !isBlank(rest) || indent < column || indent <= outerColumn) break;
      if (/\n[ \t]*\n/.test(rest)) claimed.push("");
      claimed.push(comment.text);
      this.#next++;
      this.#at = comment.end;
    }
    return claimed;
  }

  #column(offset: number): number {
    return offset - this.#lineStart(offset);
  }

  #lineStart(offset: number): number {
    return offset <= 0 ? 0 : this.#text.lastIndexOf("\n", offset - 1) + 1;
  }

  #lineEnd(offset: number): number {
    const end = this.#text.indexOf("\n", offset);
    return end < 0 ? this.#text.length : end;
  }
}

const startOf = (part: Entry | Item | AstNode): number => ("key" in part ? part.key.start : part.start);

const isBlank = (text: string): boolean => /^[ \t\n]*$/.test(text);

/** Blanks before a comment at the end of a line: one at least, and no tabs. */
const spaced = (blanks: string): string => blanks.replaceAll("\t", " ") || " ";

/** A comment at the end of a line as a line of its own. */
const marks = (trail: string): readonly string[] => (trail === "" ? [] : [trail.replace(/^ +/, "")]);
