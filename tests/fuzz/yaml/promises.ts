/** What format and edits promise of any text: nothing that it says is lost, no comment either, and format is final. */
import { isDeepStrictEqual } from "node:util";
import * as YAML from "yaml";
import { parseRecipe } from "../../../extension/recipe/problems/document.ts";
import { applyChanges, editRecipe, RecipeEditError, type Edit } from "../../../extension/recipe/edit/edit.ts";
import { tryFormat } from "../../../extension/recipe/edit/layout/format.ts";
import { readComments } from "../../../extension/recipe/yaml/syntax.ts";
import { type Data, type Fields, recipe } from "./data.ts";
import { Dice } from "./dice.ts";
import { randomEdits } from "./edits.ts";
import { type Manner, write, type WrittenText } from "./write.ts";

export type Outcome =
  | { readonly kind: "kept" }
  /** Left alone, with a sentence. */
  | { readonly kind: "refused"; readonly why: string; readonly edits?: unknown }
  /** The YAML package itself reads the generated text otherwise than the grammar has it: nothing can be said. */
  | { readonly kind: "misread" }
  | { readonly kind: "broken"; readonly what: string; readonly text: string; readonly after: string };

export interface Case extends WrittenText {
  readonly manner: Manner;
  readonly dice: Dice;
}

/** The case of a seed: one in four in ordinary layout, one in ten with anchors, tags, markers and ? keys. */
export function caseOf(seed: number, only?: "ordinary"): Case {
  const dice = new Dice(seed);
  const isOrdinary = dice.chance(0.25) || only === "ordinary";
  const hasExtras = dice.chance(0.13) && !isOrdinary;
  const manner = { isOrdinary, hasExtras };
  return { ...write(recipe(dice, isOrdinary), dice, manner), manner, dice };
}

/** What a text says, by the YAML package alone; undefined where it is no YAML. */
export function meaning(text: string): unknown {
  const document = YAML.parseDocument(text, { version: "1.2", schema: "core", uniqueKeys: false, logLevel: "silent" });
  return document.errors.length > 0 ? undefined : (document.toJS() as unknown);
}

const plain = (value: Data): unknown => JSON.parse(JSON.stringify(value));
const bag = (texts: readonly string[]): string[] => texts.toSorted();

/** Whether the reader and the grammar agree about a generated text. */
export const isUnderstood = ({ text, value, comments }: WrittenText): boolean =>
  isDeepStrictEqual(meaning(text), plain(value)) &&
  isDeepStrictEqual(commentsIn(text), bag(comments.map((c) => c.text)));

const commentsIn = (text: string): string[] => bag(readComments(text).map((comment) => comment.text));

export function checkFormat(one: Case): Outcome {
  const { text, value, comments } = one;
  if (!isUnderstood(one)) return { kind: "misread" };
  const { text: after, left } = tryFormat(text, { file: "a.roll.yaml" });
  const broken = (what: string): Outcome => ({ kind: "broken", what, text, after });
  if (left !== undefined) return after === text ? { kind: "refused", why: left } : broken("left, and yet changed");
  if (!isDeepStrictEqual(meaning(after), plain(value))) return broken("a value");
  if (!isDeepStrictEqual(commentsIn(after), bag(comments.map((c) => c.text)))) return broken("a comment");
  const again = tryFormat(after, { file: "a.roll.yaml" });
  if (again.text !== after) return broken(`not final: ${JSON.stringify(again.text)}`);
  if (again.left !== undefined) return broken(`not final: ${again.left}`);
  return { kind: "kept" };
}

export function checkEdits(one: Case): Outcome {
  if (!isUnderstood(one)) return { kind: "misread" };
  const { text, value, comments, manner, dice } = one;
  const { edits, wanted, mayGo } = randomEdits(value, dice, manner.isOrdinary);
  let after: string;
  try {
    after = applyChanges(text, editRecipe(text, edits as Edit[], { file: "a.roll.yaml" }));
  } catch (error) {
    if (!(error instanceof RecipeEditError)) throw error;
    return { kind: "refused", why: error.message, edits };
  }
  const broken = (what: string): Outcome => ({
    kind: "broken",
    what: `${what} by ${JSON.stringify(edits)}`,
    text,
    after,
  });
  if (!isDeepStrictEqual(meaning(after), plain(wanted))) return broken("a value");
  if (!isDeepStrictEqual(plain((parseRecipe(after, { file: "a.roll.yaml" }).value ?? {}) as Fields), plain(wanted)))
    return broken("what Rollbook reads");
  const now = commentsIn(after);
  for (const { text: comment } of comments.filter((c) => !mayGo(c))) {
    const at = now.indexOf(comment);
    if (at < 0) return broken(`the comment ${comment}`);
    now.splice(at, 1);
  }
  const going = bag(comments.filter(mayGo).map((c) => c.text));
  for (const rest of now) {
    const at = going.indexOf(rest);
    if (at < 0) return broken(`a new comment ${rest}`);
    going.splice(at, 1);
  }
  return { kind: "kept" };
}
