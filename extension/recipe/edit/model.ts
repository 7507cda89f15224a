/** The value that edits lead to, worked out before the text is changed. */
import { hasFreeKeys } from "../schema/layout.ts";
import { pathText, type RecipeKind, type RecipePath, type ValueEdit } from "../path.ts";
import { formatNumber } from "../yaml/scalar.ts";
import type { Value } from "../yaml/values.ts";

/** Why an edit cannot be made, in a sentence for people. */
export class RecipeEditError extends Error {
  override readonly name = "RecipeEditError";
  readonly code = "not-edited";
}

/** Gives the key at a path another name; its value and place stay. */
export interface RenameEdit {
  readonly path: RecipePath;
  readonly rename: string;
}

/** Puts a key of a mapping whose order is the text's (a frame), or an item of a list, at another place among its siblings. */
export interface MoveEdit {
  readonly path: RecipePath;
  /** The sibling that it comes to stand before, by its name or index as the text has it; null: behind the last. */
  readonly before: string | number | null;
}

export type { ValueEdit };

/** An edit that says what a place holds, or what it is called. */
export type ContentEdit = ValueEdit | RenameEdit;

export type Edit = ContentEdit | MoveEdit;

export const isMove = (edit: Edit): edit is MoveEdit => "before" in edit;

type Fields = Readonly<Record<string, Value>>;

/** The value with the edits made. Parts that no edit touches stay the same objects. */
export function applyEdits(kind: RecipeKind, value: Value, edits: readonly ContentEdit[]): Value {
  let out = value;
  for (const edit of edits) {
    if ("rename" in edit) continue;
    const wanted = edit.value === undefined ? undefined : writable(edit.value, edit.path);
    out = put(kind, out, edit.path, 0, wanted) ?? {};
  }
  return out;
}

function put(
  kind: RecipeKind,
  at: Value | undefined,
  path: RecipePath,
  depth: number,
  wanted: Value | undefined,
): Value | undefined {
  if (depth === path.length) return wanted;
  const part = path[depth]!;
  if (typeof part === "number") return putItem(kind, at, path, depth, part, wanted);
  checkKey(part);
  const fields: Fields = isFields(at) ? at : {};
  if (wanted === undefined && !Object.hasOwn(fields, part)) return at;
  const inner = put(kind, Object.hasOwn(fields, part) ? fields[part] : undefined, path, depth + 1, wanted);
  if (inner !== undefined) return { ...fields, [part]: inner };
  const { [part]: _, ...others } = fields;
  // A mapping left empty goes too, unless it is a frame (or the recipe): those are there by themselves.
  const isStated = depth === 0 || (depth >= 1 && hasFreeKeys(kind, path.slice(0, depth - 1)));
  return Object.keys(others).length > 0 || isStated ? others : undefined;
}

function putItem(
  kind: RecipeKind,
  at: Value | undefined,
  path: RecipePath,
  depth: number,
  index: number,
  wanted: Value | undefined,
): Value | undefined {
  const items: readonly Value[] = Array.isArray(at) ? (at as readonly Value[]) : [];
  if (!Number.isInteger(index) || index < 0 || index > items.length)
    throw new RecipeEditError(
      `${pathText(path.slice(0, depth))} has ${items.length} items, so there is no item ${index} to set.`,
    );
  if (wanted === undefined && index === items.length) return at;
  const inner = put(kind, items[index], path, depth + 1, wanted);
  const list = items.toSpliced(index, 1, ...(inner === undefined ? [] : [inner]));
  return list.length > 0 ? list : undefined;
}

/** Plain data as it will read back; throws for what a recipe cannot hold. */
function writable(value: unknown, path: RecipePath): Value {
  if (typeof value === "number") {
    if (!Number.isFinite(value))
      throw new RecipeEditError(`${pathText(path)} cannot be set to ${value}: only finite numbers can be written.`);
    return Number(formatNumber(value));
  }
  if (value === null || typeof value === "string" || typeof value === "boolean") return value;
  if (Array.isArray(value)) return value.map((item, i) => writable(item, [...path, i]));
  if (typeof value !== "object") throw new RecipeEditError(`${pathText(path)} cannot be set to a ${typeof value}.`);
  const out: Record<string, Value> = {};
  for (const [key, inner] of Object.entries(value)) {
    checkKey(key);
    if (inner !== undefined) out[key] = writable(inner, [...path, key]);
  }
  return out;
}

export function checkKey(key: string): void {
  if (/^(?:__proto__|constructor|prototype)$/.test(key))
    throw new RecipeEditError(`${key} cannot be a key of a recipe.`);
  if (key.length > 1000) throw new RecipeEditError("A key of a recipe has at most 1000 characters.");
}

export const isFields = (value: Value | undefined): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Whether two values say the same. */
export function isSame(a: Value | undefined, b: Value | undefined): boolean {
  if (a === b) return true;
  if (Array.isArray(a) && Array.isArray(b))
    return (
      a.length === b.length && (a as readonly Value[]).every((item, i) => isSame(item, (b as readonly Value[])[i]))
    );
  if (!isFields(a) || !isFields(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && isSame(a[key], b[key]));
}
