/** Merges what three texts say, by identity: the same frame, the same key, the same output, the same speck. */
import { describeKey } from "../schema/describe.ts";
import { isFields, isSame, type ValueEdit } from "../edit/model.ts";
import { changeItem, identityOf, type ItemKind, itemsOf, listOf } from "../diff/identity.ts";
import { statedEdits } from "../diff/stated.ts";
import { hasFreeKeys } from "../schema/layout.ts";
import type { RecipeKind, RecipePath } from "../path.ts";
import type { Value } from "../yaml/values.ts";
import type { ThreeValues } from "./renamed-frames.ts";

/** A value that both sides changed, to different things. Undefined is a value that is gone. */
export interface Conflict {
  readonly path: RecipePath;
  readonly ours: Value | undefined;
  readonly theirs: Value | undefined;
}

export interface Merged {
  /** What brings their changes into our text, as far as they do not conflict with ours. */
  readonly edits: readonly ValueEdit[];
  readonly conflicts: readonly Conflict[];
}

interface Three {
  readonly base: Value | undefined;
  readonly ours: Value | undefined;
  readonly theirs: Value | undefined;
}

/** Of each group a recipe may state one: whoever adds the one takes the others away. */
const rivals: readonly (readonly [pattern: RegExp, keys: readonly string[]])[] = [
  [/^(frames\.[^.]*\.)?negative$/, ["gamma", "curve"]],
  [/^frames\.[^.]*$/, ["scan", "scans", "exposures", "channels"]],
];

/** @param names pairs of names that the sides gave to one frame, of which it can have one */
export function mergeValues(
  kind: RecipeKind,
  three: ThreeValues,
  names: readonly (readonly [string, string])[] = [],
): Merged {
  const edits: ValueEdit[] = [];
  const conflicts: Conflict[] = [];
  walk(three, []);
  return { edits, conflicts };

  function walk(three: Three, path: RecipePath): void {
    const { base: old, ours: mine, theirs: other } = three;
    if (isSame(mine, other) || isSame(old, other)) return;
    if (isSame(old, mine)) {
      edits.push(...statedEdits(mine, other, path));
      return;
    }
    const items = itemsOf(path);
    if (items && [old, mine, other].every((value) => value === undefined || Array.isArray(value)))
      mergeItems(items, three, path);
    else if (isDividable(three, path)) mergeKeys(three, path);
    else conflicts.push({ path, ours: mine, theirs: other });
  }

  /** A mapping is merged key by key, unless it is one thing: a curve, or a frame that one side took away. */
  function isDividable({ base: old, ours: mine, theirs: other }: Three, path: RecipePath): boolean {
    const stated = [old, mine, other].filter((value) => value !== undefined);
    if (!stated.every(isFields) || describeKey(kind, path)?.whole) return false;
    const isItem = path.length > 0 && hasFreeKeys(kind, path.slice(0, -1));
    return !isItem || old === undefined || (mine !== undefined && other !== undefined);
  }

  function mergeKeys(three: Three, path: RecipePath): void {
    const [old, mine, other] = [three.base, three.ours, three.theirs].map((value) => (isFields(value) ? value : {}));
    const clash = clashing(path, { base: old, ours: mine, theirs: other });
    for (const key of new Set([...Object.keys(mine!), ...Object.keys(other!), ...Object.keys(old!)])) {
      if (clash.includes(key)) continue;
      walk({ base: own(old, key), ours: own(mine, key), theirs: own(other, key) }, [...path, key]);
    }
    for (const key of clash) conflicts.push({ path: [...path, key], ours: own(mine, key), theirs: own(other, key) });
  }

  /** Keys of which the text can hold one, where each side has its own. */
  function clashing(path: RecipePath, three: Three): readonly string[] {
    if (path.join() === "frames") return names.flat();
    const pair = rivals.find(([pattern]) => pattern.test(path.join(".")))?.[1];
    return (pair && conflictOf(pair, three)) ?? [];
  }

  /** The whole group, where merging its keys one by one would leave two in the text, or none. */
  function conflictOf(
    pair: readonly string[],
    { base: old, ours: mine, theirs: other }: Three,
  ): readonly string[] | undefined {
    const [of, to] = [choice(pair, mine), choice(pair, other)];
    const unchanged = (side: Value | undefined): boolean => pair.every((key) => isSame(own(old, key), own(side, key)));
    return of === to || unchanged(mine) || unchanged(other) ? undefined : pair;
  }

  /** Items that only the other side changed are changed in our list; new ones come behind it. */
  function mergeItems(items: ItemKind, three: Three, path: RecipePath): void {
    const find = (list: Value | undefined, name: string): Value | undefined =>
      listOf(list).find((item) => identityOf(items, item) === name);
    const names = new Set(
      [three.theirs, three.base].flatMap((list) => listOf(list).map((one) => identityOf(items, one))),
    );
    let merged = three.ours;
    for (const name of names) {
      const [old, mine, other] = [find(three.base, name), find(three.ours, name), find(three.theirs, name)];
      if (isSame(mine, other) || isSame(old, other)) continue;
      if (isSame(old, mine)) merged = changeItem(items, merged, mine, other);
      else if (isFields(old) && isFields(mine) && isFields(other)) {
        const inner = mergeFields(old, mine, other);
        if (inner) merged = changeItem(items, merged, mine, inner);
        else return void conflicts.push({ path, ours: three.ours, theirs: three.theirs });
      } else return void conflicts.push({ path, ours: three.ours, theirs: three.theirs });
    }
    if (!isSame(merged, three.ours)) edits.push({ path, value: merged });
  }
}

type Fields = Readonly<Record<string, Value>>;

/** One output that both sides changed, field by field; undefined where both changed the same field. */
function mergeFields(base: Fields, ours: Fields, theirs: Fields): Value | undefined {
  const out: Record<string, Value> = {};
  for (const key of new Set([...Object.keys(ours), ...Object.keys(theirs)])) {
    const [old, mine, other] = [own(base, key), own(ours, key), own(theirs, key)];
    if (!isSame(mine, other) && !isSame(old, mine) && !isSame(old, other)) return undefined;
    const value = isSame(old, mine) ? other : mine;
    if (value !== undefined) out[key] = value;
  }
  return out;
}

const own = (value: Value | undefined, key: string): Value | undefined =>
  isFields(value) && Object.hasOwn(value, key) ? value[key] : undefined;

const choice = (pair: readonly string[], value: Value | undefined): string | undefined =>
  pair.find((key) => own(value, key) !== undefined);
