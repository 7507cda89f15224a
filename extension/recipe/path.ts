/** Whether a recipe describes a roll or a stock. */
export type RecipeKind = "roll" | "stock";

/** Where a value sits in a recipe: keys of mappings, indices of lists. The root is the empty path. */
export type RecipePath = readonly (string | number)[];

/** Sets the value at a path, or removes it, so that the inherited value shows again. */
export interface ValueEdit {
  readonly path: RecipePath;
  /** Undefined removes. Numbers are written with six decimals at most. */
  readonly value: unknown;
}

/** A piece of text: offsets in UTF-16 units, end exclusive. */
export type TextRange = readonly [start: number, end: number];

/** A place in a file for people: both counted from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** The path as people read it: `frames."12A".positive.curve[2]`. */
export function pathText(path: RecipePath): string {
  let text = "";
  for (const part of path) {
    if (typeof part === "number") text += `[${part}]`;
    else text += (text && ".") + (/^[A-Za-z_][A-Za-z0-9_]*$/.test(part) ? part : JSON.stringify(part));
  }
  return text;
}

/** The kind that a file name tells: `*.stock.yaml` is a stock, everything else a roll. */
export const kindOfFile = (file: string): RecipeKind => (/\.stock\.ya?ml$/i.test(file) ? "stock" : "roll");
