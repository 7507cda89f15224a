/** Renames a key in the text. */
import { isFrameId } from "../schema/layout.ts";
import { pathText, type RecipeKind } from "../path.ts";
import { nodeAt } from "../yaml/positions.ts";
import { formatText } from "../yaml/scalar.ts";
import type { AstNode } from "../yaml/ast.ts";
import type { TextChange } from "./changes.ts";
import type { Value } from "../yaml/values.ts";
import { checkKey, isFields, RecipeEditError, type RenameEdit } from "./model.ts";

/** A value with one key under its other name; unchanged where the key is missing. */
export function renamedValue(value: Value, { path, rename }: RenameEdit): Value {
  const [part, ...rest] = path;
  if (part === undefined) return value;
  if (Array.isArray(value)) {
    const items = value as readonly Value[];
    return items.map((item, i) => (i === part ? renamedValue(item, { path: rest, rename }) : item));
  }
  if (!isFields(value) || !Object.hasOwn(value, part)) return value;
  const entries = Object.entries(value).map(([name, inner]): [string, Value] =>
    name !== String(part)
      ? [name, inner]
      : rest.length > 0
        ? [name, renamedValue(inner, { path: rest, rename })]
        : [rename, inner],
  );
  return Object.fromEntries(entries);
}

/** The change of one key's text. */
export function renameChange(
  kind: RecipeKind,
  text: string,
  ast: AstNode | undefined,
  { path, rename }: RenameEdit,
): TextChange {
  checkKey(rename);
  const entry = ast && nodeAt(ast, path)?.entry;
  if (!entry) throw new RecipeEditError(`${pathText(path)} is not in the recipe, so it cannot be renamed.`);
  const sibling = nodeAt(ast, [...path.slice(0, -1), rename])?.entry;
  if (sibling && sibling !== entry)
    throw new RecipeEditError(`${pathText(path)} cannot be renamed: ${JSON.stringify(rename)} is there already.`);
  const { start, end } = entry.key;
  const first = text[start];
  const style = isFrameId(kind, path) || first === '"' ? "double" : first === "'" ? "single" : "plain";
  return { start, end, text: formatText(rename, style, true) };
}
