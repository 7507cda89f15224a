/** The lines that the parts of a text take up, with their comments. */
import { type Entry, type Item, type List, type Mapping, target, type AstNode } from "../yaml/ast.ts";

export type Part = Entry | Item;

export const partsOf = (group: Mapping | List): readonly Part[] =>
  group.kind === "mapping" ? group.entries : group.items;
export const startOf = (part: Part): number => ("key" in part ? part.key.start : part.start);
export const endOf = (part: Part): number =>
  "key" in part ? Math.max(part.key.end, part.value.end) : Math.max(part.start + 1, part.value.end);

/** Where the lines of a text begin and end, and which comments belong to which key, as `rollbook format` sees it. */
export class TextLines {
  readonly text: string;
  readonly eol: string;

  constructor(text: string) {
    this.text = text;
    this.eol = /\r?\n/.exec(text)?.[0] ?? "\n";
  }

  start(offset: number): number {
    return offset <= 0 ? 0 : this.text.lastIndexOf("\n", offset - 1) + 1;
  }

  /** Start of the next line, or the end of the text. */
  next(offset: number): number {
    const end = this.text.indexOf("\n", offset);
    return end < 0 ? this.text.length : end + 1;
  }

  /** End of the line, before its line break. */
  end(offset: number): number {
    const next = this.next(offset);
    return next > 0 && this.text[next - 1] === "\n" ? next - (this.text[next - 2] === "\r" ? 2 : 1) : next;
  }

  column(offset: number): number {
    return offset - this.start(offset) - (this.start(offset) === 0 && this.text.startsWith("\uFEFF") ? 1 : 0);
  }

  isBlank(lineStart: number): boolean {
    return lineStart < this.text.length && this.text.slice(lineStart, this.end(lineStart)).trim() === "";
  }

  isComment(lineStart: number): boolean {
    return /^[ \t]*#/.test(this.text.slice(lineStart, this.end(lineStart)));
  }

  /** Start of the line after everything that belongs to a part of a block: its value, and comments that end its inner block. */
  after(part: Part): number {
    let end = this.next(Math.max(endOf(part) - 1, startOf(part)));
    const inner = innerBlock(part.value);
    const first = inner && partsOf(inner)[0];
    if (!first) return end;
    const column = this.column(startOf(first));
    if (column <= this.column(startOf(part))) return end;
    let at = end;
    while (at < this.text.length) {
      const line = this.text.slice(at, this.end(at));
      const isInside = this.isComment(at) && line.length - line.trimStart().length >= column;
      if (!isInside && !this.isBlank(at)) break;
      at = this.next(at);
      if (isInside) end = at;
    }
    return end;
  }

  /** Where the lines of a block begin: below its key's line; in the root, after the comments set off at the top. */
  blockStart(first: Part, holder: Part | undefined): number {
    const line = this.start(startOf(first));
    const top = this.text.startsWith("\uFEFF") ? 1 : 0;
    if (!holder) return Math.max(this.attached(line, top), top);
    const opening = "key" in holder ? holder.key.end : holder.start;
    return Math.min(this.next(opening), line);
  }

  /** Start of the comment lines directly above a line, not before `limit`. */
  attached(lineStart: number, limit: number): number {
    let at = lineStart;
    while (at > limit && this.isComment(this.start(at - 1)) && this.start(at - 1) >= limit) at = this.start(at - 1);
    return at;
  }
}

const innerBlock = (value: AstNode): Mapping | List | undefined => {
  const inner = value.kind === "alias" ? undefined : target(value);
  return inner && inner.kind !== "scalar" && !inner.flow ? inner : undefined;
};
