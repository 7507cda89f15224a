/** Collects the changes of a text by which its tree comes to have another value. */
import { compareIds, hasFreeKeys, layoutOf, maximumRow, rankOf } from "../schema/layout.ts";
import type { Member } from "../yaml/comments.ts";
import { newMember, commentedValue, Printer } from "./layout/print.ts";
import { pathText, type RecipeKind, type RecipePath } from "../path.ts";
import { formatNumber, formatText, literalBlock } from "../yaml/scalar.ts";
import type { Comment, Entry, List, Mapping, Scalar, AstNode } from "../yaml/ast.ts";
import type { Value } from "../yaml/values.ts";
import type { TextChange } from "./changes.ts";
import { pairing, type Removed } from "./removed-comments.ts";
import { endOf, type Part, partsOf, startOf, TextLines } from "./lines.ts";
import { isFields, isSame, RecipeEditError } from "./model.ts";

/** Where a value stands: its key or item, whether brackets are around it, and where its block begins. */
interface ValuePlace {
  readonly path: RecipePath;
  readonly part: Part | undefined;
  readonly flow: boolean;
}

/** Walks a tree along the value it has and the value it is to have, and collects the changes of the text. */
export class Emitter {
  readonly changes: TextChange[] = [];
  /** Whether a value may now fit on one line that did not before. */
  mayDisturb = false;
  readonly #kind: RecipeKind;
  readonly #printer: Printer;
  readonly #lines: TextLines;
  readonly #comments: readonly Comment[];

  readonly #removed: Removed;

  constructor(kind: RecipeKind, lines: TextLines, comments: readonly Comment[], removed: Removed) {
    this.#removed = removed;
    this.#kind = kind;
    this.#printer = new Printer(kind);
    this.#lines = lines;
    this.#comments = comments;
  }

  root(ast: AstNode | undefined, before: Value | undefined, after: Value): void {
    if (ast?.kind === "mapping" && ast.entries.length > 0) {
      this.#value(ast, before, after, { path: [], part: undefined, flow: false });
      return;
    }
    // A text without a value: comments at most, or a pair of brackets.
    const { text, eol } = this.#lines;
    if (isSame(before ?? {}, after)) return;
    const group = commentedValue(after);
    const body = group.kind === "scalar" ? [] : this.#printer.block(group, [], 0);
    if (!ast) {
      const lead = text !== "" && !text.endsWith("\n") ? eol : "";
      this.#change(text.length, text.length, lead + body.join(eol) + eol);
      return;
    }
    // Comments in and behind the brackets come to stand above, where nothing can take them for its own.
    const lineEnd = this.#lines.end(ast.end);
    const inside = this.#comments.filter(({ start }) => start >= ast.start && start < lineEnd).map((one) => one.text);
    const from = ast.start - this.#lines.column(ast.start);
    this.#change(from, lineEnd, [...inside, ...body].join(eol) + (lineEnd === text.length ? eol : ""));
  }

