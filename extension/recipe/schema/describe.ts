/** Looks up what is known of a key by its path. */
import { keyTable } from "../generated/describe.ts";
import type { KeyDescription } from "./key-description.ts";
import type { RecipeKind, RecipePath } from "../path.ts";

/** What is known of the key at `path`, or undefined for a path that no recipe has. */
export function describeKey(kind: RecipeKind, path: RecipePath): KeyDescription | undefined {
  return keyTable[kind][patternOf(kind, path)];
}

/** The path's pattern in the table: "frames.*.positive.exposure". */
export function patternOf(kind: RecipeKind, path: RecipePath): string {
  const table = keyTable[kind];
  let pattern = "";
  for (const part of path) {
    const prefix = pattern === "" ? "" : `${pattern}.`;
    const exact = `${prefix}${part}`;
    pattern = Object.hasOwn(table, exact) ? exact : `${prefix}*`;
  }
  return pattern;
}
