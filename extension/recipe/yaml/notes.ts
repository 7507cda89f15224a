import { type Entry, type Item, type List, type Mapping, type Scalar, type Tree, target } from "./tree.ts";

/** A tree with its comments and blank lines attached to the keys and items they belong to. */
export type Noted = NotedScalar | NotedGroup;

export interface NotedScalar {
  readonly kind: "scalar";
  readonly scalar: Pick<Scalar, "value" | "style">;
  /** The text as written, one line or several; "" for a value left out. */
  readonly source: string;
}

/** A mapping or a list. */
export interface NotedGroup {
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
  readonly value: Noted;
}

/** Attaches every comment of `text` to its key. The text has LF line endings; the tree has no anchors, aliases or tags. */
export function attachNotes(text: string, tree: Mapping): NotedGroup & { header: readonly string[] } {
  const reader = new NoteReader(text);
  const { header, rest } = reader.header(tree.start);
  const root = reader.group(tree, -1, rest);
  return { ...root, tail: [...root.tail, ...reader.lines(text.length)], header };
}

export const hasNotes = (value: Noted): boolean =>
  value.kind !== "scalar" &&
  (value.tail.length > 0 ||
    value.members.some((m) => m.trail !== "" || m.lead.some((line) => line !== "") || hasNotes(m.value)));

class NoteReader {
  readonly #text: string;
  /** Everything before this offset is attached already. */
  #at = 0;

  constructor(text: string) {
    this.#text = text;
  }

  /** Comments at the top, set off by a blank line, belong to the file and stay there. */
  header(start: number): { header: readonly string[]; rest: readonly string[] } {
    const lines = this.lines(this.#lineStart(start));
    this.#at = start;
    const blank = lines.lastIndexOf("");
    return blank < 0 || lines.slice(0, blank).every((line) => line === "")
      ? { header: [], rest: lines.filter((line) => line !== "") }
      : { header: lines.slice(0, blank), rest: lines.slice(blank + 1) };
  }

  /** Comments and blank lines from here to `end`. */
  lines(end: number): string[] {
    if (end <= this.#at) return [];
    const isMidLine = this.#at > 0 && this.#text[this.#at - 1] !== "\n";
    const lines = this.#text.slice(this.#at, end).split("\n");
    this.#at = end;
    // A first piece that ends the line of another value is no blank line; the last piece is indentation or a bracket.
    const last = lines.pop() ?? "";
    const whole = lines.map(commentIn);
    if (isMidLine && whole[0] === "") whole.shift();
    if (commentIn(last) !== "") whole.push(commentIn(last));
    return whole;
  }

  group(tree: Mapping | List, outerColumn: number, first: readonly string[] = []): NotedGroup {
    const members: Member[] = [];
    const parts: readonly (Entry | Item)[] = tree.kind === "mapping" ? tree.entries : tree.items;
    const column = parts[0] ? this.#column(startOf(parts[0])) : 0;
    for (const [i, part] of parts.entries()) {
      const lead = i === 0 ? [...first, ...this.#lead(startOf(part))] : this.#lead(startOf(part));
      members.push(this.#member(part, lead, tree.flow ? outerColumn : column));
    }
    const tail = tree.flow ? this.#lead(tree.end) : this.#claim(column, outerColumn);
    if (tree.flow) this.#at = tree.end;
    return { kind: tree.kind, flow: tree.flow, members, tail: tree.flow ? tail.filter((line) => line !== "") : tail };
  }

  #member(part: Entry | Item, lead: readonly string[], column: number): Member {
    const isEntry = "key" in part;
    const name = isEntry ? part.name : "";
    const key = isEntry ? this.#text.slice(part.key.start, part.key.end) : "";
    this.#at = isEntry ? part.key.end : part.start;
    const tree = target(part.value)!;
    // What stands between the key and its value: a comment on the key's line, then lines of their own.
    const colon =
      isEntry && /^\s*:/.test(this.#text.slice(this.#at, this.#at + 200))
        ? this.#text.indexOf(":", this.#at)
        : this.#at - 1;
    const startsBelow = this.#text.slice(this.#at, tree.start).includes("\n");
    let head = "";
    let between: string[] = [];
    if (startsBelow && tree.end > tree.start) {
      this.#at = isEntry ? colon + 1 : this.#at + 1;
      head = this.#trail();
      between = this.lines(this.#lineStart(tree.start));
    }
    if (tree.kind === "scalar") {
      this.#at = Math.max(tree.end, colon + 1);
      const written = this.#text.slice(tree.start, tree.end);
      const header = tree.style === "block" ? headerComment(written) : "";
      const trail = header || this.#trail();
      const extra = head !== "" && trail !== "" ? [head.trim()] : [];
      return {
        name,
        key,
        lead: [...lead, ...extra, ...between.filter((line) => line !== "")],
        trail: trail || head,
        value: { kind: "scalar", scalar: tree, source: written.replace(header, "") },
      };
    }
    this.#at = tree.flow
      ? tree.start + 1
      : startOf((tree.kind === "mapping" ? tree.entries[0] : tree.items[0]) ?? { start: tree.start });
    const value = this.group(tree, column, between);
    const trail = tree.flow ? this.#trail() : "";
    const extra = head !== "" && trail !== "" ? [head.trim()] : [];
    return { name, key, lead: [...lead, ...extra], trail: trail || head, value };
  }

  /** Lines between here and a member that starts at `start`. */
  #lead(start: number): string[] {
    const lines = this.lines(start);
    this.#at = start;
    return lines;
  }

  /** The comment on the rest of this line, with the blanks before it, past a comma. */
  #trail(): string {
    const end = this.#lineEnd(this.#at);
    const rest = this.#text.slice(this.#at, end);
    const found = /^([ \t,]*)(#.*)$/.exec(rest);
    if (found) {
      this.#at = end;
      return `${found[1]!.replaceAll(",", "").replaceAll("\t", " ") || " "}${found[2]!.trimEnd()}`;
    }
    return "";
  }

  /** Comment lines after a block that are indented at least as far as the block, and further than what is around it. */
  #claim(column: number, outerColumn: number): string[] {
    const claimed: string[] = [];
    let from = this.#lineEnd(this.#at);
    let end = this.#at;
    let pending = 0;
    while (from < this.#text.length) {
      const next = this.#lineEnd(from + 1);
      const line = this.#text.slice(from + 1, next);
      const indent = line.length - line.trimStart().length;
      if (line.trim() === "") pending++;
      else if (line.trimStart().startsWith("#") && indent >= column && indent > outerColumn) {
        if (pending > 0) claimed.push("");
        claimed.push(line.trim());
        pending = 0;
        end = next;
      } else break;
      from = next;
    }
    if (claimed.length > 0) this.#at = end;
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

const startOf = (part: Entry | { readonly start: number } | Tree): number =>
  "key" in part ? part.key.start : part.start;

/** The comment behind the | or > of a block text, with the blanks before it, or "". */
const headerComment = (block: string): string => /^[|>][-+0-9]*([ \t]+#.*)/.exec(block)?.[1]!.trimEnd() ?? "";

/** The comment on a line without values, or "". */
function commentIn(line: string): string {
  const at = line.indexOf("#");
  return at < 0 ? "" : line.slice(at).trimEnd();
}
