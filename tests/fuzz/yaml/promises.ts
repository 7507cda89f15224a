/** What format and edits promise of any text: nothing that it says is lost, no comment either, and format is final. */
import { isDeepStrictEqual } from "node:util";
import * as YAML from "yaml";
import { parseRecipe } from "../../../extension/recipe/problems/document.ts";
import {
  applyChanges,
  editRecipe,
  type Edit,
  type MoveEdit,
  RecipeEditError,
} from "../../../extension/recipe/edit/edit.ts";
import { tryFormat } from "../../../extension/recipe/edit/layout/format.ts";
import { nodeAt } from "../../../extension/recipe/yaml/positions.ts";
import { readComments } from "../../../extension/recipe/yaml/syntax.ts";
import { type Data, type Fields, recipe } from "./data.ts";
import { Dice } from "./dice.ts";
import { at, randomEdits, randomMove } from "./edits.ts";
import { type Manner, type Path, write, type WrittenText } from "./write.ts";

export type Outcome =
  | { readonly kind: "kept" }
  /** There was nothing to do: one part alone, or keys whose order is fixed. */
  | { readonly kind: "idle" }
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

/** Key and value pairs of mappings in the order of the text, as one text. */
const inOrder = (text: string): string => {
  const plainOf = (node: unknown): unknown => {
    if (YAML.isMap(node)) return node.items.map(({ key, value }) => [plainOf(key), plainOf(value)]);
    if (YAML.isSeq(node)) return node.items.map(plainOf);
    if (YAML.isAlias(node)) return `*${node.source}`;
    return YAML.isScalar(node) ? node.value : node;
  };
  return JSON.stringify(
    plainOf(
      YAML.parseDocument(text, { version: "1.2", schema: "core", uniqueKeys: false, logLevel: "silent" }).contents,
    ),
  );
};

/**
 * A move changes the order of one group and nothing else: every line is there as it was (in brackets: every sign), what
 * the text says is the same, and the move back, where it is not refused, gives a text that says what it said, in its order.
 */
export function checkMoves(one: Case): Outcome {
  if (!isUnderstood(one)) return { kind: "misread" };
  const { text, value, comments, dice } = one;
  const move = randomMove(value, dice);
  if (!move) return { kind: "idle" };
  const options = { file: "a.roll.yaml" } as const;
  let after: string;
  try {
    after = applyChanges(text, editRecipe(text, [move], options));
  } catch (error) {
    if (!(error instanceof RecipeEditError)) throw error;
    // Keys that the schema knows have an order of their own.
    return error.message.endsWith(" is fixed.")
      ? { kind: "idle" }
      : { kind: "refused", why: error.message, edits: [move] };
  }
  const broken = (what: string): Outcome => ({
    kind: "broken",
    what: `${what} by ${JSON.stringify(move)}`,
    text,
    after,
  });
  const [part, holder] = [move.path.at(-1)!, move.path.slice(0, -1)];
  const group = at(value, holder);
  if (!isDeepStrictEqual(commentsIn(after), bag(comments.map((c) => c.text)))) return broken("a comment");
  const signs = (all: string): string => Array.from(all.replaceAll("\r\n", "\n")).toSorted().join("");
  const formatted = tryFormat(text, options);
  const isCanonical = formatted.left === undefined && formatted.text === text;
  if (isCanonical ? tryFormat(after, options).text !== after : signs(after) !== signs(text)) return broken("a sign");
  const wanted = structuredClone(value);
  if (Array.isArray(group)) {
    const list = at(wanted, holder) as Data[];
    const [from, to] = [Number(part), move.before === null ? list.length : Number(move.before)];
    list.splice(to > from ? to - 1 : to, 0, list.splice(from, 1)[0]!);
  }
  if (!isDeepStrictEqual(meaning(after), plain(wanted))) return broken("a value");
  const names = Array.isArray(group) ? [] : namesAt(text, holder);
  const now = Array.isArray(group) ? [] : namesAt(after, holder);
  const expected = names.filter((name) => name !== part);
  expected.splice(
    move.before === null ? expected.length : expected.indexOf(String(move.before)),
    0,
    ...(names.includes(String(part)) ? [String(part)] : []),
  );
  if (move.before !== part && !isDeepStrictEqual(now, expected)) return broken("the order");
  const back = backFrom(move.path, Array.isArray(group) ? group.length : names, move.before);
  try {
    if (inOrder(applyChanges(after, editRecipe(after, [back], options))) !== inOrder(text))
      return broken("the way back");
  } catch (error) {
    // The moved text may stand where a comment below it would fall into a text: that is kept, and goes no further.
    if (!(error instanceof RecipeEditError)) throw error;
  }
  return { kind: "kept" };
}

/** The move that undoes one. */
function backFrom(path: Path, names: number | readonly string[], before: string | number | null): MoveEdit {
  const part = path.at(-1)!;
  if (typeof names !== "number")
    return { path, before: part === before ? part : (names[names.indexOf(String(part)) + 1] ?? null) };
  const [from, to] = [Number(part), before === null ? names : Number(before)];
  const isAt = to > from ? to - 1 : to;
  // Where it is now, and the index that stands there before which it stood.
  return { path: [...path.slice(0, -1), isAt], before: isAt > from ? from : from + 1 >= names ? null : from + 1 };
}

function namesAt(text: string, path: Path): readonly string[] {
  const document = parseRecipe(text, { file: "a.roll.yaml" });
  const ast = document.ast && nodeAt(document.ast, path)?.value;
  return ast?.kind === "mapping" ? ast.entries.map(({ name }) => name) : [];
}
