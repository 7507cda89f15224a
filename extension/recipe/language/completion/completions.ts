/** What can be written at an offset of a recipe's text. */
import { describeKey } from "../../schema/describe.ts";
import { contextAt } from "./context.ts";
import { keyCompletions } from "./complete-keys.ts";
import { valueCompletions } from "./complete-values.ts";
import type { Completion, CompletionPlace } from "./completion.ts";
import type { Reading } from "../document-cache.ts";
import { type Range, rangeIn, type Say } from "../types.ts";
import type { RecipeWorkspace } from "../workspace.ts";

/**
 * What can be written at an offset of a text. The text may be newer than the reading, and no YAML at the moment: where
 * the caret is, is told from the text, and only what the recipe says elsewhere comes from the reading.
 */
export async function completions(
  text: string,
  offset: number,
  reading: Reading,
  workspace: RecipeWorkspace,
  t: Say,
): Promise<Completion[]> {
  const context = contextAt(text, offset);
  if (!context) return [];
  const { document } = reading;
  const here = document.text === text ? document : undefined;
  const range = here ? rangeIn(here, context.word) : rangeOf(text, context.word);
  const place: CompletionPlace = { reading, range, workspace, t };
  if (context.what === "key") return describeKey(document.kind, context.path) ? keyCompletions(context, place) : [];
  return valueCompletions(context, place);
}

/** Lines and characters of a text that has not been parsed. */
function rangeOf(text: string, [start, end]: readonly [number, number]): Range {
  const place = (offset: number) => {
    const before = text.slice(0, offset);
    const lineStart = before.lastIndexOf("\n") + 1;
    return { line: before.split("\n").length - 1, character: offset - lineStart };
  };
  return { start: place(start), end: place(end) };
}
