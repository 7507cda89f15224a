/** The shapes of the language features' results. */
import type { RecipeDocument } from "../problems/document.ts";
import type { TextRange } from "../path.ts";

/**
 * Results of the language features, shaped like those of the Language Server Protocol 3.17 (lines and characters count
 * from 0, characters in UTF-16 units), so that any editor can be served from them. Files are paths of the same form as
 * the recipe's own.
 */
export interface Place {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Place;
  readonly end: Place;
}

export interface Location {
  readonly file: string;
  readonly range: Range;
}

/** Edits of one file; their ranges are those of the text before any of them. */
export interface FileEdits {
  readonly file: string;
  readonly edits: readonly TextEdit[];
}

export interface TextEdit {
  readonly range: Range;
  readonly text: string;
}

export { english, type Translate as Say } from "../../engine/messages.ts";

/** A range of a recipe's text in lines and characters. */
export function rangeIn(document: RecipeDocument, [start, end]: TextRange): Range {
  return { start: placeIn(document, start), end: placeIn(document, end) };
}

export function placeIn(document: RecipeDocument, offset: number): Place {
  const { line, column } = document.positionOf(offset);
  return { line: line - 1, character: column - 1 };
}

/** The very beginning of a file, for files that are shown as a whole. */
export const fileStart: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
