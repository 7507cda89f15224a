/** What a session has written into the recipe itself, so that what a person changes stays theirs. */
import type { ValueEdit } from "../../../recipe/edit/edit.ts";

/** Values as text by path, "negative.base"; what differs by now is a person's. A frame that was added stands as "frames.12". */
export type Written = Readonly<Record<string, string>>;

/** What a session has written, and what it wrote next: it may end before it can note that the recipe was changed. */
export interface WrittenJournal {
  readonly written: Written;
  /** Noted before a change of the recipe. */
  readonly next?: Written;
}

/** What was written, value by value as the recipe has it: that of before a change, or that of after it. */
export function writtenIn(root: unknown, { written, next }: WrittenJournal): Written {
  if (!next) return written;
  const isIn = ([key, text]: [string, string]): boolean => {
    const value = valueAt(root, key.split("."));
    return text === ADDED ? value !== undefined : textOf(value) === text;
  };
  return { ...written, ...Object.fromEntries(Object.entries(next).filter(isIn)) };
}

/** Text of a frame that was added. */
export const ADDED = "added";

/** Looks up what the recipe states at a path itself; undefined where it states nothing. */
export type Stated = (path: ValueEdit["path"]) => unknown;

/** A value as text, whatever the order of its keys. */
export function textOf(value: unknown): string {
  const sorted = (_: string, v: unknown): unknown =>
    typeof v === "object" && v !== null && !Array.isArray(v)
      ? Object.fromEntries(Object.entries(v).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : v;
  return JSON.stringify(value, sorted) ?? "undefined";
}

/** Looks up a value by its path; undefined where there is none. */
export const valueAt = (root: unknown, path: ValueEdit["path"]): unknown =>
  path.reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], root);

/** A recipe's values without those that are as the session wrote them. Frames stay. */
export function withoutOwn(root: unknown, written: Written): unknown {
  const copy = structuredClone(root);
  for (const [key, text] of Object.entries(written)) {
    const path = key.split(".");
    if (path[0] === "frames" || textOf(valueAt(copy, path)) !== text) continue;
    const parent = valueAt(copy, path.slice(0, -1)) as Record<string, unknown>;
    delete parent[path[path.length - 1]];
  }
  return copy;
}
