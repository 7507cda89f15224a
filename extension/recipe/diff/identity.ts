/** Items of lists by what they are, not by where they stand. */
import { distanceFrom, middleOf, radiusOf, type Spot } from "../../engine/image/spot.ts";
import { isSame } from "../edit/model.ts";
import type { RecipePath } from "../path.ts";
import type { Value } from "../yaml/values.ts";

/** An item before and after; one of them may be missing. */
export interface Pair {
  /** What the item is called; stays the same when the list is reordered. */
  readonly identity: string;
  readonly before?: Value;
  readonly after?: Value;
}

/** Kinds of lists whose items have an identity. */
export type ItemKind = "output" | "spot" | "local";

/** What kind of items the list at `path` (of a stock, a roll, or counted from a frame) has; undefined for one value as a whole. */
export function itemsOf(path: RecipePath): ItemKind | undefined {
  const own = path[0] === "frames" ? path.slice(2) : path;
  const way = own.join(".");
  if (way === "positive.local") return "local";
  return way === "output" ? "output" : way === "spots" || way === "light.spots" ? "spot" : undefined;
}

/**
 * The item's own name: an output's name, a speck's position, the two ends of a hair or a scratch; the id of an area of
 * local exposure, else its name, else its shape.
 */
export function identityOf(kind: ItemKind, item: Value): string {
  if (kind === "local") {
    const own = fieldOf(item, "id") ?? fieldOf(item, "name");
    return typeof own === "string" ? own : JSON.stringify(shapesOf(item));
  }
  if (kind === "output") {
    const name = fieldOf(item, "name");
    return typeof name === "string" ? name : JSON.stringify(name ?? null);
  }
  const [from, ...others] = centrelineOf(item);
  const at = (point: Value): string => listOf(point).map(Number).slice(0, 2).join(", ");
  return others.length === 0 ? at(from ?? item) : `${at(from!)} to ${at(others.at(-1)!)}`;
}

const shapesOf = (area: Value): (Value | undefined)[] =>
  ["line", "oval", "polygon"].map((shape) => fieldOf(area, shape) ?? null);

/** Which of the shapes an area has. */
const shapeKind = (area: Value): string =>
  shapesOf(area)
    .map((shape) => Number(shape !== null))
    .join("");

const hasOwnName = (area: Value): boolean => (fieldOf(area, "id") ?? fieldOf(area, "name")) !== undefined;

/** The points of a hair's or scratch's course; of a speck its one place. */
export const centrelineOf = (item: Value): readonly Value[] => {
  const line = listOf(fieldOf(item, "line"));
  return line.length > 0 ? line : [item];
};

/** Items of two lists put side by side, in the order of `after`, then what is gone. */
export function pairItems(kind: ItemKind, before: Value | undefined, after: Value | undefined): Pair[] {
  const left = [...listOf(before)];
  const pairs = listOf(after).map((item): Pair => {
    const identity = identityOf(kind, item);
    const at = left.findIndex((other) => identityOf(kind, other) === identity);
    return { identity, after: item, ...(at < 0 ? {} : { before: left.splice(at, 1)[0] }) };
  });
  if (kind === "spot")
    for (const [i, pair] of pairs.entries()) {
      if (pair.before !== undefined) continue;
      const at = left.findIndex((other) => overlap(other, pair.after));
      if (at >= 0) pairs[i] = { ...pair, before: left.splice(at, 1)[0] };
    }
  // Areas without id and name that were moved: the first of the same kind of shape that is left.
  if (kind === "local")
    for (const [i, pair] of pairs.entries()) {
      if (pair.before !== undefined || hasOwnName(pair.after!)) continue;
      const at = left.findIndex((other) => !hasOwnName(other) && shapeKind(other) === shapeKind(pair.after!));
      if (at >= 0) pairs[i] = { ...pair, before: left.splice(at, 1)[0] };
    }
  return [...pairs, ...left.map((item) => ({ identity: identityOf(kind, item), before: item }))];
}

/** `list` with the item that was `from` now being `to`; either may be undefined. Unchanged where it is so already. */
export function changeItem(
  kind: ItemKind,
  list: Value | undefined,
  from: Value | undefined,
  to: Value | undefined,
): Value | undefined {
  const items = [...listOf(list)];
  const names = [from, to].filter((item) => item !== undefined).map((item) => identityOf(kind, item!));
  const at = items.findIndex((item) => names.includes(identityOf(kind, item)));
  if (to === undefined) {
    if (at >= 0) items.splice(at, 1);
  } else if (at >= 0) items[at] = to;
  else items.push(to);
  return items.length > 0 ? items : undefined;
}

export const listOf = (value: Value | undefined): readonly Value[] =>
  Array.isArray(value) ? (value as readonly Value[]) : [];

export function fieldOf(value: Value | undefined, key: string): Value | undefined {
  if (typeof value !== "object" || value === null || Array.isArray(value) || !Object.hasOwn(value, key))
    return undefined;
  return (value as Readonly<Record<string, Value>>)[key];
}

/** Two spots that cover one another are one spot that was changed. */
function overlap(a: Value | undefined, b: Value | undefined): boolean {
  if (isSame(a, b)) return true;
  if (!isSpot(a) || !isSpot(b)) return false;
  const near = Math.min(distanceFrom(a, middleOf(b)), distanceFrom(b, middleOf(a)));
  return near < Math.max(radiusOf(a), radiusOf(b));
}

const isSpot = (value: unknown): value is Spot =>
  listOf(value as Value).length === 3 || listOf(fieldOf(value as Value, "line")).length > 1;
