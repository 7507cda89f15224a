import { compareIds, hasFreeKeys, isFrameId, layoutOf, maximumRow, rankOf } from "../schema/layout.ts";
import { hasNotes, type Member, type Noted, type NotedGroup, type NotedScalar } from "../yaml/notes.ts";
import type { RecipeKind, RecipePath } from "../path.ts";
import { formatNumber, formatText, literalBlock } from "../yaml/scalar.ts";
import type { Value } from "../yaml/values.ts";

/** Prints values in the canonical layout. Lines end in LF. */
export class Printer {
  readonly #kind: RecipeKind;

  constructor(kind: RecipeKind) {
    this.#kind = kind;
  }

  /** Whether a mapping or list is printed in brackets on one line. */
  isFlow(group: NotedGroup, path: RecipePath): boolean {
    if (group.members.length === 0) return !hasNotes(group);
    const layout = layoutOf(this.#kind, path);
    const fits =
      layout === "flow" ||
      (layout === "rows" && group.members.length <= maximumRow) ||
      (layout === "as-written" && group.flow);
    return fits && !hasNotes(group);
  }

  /** The lines of a block's members and tail, at `indent` spaces. */
  block(group: NotedGroup, path: RecipePath, indent: number): string[] {
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
    if (value.kind === "scalar") {
      const [first = "", ...rest] = scalarLines(value, indent + 2);
      return [head + (first && ` ${first}`) + trail, ...rest];
    }
    if (this.isFlow(value, path)) return [`${head} ${this.flow(value, path)}${trail}`];
    return [head + trail, ...this.block(value, path, indent + 2)];
  }

  /** The lines of one item of a block list, without the comments before it. */
  item(member: Member, path: RecipePath, indent: number): string[] {
    const pad = " ".repeat(indent);
    const { value, trail } = member;
    if (value.kind === "scalar") {
      const [first = "", ...rest] = scalarLines(value, indent + 2);
      return [`${pad}- ${first}${trail}`, ...rest];
    }
    if (this.isFlow(value, path)) return [`${pad}- ${this.flow(value, path)}${trail}`];
    const inner = this.block(value, path, indent + 2);
    const opening = inner.findIndex((line) => line !== "" && !line.trimStart().startsWith("#"));
    // Comments before the first key of an item stand before its dash.
    const before = [
      ...(trail ? [trail.trim()] : []),
      ...inner.slice(0, Math.max(opening, 0)).map((line) => line.trim()),
    ].map((line) => pad + line);
    if (opening < 0) return [...before, `${pad}- ${value.kind === "mapping" ? "{}" : "[]"}`, ...inner];
    return [...before, `${pad}- ${inner[opening]!.slice(indent + 2)}`, ...inner.slice(opening + 1)];
  }

  /** A value on one line, in brackets where it is a mapping or a list. */
  flow(value: Noted, path: RecipePath): string {
    if (value.kind === "scalar") return flowScalar(value);
    const members = this.#ordered(value, path);
    if (value.kind === "list") return `[${members.map((m, i) => this.flow(m.value, [...path, i])).join(", ")}]`;
    if (members.length === 0) return "{}";
    return `{ ${members.map((m) => `${this.key(m, [...path, m.name], true)}: ${this.flow(m.value, [...path, m.name])}`).join(", ")} }`;
  }

  /** The key as written, but frame ids in double quotes. */
  key({ name, key }: Pick<Member, "name" | "key">, path: RecipePath, flow = false): string {
    const isNumber = /^[0-9]+$/.test(key);
    if (isFrameId(this.#kind, path) && !isNumber) return JSON.stringify(name);
    return key === "" || (flow && /[,[\]{}\n]/.test(key) && !/^["']/.test(key)) ? formatText(name, "plain", true) : key;
  }

  /** Canonical order of the schema's keys; keys that it does not know follow as they stand. */
  #ordered(group: NotedGroup, path: RecipePath): readonly Member[] {
    if (group.kind === "list" || hasFreeKeys(this.#kind, path)) return group.members;
    const rank = (member: Member) => rankOf(this.#kind, path, member.name);
    return group.members.toSorted((a, b) => rank(a) - rank(b));
  }
}

/** A value as if it had been read from a recipe, without comments; new groups are written in brackets where allowed. */
export function notedValue(value: Value): Noted {
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
  value: notedValue(value),
});

/** Runs of blank lines become one; none at the start of a block or the end of one. */
function tidy(lines: readonly string[], atStart: boolean, atEnd = false): string[] {
  const out: string[] = [];
  for (const line of lines) if (line !== "" || (out.length === 0 ? !atStart : out.at(-1) !== "")) out.push(line);
  while (atEnd && out.at(-1) === "") out.pop();
  return out;
}

function flowScalar({ scalar, source }: NotedScalar): string {
  const { value, style } = scalar;
  if (typeof value !== "string") return source === "" ? "null" : source;
  const isOneLine = !source.includes("\n") && source !== "" && style !== "block";
  if (isOneLine && (style === "single" || style === "double" || !/[,[\]{}]|:(?:\s|$)|^:/.test(source))) return source;
  return formatText(value, "plain", true);
}

/** A scalar's lines in a block: the first without indentation, the others at `indent` spaces. */
function scalarLines({ scalar, source }: NotedScalar, indent: number): string[] {
  const pad = " ".repeat(indent);
  const indented = (lines: readonly string[]): string[] =>
    lines.map((line, i) => (i === 0 || line === "" ? line : pad + line));
  if (source === "" && typeof scalar.value === "string")
    return indented(literalBlock(scalar.value) ?? [formatText(scalar.value)]);
  if (!source.includes("\n")) return [source];
  if (scalar.style !== "block")
    return indented(source.split("\n").map((line, i) => (i === 0 ? line.trimEnd() : line.trim())));
  return indented(blockLines(source, String(scalar.value)));
}

/** A block text with its own indentation taken off; written anew where that would not keep its value. */
function blockLines(source: string, value: string): readonly string[] {
  const [header = "", ...body] = source.split("\n");
  const isPlainHeader = /^[|>]-?[ \t]*$/.test(header);
  const first = body.find((line) => line.trim() !== "") ?? "";
  const indent = first.length - first.trimStart().length;
  if (!isPlainHeader || body.some((line) => line.trim() === "" && line.length > indent))
    return literalBlock(value) ?? [formatText(value)];
  return [header.trimEnd(), ...body.map((line) => (line.trim() === "" ? "" : line.slice(indent)))];
}
