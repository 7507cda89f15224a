/** Moves a frame, or an item of a list, to another place among its siblings: its text goes there as it stands. */
import { describeKey } from "../schema/describe.ts";
import { hasFreeKeys } from "../schema/layout.ts";
import { pathText, type RecipeKind, type RecipePath } from "../path.ts";
import { limitProblem } from "../yaml/limits.ts";
import { readComments, readSyntax } from "../yaml/syntax.ts";
import { type AstNode, child, type List, type Mapping } from "../yaml/ast.ts";
import { readValues, type Value } from "../yaml/values.ts";
import { formatRecipe, tryFormat } from "./layout/format.ts";
import { endOf, type Part, partsOf, startOf, TextLines } from "./lines.ts";
import { isFields, isSame, type MoveEdit, RecipeEditError } from "./model.ts";
import { commentsChanged } from "./verify.ts";

/** A mapping or list, and the key or item whose value it is. */
interface Group {
  readonly ast: Mapping | List;
  readonly holder: Part | undefined;
}

/**
 * The text with a part moved. In a block its lines move with the comments directly above them; blank lines and comments
 * that stand by themselves stay between the parts. In brackets the parts change places and all between them stays.
 * A text in canonical format stays in it.
 * Throws RecipeEditError where the order has no meaning, where the place is not found, and where the moved text would
 * be read otherwise.
 */
export function movedText(text: string, kind: RecipeKind, move: MoveEdit, ast: AstNode | undefined): string {
  const { path } = move;
  const name = pathText(path);
  const group = ast && groupOf(ast, path);
  if (!group) throw new RecipeEditError(`${name} is not in the recipe, so it cannot be moved.`);
  const holder = path.slice(0, -1);
  if (group.ast.kind === "mapping" && !hasFreeKeys(kind, holder) && describeKey(kind, holder))
    throw new RecipeEditError(
      `${name} was not moved: the order of the keys of ${pathText(holder) || "a recipe"} is fixed.`,
    );
  const from = indexOf(group.ast, path.at(-1)!);
  const to = move.before === null ? partsOf(group.ast).length : indexOf(group.ast, move.before);
  if (from === undefined || to === undefined)
    throw new RecipeEditError(
      `${name} was not moved: ${pathText(from === undefined ? path : [...holder, move.before!])} is not in the recipe, or is there twice.`,
    );
  if (to === from || to === from + 1) return text;
  const order = moved(
    partsOf(group.ast).map((_, i) => i),
    from,
    to,
  );
  const after = group.ast.flow ? inBrackets(text, group.ast, order) : inBlock(text, group, from, to);
  const shown = after === undefined ? undefined : canonical(text, after, kind);
  if (shown === undefined || !isKept(text, shown, holder, order))
    throw new RecipeEditError(
      `${name} was not moved: comments, anchors or texts around it would then be read otherwise. Lay the recipe out with Format first, or move it by hand.`,
    );
  return shown;
}

/** What the mapping or list that holds a path is; undefined where the way leads through an alias, or nowhere. */
function groupOf(ast: AstNode, path: RecipePath): Group | undefined {
  let at: AstNode = ast;
  let holder: Part | undefined;
  for (const part of path.slice(0, -1)) {
    const step = at.kind === "alias" ? undefined : child(at, part);
    holder = step?.entry ?? step?.item;
    if (!step || !holder) return undefined;
    at = step.value;
  }
  return path.length > 0 && (at.kind === "mapping" || at.kind === "list") ? { ast: at, holder } : undefined;
}

/** Place of a part in its group; undefined for one that is missing, or that is stated twice. */
function indexOf(group: Mapping | List, part: string | number): number | undefined {
  if (group.kind === "list") return typeof part === "number" && group.items[part] ? part : undefined;
  const found = group.entries.flatMap((entry, i) => (entry.name === String(part) ? [i] : []));
  return found.length === 1 ? found[0] : undefined;
}

/** A list with the item at `from` before the one that was at `to`. */
function moved<T>(all: readonly T[], from: number, to: number): T[] {
  const others = all.toSpliced(from, 1);
  return others.toSpliced(to > from ? to - 1 : to, 0, all[from]!);
}

/** Parts in brackets in another order: the n-th place takes the text of the part that comes to stand there. */
function inBrackets(text: string, group: Mapping | List, order: readonly number[]): string | undefined {
  const places = partsOf(group).map((part) => ({
    start: "key" in part ? (part.key.props ?? part.key.start) : (part.value.props ?? part.start),
    end: endOf(part),
  }));
  const comments = readComments(text).filter(({ start }) => start >= group.start && start < group.end);
  const isWithin = (at: number): boolean => places.some(({ start, end }) => at >= start && at < end);
  // A comment between parts belongs to one of them, and would stay behind.
  if (comments.some(({ start }) => !isWithin(start))) return undefined;
  let after = "";
  let at = 0;
  for (const [i, { start, end }] of places.entries()) {
    const part = places[order[i]!]!;
    after += text.slice(at, start) + text.slice(part.start, part.end);
    at = end;
  }
  return after + text.slice(at);
}

