/** Edits of a recipe's text in the shape of an editor's text edits. */
import type { RecipeDocument } from "../problems/document.ts";
import { editRecipe, type Edit, RecipeEditError, type TextChange } from "../edit/edit.ts";
import type { TextRange } from "../path.ts";
import { type FileEdits, rangeIn } from "./types.ts";

/** Changes of a recipe's text as an editor makes them. */
export function fileEdits(document: RecipeDocument, changes: readonly TextChange[]): FileEdits {
  return {
    file: document.file,
    edits: changes.map(({ start, end, text }) => ({ range: rangeIn(document, [start, end]), text })),
  };
}

export const replaced = ([start, end]: TextRange, text: string): TextChange[] => [{ start, end, text }];

/** The smallest change that sets or removes values; undefined where the text cannot be edited. */
export function changes(document: RecipeDocument, edits: readonly Edit[]): TextChange[] | undefined {
  try {
    const found = editRecipe(document.text, edits, { kind: document.kind });
    return found.length > 0 ? found : undefined;
  } catch (error) {
    if (error instanceof RecipeEditError) return undefined;
    throw error;
  }
}

/** Takes out an entry that has the same key as one before it: its lines, or its place between brackets. */
export function withoutEntry(text: string, [keyStart]: TextRange, valueEnd: number): TextChange[] {
  const lineStart = text.lastIndexOf("\n", keyStart - 1) + 1;
  const newline = text.indexOf("\n", valueEnd);
  const lineEnd = newline < 0 ? text.length : newline + 1;
  const isOwnLine =
    text.slice(lineStart, keyStart).trim() === "" &&
    /^\s*(#.*)?$/.test(text.slice(valueEnd, newline < 0 ? undefined : newline));
  if (isOwnLine) return [{ start: lineStart, end: lineEnd, text: "" }];
  const before = /,?\s*$/.exec(text.slice(0, keyStart))![0];
  if (before.startsWith(",")) return [{ start: keyStart - before.length, end: valueEnd, text: "" }];
  const after = /^\s*,?\s*/.exec(text.slice(valueEnd))![0];
  return [{ start: keyStart, end: valueEnd + after.length, text: "" }];
}