  #change(start: number, end: number, text: string): void {
    this.changes.push({ start, end, text });
  }

  #value(ast: AstNode, before: Value | undefined, after: Value, spot: ValuePlace): void {
    if (isSame(before, after) && before !== undefined) return;
    if (ast.props !== undefined)
      throw new RecipeEditError(
        `${pathText(spot.path)} has an anchor or a tag, so other places may depend on it. Remove the anchor or tag, then edit the value.`,
      );
    if (ast.kind === "mapping" && isFields(after) && isFields(before)) this.#mapping(ast, before, after, spot);
    else if (ast.kind === "list" && Array.isArray(after) && Array.isArray(before))
      this.#list(ast, before as readonly Value[], after as readonly Value[], spot);
    else if (
      ast.kind === "alias" &&
      typeof after === "object" &&
      after !== null &&
      typeof before === "object" &&
      before !== null
    )
      throw new RecipeEditError(
        `${pathText(spot.path)} is the alias *${ast.name}, which stands for a value elsewhere. Write the value itself in its place, then edit it.`,
      );
    else this.#replace(ast, after, spot);
  }

  #mapping(
    ast: Mapping,
    before: Readonly<Record<string, Value>>,
    after: Readonly<Record<string, Value>>,
    spot: ValuePlace,
  ): void {
    const { path } = spot;
    const flow = spot.flow || ast.flow;
    this.#watch(ast, path);
    const seen = new Set<string>();
    const entries = ast.entries.filter((entry) => !seen.has(entry.name) && seen.add(entry.name));
    const gone = new Set<Part>(
      entries.filter((entry) => !Object.hasOwn(after, entry.name) && Object.hasOwn(before, entry.name)),
    );
    // A key stated twice goes as a whole.
    for (const entry of ast.entries) if (!entries.includes(entry) && !Object.hasOwn(after, entry.name)) gone.add(entry);
    const fresh = Object.keys(after).filter((name) => !seen.has(name));
    // Behind a question mark a key may be a mapping of its own, and what is put before it would become part of it.
    if (ast.entries.some(({ key }) => key.kind !== "scalar"))
      throw new RecipeEditError(
        `${pathText(path) || "The recipe"} has a key that is no word, so it cannot be changed. Write that key as plain text first.`,
      );
    if (ast.entries.every((entry) => gone.has(entry))) return this.#replace(ast, after, spot);
    for (const entry of entries) {
      const wanted = after[entry.name];
      if (gone.has(entry) || wanted === undefined) continue;
      this.#value(entry.value, before[entry.name], wanted, { path: [...path, entry.name], part: entry, flow });
    }
    const order = hasFreeKeys(this.#kind, path)
      ? compareIds
      : (a: string, b: string) => rankOf(this.#kind, path, a) - rankOf(this.#kind, path, b);
    const kept = ast.entries.filter((entry) => !gone.has(entry));
    const members = fresh.toSorted(order).map((name) => ({
      after: kept.findLast((entry) => order(entry.name, name) <= 0),
      member: newMember(name, after[name]!),
    }));
    if (flow) this.#flowParts(ast, gone, members, spot);
    else this.#blockParts(ast, gone, members, spot);
  }

  #list(ast: List, before: readonly Value[], after: readonly Value[], spot: ValuePlace): void {
    const { path } = spot;
    const flow = spot.flow || ast.flow;
    const rows = layoutOf(this.#kind, path) === "rows" && !spot.flow;
    if (
      after.length === 0 ||
      before.length === 0 ||
      (rows && ast.flow && before.length <= maximumRow && after.length > maximumRow)
    )
      return this.#replace(ast, after, spot);
    if (
      rows &&
      !ast.flow &&
      before.length > maximumRow &&
      after.length <= maximumRow &&
      !this.#lines.text.slice(ast.start, ast.end).includes("#")
    )
      return this.#replace(ast, after, spot);
    if (before.length !== after.length) this.#watch(ast, path);
    const { head, paired, tail } = pairing(before, after, this.#removed(path));
    for (let i = head; i < paired; i++)
      this.#value(ast.items[i]!.value, before[i], after[i]!, { path: [...path, i], part: ast.items[i], flow });
    const gone = new Set<Part>(ast.items.slice(paired, before.length - tail));
    const members = after
      .slice(paired, after.length - tail)
      .map((value) => ({ after: ast.items[paired - 1], member: newMember("", value) }));
    if (flow) this.#flowParts(ast, gone, members, spot);
    else this.#blockParts(ast, gone, members, spot);
  }

  /** A block that would be written on one line, were it not for comments or its length. */
  #watch(ast: Mapping | List, path: RecipePath): void {
    const layout = layoutOf(this.#kind, path);
    if (!ast.flow && (layout === "flow" || layout === "rows")) this.mayDisturb = true;
  }

  /** Takes parts out of brackets and puts others in, without touching the rest. */
  #flowParts(group: Mapping | List, gone: ReadonlySet<Part>, fresh: readonly Fresh[], { path }: ValuePlace): void {
    const parts = partsOf(group);
    const kept = parts.filter((part) => !gone.has(part));
    for (let i = 0; i < parts.length; i++) {
      if (!gone.has(parts[i]!)) continue;
      const first = i;
      while (i + 1 < parts.length && gone.has(parts[i + 1]!)) i++;
      const next = parts[i + 1];
      if (next) this.#change(startOf(parts[first]!), startOf(next), "");
      else this.#change(endOfFlow(parts[first - 1]!), endOfFlow(parts[i]!), "");
    }
    for (const anchor of new Set(fresh.map((f) => f.after))) {
      const texts = fresh.filter((f) => f.after === anchor).map(({ member }) => this.#flowMember(group, member, path));
      if (anchor) this.#change(endOfFlow(anchor), endOfFlow(anchor), texts.map((text) => `, ${text}`).join(""));
      else this.#change(startOf(kept[0]!), startOf(kept[0]!), texts.map((text) => `${text}, `).join(""));
    }
  }

  #flowMember(group: Mapping | List, member: Member, path: RecipePath): string {
    const here = [...path, group.kind === "mapping" ? member.name : 0];
    const value = this.#printer.flow(member.value, here);
    return group.kind === "mapping" ? `${this.#printer.key(member, here, true)}: ${value}` : value;
  }

  /** Takes whole lines out of a block and puts others in. */
  #blockParts(group: Mapping | List, gone: ReadonlySet<Part>, fresh: readonly Fresh[], spot: ValuePlace): void {
    const parts = partsOf(group);
    const first = parts[0]!;
    const indent = this.#lines.column(startOf(first));
    const opensInline =
      this.#lines.text
        .slice(this.#lines.start(startOf(first)), startOf(first))
        .trim()
        .replace("\uFEFF", "") !== "";
    const begin = this.#lines.blockStart(first, spot.part);
    const isOpen = fresh.some((f) => !f.after);
    if (opensInline && gone.has(first)) {
      // The first key of a list's item stands behind the dash: the next one that stays moves there.
      const next = parts.find((part) => !gone.has(part))!;
      const above = this.#commentsAbove(next, parts[parts.indexOf(next) - 1]!);
      const pad = this.#lines.eol + " ".repeat(indent);
      this.#change(startOf(first), startOf(next), above.map((comment) => comment + pad).join(""));
      this.#removeLines(parts.slice(parts.indexOf(next)), gone, startOf(next), true);
    } else this.#removeLines(parts, gone, begin, isOpen);
    for (const anchor of new Set(fresh.map((f) => f.after))) {
      const lines = fresh
        .filter((f) => f.after === anchor)
        .flatMap(({ member }) => this.#blockMember(group, member, spot.path, indent));
      if (!anchor && opensInline)
        this.#change(
          startOf(first),
          startOf(first),
          `${lines.join(this.#lines.eol).trimStart()}${this.#lines.eol}${" ".repeat(indent)}`,
        );
      else this.#insertLines(anchor ? this.#lines.after(anchor) : begin, lines);
    }
  }

  #blockMember(group: Mapping | List, member: Member, path: RecipePath, indent: number): string[] {
    return group.kind === "mapping"
      ? this.#printer.entry(member, [...path, member.name], indent)
      : this.#printer.item(member, [...path, 0], indent);
  }

  #insertLines(at: number, lines: readonly string[]): void {
    const { text, eol } = this.#lines;
    const body = lines.join(eol);
    if (at === text.length && text !== "" && !text.endsWith("\n")) this.#change(at, at, eol + body);
    else this.#change(at, at, body + eol);
  }

  /** Comments on the lines between a part and what belongs to the one before it. */
  #commentsAbove(part: Part, before: Part): string[] {
    const [from, to] = [this.#lines.after(before), startOf(part)];
    return this.#comments.filter(({ start }) => start >= from && start < to).map(({ text }) => text);
  }

  /**
   * Takes the lines of parts out with the comments directly above them; and the blank lines that would then open the
   * block, stand double, or end the file.
   */
  #removeLines(parts: readonly Part[], gone: ReadonlySet<Part>, begin: number, isOpen: boolean): void {
    const lines = this.#lines;
    const runs: { from: number; to: number }[] = [];
    for (const [i, part] of parts.entries()) {
      if (!gone.has(part)) continue;
      const from = lines.attached(lines.start(startOf(part)), i === 0 ? begin : lines.after(parts[i - 1]!));
      const last = runs.at(-1);
      if (last && this.#isBlank(last.to, from)) last.to = lines.after(part);
      else runs.push({ from, to: lines.after(part) });
    }
    for (const [k, run] of runs.entries()) {
      const opensBlock = k === 0 && !isOpen && this.#isBlank(begin, run.from);
      const followsBlank = run.from > 0 && lines.isBlank(lines.start(run.from - 1));
      if (opensBlock || followsBlank) while (lines.isBlank(run.to)) run.to = lines.next(run.to);
      this.#change(run.from, run.to, "");
    }
  }

  #isBlank(from: number, to: number): boolean {
    return this.#lines.text.slice(from, to).trim() === "";
  }

  /** Puts another value in a value's place; the comment on its line stays. */
  #replace(ast: AstNode, after: Value, { path, part, flow }: ValuePlace): void {
    const text = typeof after === "object" && after !== null ? undefined : scalarText(after, ast, flow);
    if (
      ast.kind !== "mapping" &&
      ast.kind !== "list" &&
      ast.end > ast.start &&
      text !== undefined &&
      !isBlockText(ast)
    ) {
      this.#change(ast.start, ast.end, text);
      return;
    }
    if (flow || !part) {
      const value = text ?? this.#printer.flow(commentedValue(after), path);
      if (ast.end > ast.start) this.#change(ast.start, ast.end, value);
      else this.#insertAfterKey(part, ast, value);
      return;
    }
    this.#rewrite(ast, after, path, part);
  }

  #insertAfterKey(part: Part | undefined, ast: AstNode, value: string): void {
    if (!part || !("key" in part)) return this.#change(ast.start, ast.end, value);
    const colon = colonAfter(this.#lines.text, part);
    if (colon < 0) this.#change(part.key.end, part.key.end, `: ${value}`);
    else this.#change(colon + 1, colon + 1, ` ${value}`);
  }

  /** The comment at the end of a piece of a line, with the blanks before it. */
  #commentIn(from: number, to: number): string {
    const found = this.#comments.find(({ start }) => start >= from && start < to);
    if (!found) return "";
    return (/[ \t]+$/.exec(this.#lines.text.slice(from, found.start))?.[0] ?? " ") + found.text;
  }

  /** Comments on lines between a key and the brackets of its value come to stand above the key. */
  #moveAbove(part: Part, from: number, to: number): void {
    const pad = " ".repeat(this.#lines.column(startOf(part)));
    const between = this.#comments.filter(({ start }) => start >= from && start < to);
    if (between.length === 0) return;
    this.#insertLines(
      this.#lines.start(startOf(part)),
      between.map(({ text }) => pad + text),
    );
  }

  /** A key (or item) of a block printed again with its value, from the end of the key to the end of its lines. */
  #rewrite(ast: AstNode, after: Value, path: RecipePath, part: Part): void {
    const { text, eol } = this.#lines;
    const indent = this.#lines.column(startOf(part));
    const isBelow =
      (ast.kind === "mapping" || ast.kind === "list" ? !ast.flow : isBlockText(ast)) ||
      text.slice(startOf(part), ast.start).includes("\n");
    const from = "key" in part ? part.key.end : part.start;
    const headEnd = this.#lines.end("key" in part ? Math.max(from, colonAfter(text, part)) : from);
    const behind = Math.max(ast.end, from);
    const trail = isBelow ? this.#commentIn(from, headEnd) : this.#commentIn(behind, this.#lines.end(behind));
    // Behind a dash a comment can stay only where the value is on its line.
    if (trail !== "" && !("key" in part) && typeof after === "object") this.mayDisturb = true;
    this.#moveAbove(part, headEnd, (ast.kind === "mapping" || ast.kind === "list") && ast.flow ? ast.start : headEnd);
    const name = "key" in part ? part.name : "";
    const member: Member = { ...newMember(name, after), trail };
    const lines =
      "key" in part
        ? this.#printer.entry({ ...member, key: text.slice(part.key.start, part.key.end) }, path, indent)
        : this.#printer.item(member, path, indent);
    const printed = lines.join(eol);
    const opening =
      "key" in part
        ? indent + this.#printer.key({ name, key: text.slice(part.key.start, part.key.end) }, path).length
        : indent;
    const last = this.#lines.after(part);
    const to = Math.max(this.#lines.end(Math.max(from, last > 0 && text[last - 1] === "\n" ? last - 1 : last)), from);
    this.#change(from, to, printed.slice(opening));
  }
}

interface Fresh {
  /** The part to stand behind; undefined for the first place. */
  readonly after: Part | undefined;
  readonly member: Member;
}

const endOfFlow = (part: Part): number => ("key" in part ? endOf(part) : part.value.end);

const isBlockText = (ast: AstNode): boolean => ast.kind === "scalar" && ast.style === "block";

/** The colon between a key and its value; −1 for a key alone in brackets. */
function colonAfter(text: string, { key }: Entry): number {
  const blanks = /^\s*:/.exec(text.slice(key.end, key.end + 200));
  return blanks ? key.end + blanks[0].length - 1 : -1;
}

/** A scalar as it stands on one line; undefined for a text that wants a block of its own. */
function scalarText(value: Value, ast: AstNode, flow: boolean): string | undefined {
  if (typeof value === "number") return formatNumber(value);
  if (typeof value !== "string") return JSON.stringify(value);
  if (!flow && literalBlock(value)) return undefined;
  const style = ast.kind === "scalar" ? (ast as Scalar).style : "plain";
  return formatText(value, style === "single" || style === "double" ? style : "plain", flow);
}