/** Whole lines moved within a block; undefined where a part does not stand on lines of its own. */
function inBlock(text: string, { ast, holder }: Group, from: number, to: number): string | undefined {
  const lines = new TextLines(text);
  const parts = partsOf(ast);
  const isOnOwnLines = (part: Part): boolean => {
    const before = text.slice(lines.start(startOf(part)), startOf(part)).replace("\uFEFF", "");
    return /^ *$/.test(before) && !("key" in part && (part.explicit || part.key.kind !== "scalar"));
  };
  if (!parts.every(isOnOwnLines)) return undefined;
  const begin = lines.blockStart(parts[0]!, holder);
  const pieces: { readonly gap: string; readonly body: string }[] = [];
  let at = begin;
  for (const part of parts) {
    const start = lines.attached(lines.start(startOf(part)), at);
    const end = lines.after(part);
    pieces.push({ gap: text.slice(at, start), body: text.slice(start, end) });
    at = end;
  }
  const isOpenEnd = at === text.length && !text.endsWith("\n");
  const last = pieces.at(-1)!;
  if (isOpenEnd) pieces[pieces.length - 1] = { ...last, body: last.body + lines.eol };
  const result = text.slice(0, begin) + reordered(pieces, from, to) + text.slice(at);
  return isOpenEnd ? result.replace(/\r?\n$/, "") : result;
}

/** The lines of a block with one piece before another. What stands between pieces stays there, as far as it can. */
function reordered(pieces: readonly { gap: string; body: string }[], from: number, to: number): string {
  const gaps = pieces.map(({ gap }) => gap);
  // Where the piece was, two gaps become one; the other goes along.
  const isLast = from === pieces.length - 1;
  const { stays, goes } = isLast
    ? { stays: "", goes: gaps[from]! }
    : from === 0
      ? halves(gaps[0]!, gaps[1]!, "first")
      : halves(gaps[from]!, gaps[from + 1]!, "longer");
  if (!isLast) gaps[from + 1] = stays;
  const out: string[] = [];
  for (const [i, { body }] of pieces.entries()) {
    if (i === from) continue;
    if (i !== to) out.push(gaps[i]! + body);
    else if (hasComment(goes)) out.push(goes + pieces[from]!.body, gaps[i]! + body);
    else out.push(gaps[i]! + pieces[from]!.body, goes + body);
  }
  if (to === pieces.length) out.push(goes + pieces[from]!.body);
  return out.join("");
}

/** Of the gaps above and below a piece that goes away, the one that stays: a heading of what follows, or a wider one. */
function halves(above: string, below: string, otherwise: "first" | "longer"): { stays: string; goes: string } {
  const keepsAbove = hasComment(below)
    ? false
    : hasComment(above) || otherwise === "first" || above.length >= below.length;
  return keepsAbove ? { stays: above, goes: below } : { stays: below, goes: above };
}

const hasComment = (gap: string): boolean => gap.includes("#");

/** The moved text, laid out again where the text was canonical and would not be any more. */
function canonical(before: string, after: string, kind: RecipeKind): string {
  const { text, left } = tryFormat(before, { kind });
  // A text that Format leaves alone is not canonical because of that.
  return left === undefined && text === before ? formatRecipe(after, { kind }) : after;
}

/** Whether a text says the same as before, with the parts of one group in another order and every comment. */
function isKept(before: string, after: string, path: RecipePath, order: readonly number[]): boolean {
  if (limitProblem(after)) return false;
  const [old, now] = [readSyntax(before), readSyntax(after)];
  if (now.syntaxErrors.length > 0 || !old.ast || !now.ast) return false;
  const [missing, added] = commentsChanged(readComments(before), readComments(after));
  if (missing.length > 0 || added.length > 0) return false;
  const [was, is] = [readValues(old.ast), readValues(now.ast)];
  const codes = (all: readonly { readonly code: string }[]): string => all.map(({ code }) => code).toSorted().join(); // oxfmt-ignore
  if (codes(was.problems) !== codes(is.problems)) return false;
  if (!isSame(is.value, reorderedValue(was.value, path, order))) return false;
  const [a, b] = [groupOf(old.ast, [...path, 0])?.ast, groupOf(now.ast, [...path, 0])?.ast];
  if (a?.kind !== b?.kind || a?.kind !== "mapping" || b?.kind !== "mapping")
    return a !== undefined && a.kind === b?.kind;
  return order.every((i, at) => b.entries[at]?.name === a.entries[i]!.name);
}

function reorderedValue(value: Value | undefined, path: RecipePath, order: readonly number[]): Value | undefined {
  if (value === undefined) return undefined;
  const [part, ...rest] = path;
  if (Array.isArray(value)) {
    const items = value as readonly Value[];
    return part === undefined
      ? order.map((i) => items[i]!)
      : items.map((item, i) => (i === part ? reorderedValue(item, rest, order)! : item));
  }
  if (part === undefined || !isFields(value) || !Object.hasOwn(value, part)) return value;
  return { ...value, [part]: reorderedValue(value[part], rest, order)! };
}
