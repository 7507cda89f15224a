/** Writes new recipes: canonical text with a comment at each block that was measured. */
import { parseRecipe } from "../problems/document.ts";
import { applyChanges, editRecipe, type ValueEdit } from "./edit.ts";
import { plain } from "../plain-text.ts";
import { formatRecipe } from "./layout/format.ts";
import type { RecipeKind, RecipePath } from "../path.ts";
import { CURRENT_VERSION, type RecipeVersion } from "../version.ts";

/** A remark above a key. */
export interface CommentInsert {
  readonly path: RecipePath;
  /** One or more lines, without the "#". */
  readonly text: string;
}

export interface Composition {
  readonly kind: RecipeKind;
  /** The current one where absent. */
  readonly version?: RecipeVersion;
  /** Lines at the top of the file. */
  readonly head: string;
  readonly values: readonly ValueEdit[];
  readonly comments: readonly CommentInsert[];
}

/** Longest line of a comment. */
const WIDTH = 116;

/** The recipe's text. Values that are undefined are left out; a comment on a key that is missing is dropped. */
export function composeRecipe({ kind, version = CURRENT_VERSION, head, values, comments }: Composition): string {
  const start = `version: ${version}\n`;
  const stated = values.filter(({ value }) => value !== undefined);
  const bare = applyChanges(start, editRecipe(start, stated, { kind }));
  return formatRecipe(`${commentOf(head, "")}\n${withComments(bare, comments, kind)}`, { kind });
}

/** Puts remarks above the lines of their keys. */
export function withComments(text: string, comments: readonly CommentInsert[], kind: RecipeKind): string {
  const document = parseRecipe(text, { file: kind === "roll" ? "new.roll.yaml" : "new.stock.yaml", kind });
  const inserts = comments.flatMap(({ path, text: comment }) => {
    const range = document.rangeOf(path, "key");
    if (!range) return [];
    const start = text.lastIndexOf("\n", range[0] - 1) + 1;
    const indent = /^ */.exec(text.slice(start))![0];
    return [{ at: start, lines: commentOf(comment, indent) }];
  });
  let out = text;
  for (const { at, lines } of inserts.toSorted((a, b) => b.at - a.at)) out = out.slice(0, at) + lines + out.slice(at);
  return out;
}

function commentOf(text: string, indent: string): string {
  const lines: string[] = [];
  for (const paragraph of text.split("\n")) {
    let line = "";
    for (const word of plain(paragraph).split(" ")) {
      if (line && indent.length + 3 + line.length + word.length > WIDTH) {
        lines.push(line);
        line = "";
      }
      line += line ? ` ${word}` : word;
    }
    lines.push(line);
  }
  return lines.map((line) => `${indent}# ${line}\n`).join("");
}
