/** The text of a recipe with renewed values: their comments renewed too, everything else as it was. */
import { applyChanges, editRecipe, type TextChange, type ValueEdit } from "../../../recipe/edit/edit.ts";
import { wholeChange } from "../../../recipe/edit/changes.ts";
import { type CommentInsert, withComments } from "../../../recipe/edit/compose.ts";
import type { RecipePath } from "../../../recipe/path.ts";
import { parseRecipe } from "../../../recipe/problems/document.ts";
import { isSame } from "../../../recipe/edit/model.ts";
import { commentDigest } from "./automatic-values.ts";
import type { Renewal, RenewalItem } from "./renew-roll.ts";

/**
 * What the text of the recipe changes by, as one edit.
 * @param items those of the renewal that are wanted
 */
export function renewalChanges(text: string, { same, comments }: Renewal, items: readonly RenewalItem[]): TextChange[] {
  // Comments are worked on in lines that end in LF.
  const crlf = text.includes("\r\n");
  const lf = crlf ? text.replaceAll("\r\n", "\n") : text;
  const { text: bare, inserts } = withoutOldComments(lf, items, comments);
  const edits = [...items.flatMap(valueEdits), ...[...items, ...same].map(digestEdit)];
  const edited = applyChanges(bare, editRecipe(bare, edits, { kind: "roll" }));
  const after = withComments(edited, inserts, "roll");
  return wholeChange(text, crlf ? after.replaceAll("\n", "\r\n") : after);
}

function valueEdits({ state: { unit, at }, before, after }: RenewalItem): ValueEdit[] {
  return unit.paths.flatMap((path, i) => {
    const [was, is] = [before[i], after[i]];
    const isUnchanged = was === undefined || is === undefined ? was === is : isSame(was, is);
    return isUnchanged ? [] : [{ path: [...at, ...path], value: is }];
  });
}

const digestEdit = ({ state, digest }: Pick<RenewalItem, "state" | "digest">): ValueEdit => ({
  path: state.digestPath,
  value: digest,
});

/** Takes away the comments that were written with the old values, and tells which new ones take their places. */
function withoutOldComments(
  text: string,
  items: readonly RenewalItem[],
  comments: readonly CommentInsert[],
): { text: string; inserts: CommentInsert[] } {
  const inserts: CommentInsert[] = [];
  const cuts: TextChange[] = [];
  const document = parseRecipe(text, { file: "", kind: "roll" });
  for (const { state } of items) {
    const written = state.digest?.split("-").slice(1) ?? [];
    for (const path of state.unit.paths.map((own): RecipePath => [...state.at, ...own])) {
      const range = document.rangeOf(path, "key");
      const block = range ? commentLines(text, range[0]) : [];
      const own = ownLines(block, written);
      if (own.length > 0) cuts.push({ start: own[0].start, end: own[own.length - 1].end, text: "" });
      const insert = comments.find((one) => JSON.stringify(one.path) === JSON.stringify(path));
      // A person's comment stays alone: also where it has taken the place of ours.
      if (insert && (own.length > 0 || (block.length === 0 && written.length === 0))) inserts.push(insert);
    }
  }
  return {
    text: applyChanges(
      text,
      cuts.toSorted((a, b) => a.start - b.start),
    ),
    inserts,
  };
}

interface CommentLine {
  readonly start: number;
  /** After the line's end. */
  readonly end: number;
  readonly words: string;
}

/** The lines of nothing but comment directly above the line of `at`, from the top. */
function commentLines(text: string, at: number): CommentLine[] {
  const lines: CommentLine[] = [];
  let end = text.lastIndexOf("\n", at - 1) + 1;
  while (end > 0) {
    const start = text.lastIndexOf("\n", end - 2) + 1;
    const found = /^ *# ?(.*)\n$/.exec(text.slice(start, end));
    if (!found) break;
    lines.unshift({ start, end, words: found[1] });
    end = start;
  }
  return lines;
}

/** Those lines, one after the other, that a recorded comment was written as. */
function ownLines(lines: readonly CommentLine[], digests: readonly string[]): readonly CommentLine[] {
  for (let from = 0; from < lines.length; from++)
    for (let to = lines.length; to > from; to--) {
      const run = lines.slice(from, to);
      if (digests.includes(commentDigest(run.map(({ words }) => words).join(" ")))) return run;
    }
  return [];
}
