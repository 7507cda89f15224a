/** The edits that take a change back to one of its two sides. */
import { isFields, type ValueEdit } from "../edit/model.ts";
import type { Value } from "../yaml/values.ts";
import type { Change } from "./change.ts";
import { changeItem, fieldOf, identityOf, itemsOf, listOf } from "./identity.ts";

/** The edits of one file. */
export interface FileEdits {
  readonly file: string;
  readonly edits: (now: Value | undefined) => ValueEdit[];
}

/**
 * What to edit so that a value is what it was before, or what it is in the later state, file by file. `edits` takes what
 * the file says now, which may be more than the change: of lists, the one item is changed and the others stay.
 */
export function editsToSide(change: Change, side: "before" | "after"): FileEdits[] {
  return change.sources.map((source) => ({
    file: source.file,
    edits: (now) => [{ path: source.path, value: wanted(change, side, source, valueIn(now, source.path)) }],
  }));
}

function wanted(
  { item, field, path, before, after }: Change,
  side: "before" | "after",
  source: Change["sources"][number],
  now: Value | undefined,
): Value | undefined {
  const kind = item === undefined ? undefined : itemsOf(path);
  // An inherited list that is first stated now, or not any more, goes as a whole: its other items are not this level's.
  if (!kind || (side === "before" ? source.before : source.after) === undefined) return source[side];
  const [from, to] = side === "before" ? [after?.value, before?.value] : [before?.value, after?.value];
  if (field === undefined) return changeItem(kind, now, from, to);
  const current = listOf(now).find((one) => identityOf(kind, one) === item);
  if (!isFields(current)) return changeItem(kind, now, from, to);
  const { [field]: _, ...others } = current;
  const value = fieldOf(to, field);
  return changeItem(kind, now, current, value === undefined ? others : { ...others, [field]: value });
}

function valueIn(value: Value | undefined, path: readonly (string | number)[]): Value | undefined {
  return path.reduce<Value | undefined>((at, part) => fieldOf(at, String(part)), value);
}
