/** Merges two recipes that come from a third, by their values. */
import { parseRecipe, type RecipeDocument } from "../problems/document.ts";
import { isSame } from "../edit/model.ts";
import { applyChanges, editRecipe } from "../edit/edit.ts";
import { withEdits } from "../diff/stated.ts";
import { kindOfFile, pathText } from "../path.ts";
import { type Markers, markConflicts } from "./mark.ts";
import { withTheirOrder } from "./frame-order.ts";
import { followRenames } from "./renamed-frames.ts";
import { readComments } from "../yaml/syntax.ts";
import { migrateRecipe } from "../edit/versions.ts";
import { versionOf } from "../version.ts";
import { mergeValues } from "./three-way.ts";

export interface MergeOptions extends Partial<Markers> {
  /** The recipe's name, which tells a roll from a stock. */
  readonly file: string;
  /** What merging the lines gave, where that went without conflict. Kept when it says the same: it has both sides' comments. */
  readonly byLines?: string;
}

export interface MergedText {
  readonly text: string;
  /** Values that both sides changed, as people read them; empty for a clean merge. */
  readonly conflicts: readonly string[];
  /** Comments of the other side that found no place. */
  readonly lostComments: readonly string[];
}

/**
 * Merges two texts that come from a third, by their values: people who edited different frames or different values
 * never conflict. Our comments, order and layout stay. Undefined when one of the three is not YAML: then only its
 * lines can be merged.
 */
export function mergeRecipes(
  base: string,
  ours: string,
  theirs: string,
  options: MergeOptions,
): MergedText | undefined {
  const kind = kindOfFile(options.file);
  const read = (text: string): RecipeDocument => parseRecipe(text, { file: options.file, kind });
  const [old, mine, other] = [read(base), read(ours), read(theirs)];
  if (![old, mine, other].every(isReadable)) return undefined;
  if (ours === theirs || base === theirs) return { text: ours, conflicts: [], lostComments: [] };
  if (base === ours) return { text: theirs, conflicts: [], lostComments: [] };

  // Sides of different versions are merged in the terms of the newest.
  const newest = Math.max(...[mine, other].map(({ value }) => (value === undefined ? 1 : versionOf(value))));
  const inNewest = (text: string): string => migrateRecipe(text, { file: options.file, kind, to: newest });
  if ([old, mine, other].some(({ value }) => value !== undefined && versionOf(value) < newest)) {
    const texts = [base, ours, theirs].map(inNewest) as [string, string, string];
    if (texts.some((text, i) => text !== [base, ours, theirs][i]))
      return mergeRecipes(...texts, { ...options, byLines: undefined });
  }

  const sides = { base: old.value ?? {}, ours: mine.value ?? {}, theirs: other.value ?? {} };
  const { renames, given, conflicts: rivals, ...three } = followRenames(sides);
  const { edits, conflicts } = mergeValues(kind, three, rivals);
  const valued = withEdits(applyChanges(ours, editRecipe(ours, renames, { kind })), edits, kind);
  const merged = withTheirOrder(valued, { base, ours, theirs, given }, kind);
  if (conflicts.length === 0 && options.byLines !== undefined) {
    const lines = read(options.byLines);
    const byValues = read(merged);
    // Lines of a frame that both sides moved may be there twice.
    const isWhole = lines.problems.length <= byValues.problems.length;
    if (isReadable(lines) && isWhole && isSame(lines.value, byValues.value))
      return { text: options.byLines, conflicts: [], lostComments: [] };
  }
  const { ours: left = "ours", theirs: right = "theirs", size = 7 } = options;
  const text =
    conflicts.length > 0 ? markConflicts(merged, conflicts, kind, { ours: left, theirs: right, size }) : merged;
  return { text, conflicts: conflicts.map(({ path }) => pathText(path)), lostComments: lost(base, theirs, text) };
}

/** An empty text is one that says nothing. */
const isReadable = (document: RecipeDocument): boolean => document.wellFormed || document.text.trim() === "";

/** Comments that only they have, and that the merged text has not. A text in conflict has their side, too. */
function lost(base: string, theirs: string, merged: string): string[] {
  const [before, now] = [new Set(commentsOf(base)), new Set(commentsOf(merged))];
  return [...new Set(commentsOf(theirs))].filter((comment) => !before.has(comment) && !now.has(comment));
}

const commentsOf = (text: string): string[] => readComments(text).map((comment) => comment.text);
