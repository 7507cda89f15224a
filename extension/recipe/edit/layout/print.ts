/** Prints values in the canonical layout. */
import { compareIds, hasFreeKeys, isFrameId, layoutOf, maximumRow, rankOf } from "../../schema/layout.ts";
import {
  hasComments,
  type Member,
  type Commented,
  type CommentedGroup,
  type CommentedScalar,
} from "../../yaml/comments.ts";
import type { RecipeKind, RecipePath } from "../../path.ts";
import { formatNumber, formatText, literalBlock } from "../../yaml/scalar.ts";
import { readSyntax } from "../../yaml/syntax.ts";
import type { Value } from "../../yaml/values.ts";

/** A mapping in brackets that would reach past this column is printed as a block, so that line-wise diffs stay readable. */
export const MAX_COLUMN = 100;

/** Prints values in the canonical layout. Lines end in LF. Groups with comments are settled before. */
export class Printer {
  readonly #kind: RecipeKind;

  constructor(kind: RecipeKind) {
    this.#kind = kind;
  }

  /**
   * A group with its members in canonical order and every comment where the printed text has it: so that the layout,
   * which depends on comments, is the same when that text is read again. Its members are printed at `indent` spaces.
   */
  settle(group: CommentedGroup, path: RecipePath, indent: number): CommentedGroup {
    const members = this.#ordered(group, path).map((member, i) => {
      const here = [...path, group.kind === "mapping" ? member.name : i];
      if (member.value.kind === "scalar" || member.value.members.length === 0) return member;
      const settled = { ...member, value: this.settle(member.value, here, indent + 2) };
      return group.kind === "list" ? this.#beforeDash(settled, here, indent) : settled;
    });
    return { ...group, members };
  }

  /** Comments before the first key of an item stand before its dash, and so does the one behind the dash of a block. */
  #beforeDash(item: Member & { readonly value: CommentedGroup }, path: RecipePath, indent: number): Member {
    const [first, ...others] = item.value.members;
    const inner = first!.lead.filter((line) => line !== "");
    const value = { ...item.value, members: [{ ...first!, lead: [] }, ...others] };
    const isOneLine = this.#onOneLine(`${" ".repeat(indent)}-`, value, path) !== undefined;
    if (isOneLine) return { ...item, lead: [...item.lead, ...inner], value };
    const own = item.trail === "" ? [] : [item.trail.replace(/^ +/, "")];
    return { ...item, lead: [...item.lead, ...own, ...inner], trail: "", value };
  }

  /** Whether a mapping or list is printed in brackets on one line. */
  #isFlow(group: CommentedGroup, path: RecipePath): boolean {
    if (group.members.length === 0) return true;
    const layout = layoutOf(this.#kind, path);
    const fits =
      layout === "flow" ||
      (layout === "rows" && group.members.length <= maximumRow) ||
      (layout === "as-written" && group.flow);
    return fits && !hasComments(group);
  }

  /** The lines of a block's members and tail, at `indent` spaces. */
  block(group: CommentedGroup, path: RecipePath, indent: number): string[] {
    const pad = " ".repeat(indent);
    const lines: string[] = [];
    for (const [i, member] of this.#ordered(group, path).entries()) {
      lines.push(...tidy(member.lead, i === 0).map((line) => (line === "" ? "" : pad + line)));
      lines.push(
        ...(group.kind === "mapping"
          ? this.entry(member, [...path, member.name], indent)
          : this.item(member, [...path, i], indent)),
      );
    }
    for (const line of tidy(group.tail, group.members.length === 0, true)) lines.push(line === "" ? "" : pad + line);
    return lines;
  }

  /** The lines of one key with its value, without the comments before it. */
  entry(member: Member, path: RecipePath, indent: number): string[] {
    const head = `${" ".repeat(indent)}${this.key(member, path)}:`;
    const { value, trail } = member;
    if (value.kind === "scalar") return scalarWith(head, value, trail, indent + 2);
    const line = this.#onOneLine(head, value, path);
    return line === undefined ? [head + trail, ...this.block(value, path, indent + 2)] : [line + trail];
  }

  /** The lines of one item of a block list, without the comments before it. */
  item(member: Member, path: RecipePath, indent: number): string[] {
    const pad = " ".repeat(indent);
    const { value, trail } = member;
    if (value.kind === "scalar") return scalarWith(`${pad}-`, value, trail, indent + 2);
    const line = this.#onOneLine(`${pad}-`, value, path);
    if (line !== undefined) return [line + trail];
    const [opening = "", ...rest] = this.block(value, path, indent + 2);
    if (trail !== "") return [`${pad}-${trail}`, opening, ...rest];
    return [`${pad}- ${opening.slice(indent + 2)}`, ...rest];
  }

  /** A group in brackets behind its key or dash; undefined where it is printed as a block. */
  #onOneLine(head: string, group: CommentedGroup, path: RecipePath): string | undefined {
    if (!this.#isFlow(group, path)) return undefined;
    const line = `${head} ${this.flow(group, path)}`;
    const isTooLong = group.kind === "mapping" && group.members.length > 0 && line.length > MAX_COLUMN;
    return isTooLong ? undefined : line;
  }

  /** A value on one line, in brackets where it is a mapping or a list. */
  flow(value: Commented, path: RecipePath): string {
    if (value.kind === "scalar") return flowScalar(value);
    const members = this.#ordered(value, path);
    if (value.kind === "list") return `[${members.map((m, i) => this.flow(m.value, [...path, i])).join(", ")}]`;
    if (members.length === 0) return "{}";
    return `{ ${members.map((m) => `${this.key(m, [...path, m.name], true)}: ${this.flow(m.value, [...path, m.name])}`).join(", ")} }`;
  }

  /** The key as written, but frame ids in double quotes. */
  key({ name, key }: Pick<Member, "name" | "key">, path: RecipePath, flow = false): string {
    const isNumber = /^[0-9]+$/.test(key);
    if (isFrameId(this.#kind, path) && !isNumber) return formatText(name, "double");
    const needsOther = key === "" || key.includes("\n") || (flow && /[,[\]{}]/.test(key) && !/^["']/.test(key));
    return needsOther ? formatText(name, "plain", true) : key;
  }

  /** Canonical order of the schema's keys; keys that it does not know follow as they stand. */
  #ordered(group: CommentedGroup, path: RecipePath): readonly Member[] {
    if (group.kind === "list" || hasFreeKeys(this.#kind, path)) return group.members;
    const rank = (member: Member) => rankOf(this.#kind, path, member.name);
    return group.members.toSorted((a, b) => rank(a) - rank(b));
  }
}

/** A value as if it had been read from a recipe, without comments; new groups are written in brackets where allowed. */
export function commentedValue(value: Value): Commented {
  if (typeof value !== "object" || value === null) {
    const style = "plain";
    const source =
      typeof value === "number" ? formatNumber(value) : typeof value === "string" ? formatText(value) : String(value);
    return {
      kind: "scalar",
      scalar: { value, style },
      source: typeof value === "string" && literalBlock(value) ? "" : source,
    };
  }
  const members = Array.isArray(value)
    ? (value as readonly Value[]).map((item) => newMember("", item))
    : Object.entries(value as Readonly<Record<string, Value>>)
        // JavaScript puts "10" before "01": names that are whole numbers come first.
        .toSorted(([a], [b]) => compareIds(a, b))
        .map(([name, inner]) => newMember(name, inner));
  return { kind: Array.isArray(value) ? "list" : "mapping", flow: true, members, tail: [] };
}

export const newMember = (name: string, value: Value): Member => ({
  name,
  key: name === "" ? "" : formatText(name),
  lead: [],
  trail: "",
  value: commentedValue(value),
});

/** Runs of blank lines become one; none at the start of a block or the end of one. */
function tidy(lines: readonly string[], atStart: boolean, atEnd = false): string[] {
  const out: string[] = [];
  for (const line of lines) if (line !== "" || (out.length === 0 ? !atStart : out.at(-1) !== "")) out.push(line);
  while (atEnd && out.at(-1) === "") out.pop();
  return out;
}

function flowScalar({ scalar, source }: CommentedScalar): string {
  const { value, style } = scalar;
  if (typeof value !== "string") return source === "" ? "null" : source;
  const isOneLine = !source.includes("\n") && source !== "" && style !== "block";
  if (isOneLine && (style === "single" || style === "double" || !/[,[\]{}]|:(?:\s|$)|^:/.test(source))) return source;
  return formatText(value, "plain", true);
}

/** A scalar behind its key or dash, and its comment: behind a block text's mark, else behind the last line. */
function scalarWith(head: string, scalar: CommentedScalar, trail: string, indent: number): string[] {
  const [first = "", ...rest] = scalarLines(scalar, indent);
  const lines = [head + (first && ` ${first}`), ...rest];
  const at = /^[|>]/.test(first) ? 0 : lines.length - 1;
  return lines.with(at, lines[at]! + trail);
}

/** A scalar's lines in a block: the first without indentation, the others at `indent` spaces. */
function scalarLines(commented: CommentedScalar, indent: number): string[] {
  const { scalar, source } = commented;
  const pad = " ".repeat(indent);
  const indented = (lines: readonly string[]): string[] =>
    lines.map((line, i) => (i === 0 || line === "" ? line : pad + line));
  if (typeof scalar.value === "string" && (source === "" || source.includes("\n") || scalar.style === "block"))
    return indented(textLines(commented, scalar.value));
  return [source.replaceAll(/\s*\n\s*/g, " ")];
}

/** A text's own lines with other indentation where they still say the same; else written again. */
function textLines({ scalar: { style }, source }: CommentedScalar, value: string): readonly string[] {
  if (source !== "") {
    const own = style === "block" ? blockLines(source) : source.split("\n").map((line) => line.replace(/^[ \t]+/, ""));
    const tidied = style === "block" ? own : own.map((line, i) => (i < own.length - 1 ? trimEnd(line) : line));
    // A block that keeps its end would take blank lines that come to stand below it.
    const keepsEnd = style === "block" && own[0]!.includes("+");
    for (const lines of keepsEnd ? [] : [tidied, own]) if (reads(lines, value)) return lines;
  }
  const literal = style === "block" || source === "" ? literalBlock(value) : undefined;
  if (literal && reads(literal, value)) return literal;
  return [formatText(value, style === "block" ? "plain" : style)];
}

/** A block text with its own indentation taken off, without the blanks behind its mark. */
function blockLines(source: string): readonly string[] {
  const [header = "", ...body] = source.split("\n");
  const first = body.find((line) => !/^[ \t]*$/.test(line)) ?? "";
  const indent = /^ */.exec(first)![0].length;
  return [trimEnd(header), ...body.map((line) => (/^ *$/.test(line) ? "" : line.slice(indent)))];
}

/** Whether the lines, set in below a key, are read as the text and nothing else. */
function reads(lines: readonly string[], value: string): boolean {
  const { ast, syntaxErrors } = readSyntax(
    `k: ${lines.map((line, i) => (i > 0 && line !== "" ? `  ${line}` : line)).join("\n")}\n`,
  );
  const only = ast?.kind === "mapping" && ast.entries.length === 1 ? ast.entries[0]!.value : undefined;
  return syntaxErrors.length === 0 && only?.kind === "scalar" && only.props === undefined && only.value === value;
}

const trimEnd = (line: string): string => line.replace(/[ \t]+$/, "");
