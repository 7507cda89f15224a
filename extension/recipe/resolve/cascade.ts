/** Where a value comes from: frame, roll, stock or default, in this order. */
import { toneEndIn } from "../../engine/film/tone-versions.ts";
import { describeKey } from "../schema/describe.ts";
import type { RecipeDocument } from "../problems/document.ts";
import type { Position, RecipePath, TextRange } from "../path.ts";
import { entryOf, target, type AstNode } from "../yaml/ast.ts";
import { validValue } from "../problems/valid-value.ts";
import { type RecipeVersion, versionOf } from "../version.ts";
import type { Value } from "../yaml/values.ts";

/** Where a resolved value comes from. Defaults come from no file. */
export type Origin = DefaultOrigin | StatedOrigin;

export interface DefaultOrigin {
  readonly level: "default";
  readonly path: RecipePath;
}

export interface StatedOrigin extends Position {
  readonly level: "stock" | "roll" | "frame";
  readonly file: string;
  /** Path inside that file. */
  readonly path: RecipePath;
  /** The value's text. */
  readonly range: TextRange;
}

/** One level of the cascade: a recipe, or one frame of it. */
export interface Level {
  readonly name: "stock" | "roll" | "frame";
  readonly document: RecipeDocument;
  /** Path of the level's root in its file: empty, or frames and an id. */
  readonly prefix: RecipePath;
  readonly value: Value;
}

/** What a value is and where from; `own` is its path below the level's root. */
export interface Found {
  readonly value: Value;
  readonly level: Level;
  readonly own: RecipePath;
}

/** Keys that each file keeps for itself: a roll does not inherit its stock's title, nor a frame its roll's note. */
const ownKeys = new Set([
  "version",
  "title",
  "note",
  "process",
  "iso",
  "stock",
  "frames",
  "fingerprints",
  "automatic",
  "scans",
]);

/**
 * The levels of a roll with its stock, nearest first, and their values without what is wrong in them. Toe and shoulder
 * of a stock of another version than the roll's count as the nearest ones of the roll's version.
 */
export function rollLevels(roll: RecipeDocument, stock: RecipeDocument | undefined): Level[] {
  const levels: Level[] = [
    { name: roll.kind === "stock" ? "stock" : "roll", document: roll, prefix: [], value: validValue(roll) },
  ];
  if (stock) {
    const value = inVersion(versionOf(levels[0]!.value), validValue(stock));
    levels.push({ name: "stock", document: stock, prefix: [], value });
  }
  return levels;
}

function inVersion(version: RecipeVersion, stock: Value): Value {
  const from = versionOf(stock);
  const positive = step(stock, "positive");
  if (from === version || typeof positive !== "object" || positive === null) return stock;
  const ends = (["toe", "shoulder"] as const).flatMap((end) => {
    const value = step(positive, end);
    return typeof value === "number" ? [[end, toneEndIn(version, end, value, from)] as const] : [];
  });
  return Object.assign({}, stock, { positive: Object.assign({}, positive, Object.fromEntries(ends)) }) as Value;
}

/** A frame's levels: its own, then the roll's. */
export function frameLevels(levels: readonly Level[], id: string): Level[] {
  const roll = levels[0]!;
  const frame = step(step(roll.value, "frames"), id);
  return frame === undefined
    ? [...levels]
    : [{ name: "frame", document: roll.document, prefix: ["frames", id], value: frame }, ...levels];
}

/**
 * The nearest value at `path`. Mappings are passed through key by key, except those that are inherited as a whole.
 * A path into a list finds the item of the nearest list; one into a number that stands for three finds the number.
 */
export function find(levels: readonly Level[], path: RecipePath): Found | undefined {
  const levelsSearched = ownKeys.has(String(path[0])) ? levels.slice(0, 1) : levels;
  for (const level of levelsSearched) {
    if (isExcluded(levels, level, path)) return undefined;
    let value: Value | undefined = level.value;
    let depth = 0;
    while (depth < path.length && value !== undefined && typeof value === "object" && value !== null) {
      const whole = depth > 0 && describeKey(level.document.kind, [...level.prefix, ...path.slice(0, depth)])?.whole;
      const inner: Value | undefined = step(value, path[depth]!);
      // Inside a list, or a mapping that is inherited as a whole, an absent value is absent: further levels do not fill it.
      if (inner === undefined && (whole || Array.isArray(value))) return undefined;
      value = inner;
      depth++;
    }
    if (value !== undefined) return { value, level, own: path.slice(0, depth) };
  }
  return undefined;
}

/** gamma and curve exclude each other: the one stated nearest hides the other on the levels behind it. */
function isExcluded(levels: readonly Level[], level: Level, path: RecipePath): boolean {
  const conflicting =
    path[0] !== "negative" ? undefined : path[1] === "gamma" ? "curve" : path[1] === "curve" ? "gamma" : undefined;
  if (!conflicting) return false;
  return levels
    .slice(0, levels.indexOf(level) + 1)
    .some((near) => step(step(near.value, "negative"), conflicting) !== undefined);
}

/** Every key stated at or below `path` on any level, merged: the whole mapping as it applies. */
export function merged(levels: readonly Level[], path: RecipePath): Value | undefined {
  const found = find(levels, path);
  if (!found || typeof found.value !== "object" || found.value === null || Array.isArray(found.value))
    return found?.value;
  if (describeKey(found.level.document.kind, [...found.level.prefix, ...path])?.whole) return found.value;
  const out: Record<string, Value> = {};
  for (const level of levels) {
    let value: Value | undefined = level.value;
    for (const part of path) value = step(value, part);
    if (typeof value !== "object" || value === null || Array.isArray(value)) continue;
    for (const key of Object.keys(value)) {
      const inner = Object.hasOwn(out, key) ? undefined : merged(levels, [...path, key]);
      if (inner !== undefined) out[key] = inner;
    }
  }
  return out;
}

/** The place that a found value stands at. */
export function originOf({ level, own }: Found): StatedOrigin {
  const path = [...level.prefix, ...own];
  const range = level.document.rangeOf(path, "value") ?? [0, 0];
  return { level: level.name, file: level.document.file, path, range, ...level.document.positionOf(range[0]) };
}

/** Ids of the frames in the order of the text; objects would sort "1" before "01". */
export function frameIds(roll: RecipeDocument, valid: Value): string[] {
  const root: AstNode | undefined = roll.ast && target(roll.ast);
  const frames = root?.kind === "mapping" ? entryOf(root, "frames") : undefined;
  const mapping = frames && target(frames.value);
  if (mapping?.kind !== "mapping") return [];
  const known = step(valid, "frames");
  return [...new Set(mapping.entries.map((entry) => entry.name))].filter((id) => step(known, id) !== undefined);
}

/** One step into a value; undefined where there is nothing. */
export function step(value: Value | undefined, part: string | number): Value | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  if (Array.isArray(value)) return typeof part === "number" ? (value as readonly Value[])[part] : undefined;
  return Object.hasOwn(value, String(part)) ? (value as Readonly<Record<string, Value>>)[String(part)] : undefined;
}
