/** The one edit function: changes a recipe's text so that it states another value, and nothing else. */
import { applyChanges, type TextChange, tidyChanges, wholeChange } from "./changes.ts";
import { Emitter } from "./emit.ts";
import { removedComments } from "./removed-comments.ts";
import { TextLines } from "./lines.ts";
import {
  applyEdits,
  type ContentEdit,
  type Edit,
  isMove,
  isSame,
  type MoveEdit,
  RecipeEditError,
  type ValueEdit,
} from "./model.ts";
import { movedText } from "./move.ts";
import { reformatEntry } from "./layout/reformat-entry.ts";
import { renameChange, renamedValue } from "./rename.ts";
import { keepOutOfBlockTexts } from "./repair.ts";
import { formatRecipe, tryFormat } from "./layout/format.ts";
import { MAX_COLUMN } from "./layout/print.ts";
import { kindOfFile, type RecipeKind, type RecipePath } from "../path.ts";
import type { Problem } from "../problems.ts";
import { limitProblem } from "../yaml/limits.ts";
import { readComments, readSyntax, type Syntax } from "../yaml/syntax.ts";
import type { Comment } from "../yaml/ast.ts";
import { readValues, type Value } from "../yaml/values.ts";
import { commentsChanged } from "./verify.ts";

export { applyChanges, type Edit, type MoveEdit, RecipeEditError, type TextChange, type ValueEdit };

/**
 * The smallest change of the text that makes it say something else. An edit sets the value at a path (creating what is
 * missing on the way, in canonical order), removes it (`value: undefined`; a mapping left empty goes too), renames
 * a key, or moves a frame or an item among its siblings (after the other edits, one move after the other). Comments, order, quotes and line endings stay. A text in canonical format stays in canonical format.
 * Changes come in order of place and do not overlap; offsets are of `text`.
 * The new text is read again: it says what was meant and has every comment but those of what was removed. Where the
 * smallest change would not, what is around it is laid out again first.
 * Throws RecipeEditError where the text is not YAML, where the path leads through an alias, or where no change keeps
 * everything else.
 */
export function editRecipe(
  text: string,
  edits: readonly Edit[],
  options: { readonly file?: string; readonly kind?: RecipeKind } = {},
): TextChange[] {
  const kind = options.kind ?? kindOfFile(options.file ?? "");
  const contents = edits.filter((edit): edit is ContentEdit => !isMove(edit));
  if (contents.length === edits.length) return changeContents(text, contents, kind);
  const changed = contents.length === 0 ? text : applyChanges(text, changeContents(text, contents, kind));
  return wholeChange(
    text,
    edits.filter(isMove).reduce((now, move) => movedText(now, kind, move, readable(now).ast), changed),
  );
}

function changeContents(text: string, edits: readonly ContentEdit[], kind: RecipeKind): TextChange[] {
  const edit = new TextEdit(kind, text, edits);
  const direct = edit.smallest(text);
  if (direct && edit.isKept(applyChanges(text, direct))) return direct;
  for (const relaid of [edit.relaid(), tryFormat(text, { kind }).text]) {
    const changes = relaid === undefined || relaid === text ? undefined : edit.smallest(relaid);
    const after = changes && applyChanges(relaid!, changes);
    if (after !== undefined && edit.isKept(after)) return wholeChange(text, after);
  }
  throw new RecipeEditError(
    "The recipe was not edited: the change would have altered other values or lost a comment. Lay the recipe out with Format first, or edit the text by hand.",
  );
}

/** What is wanted of a text, and the ways to it. */
class TextEdit {
  readonly #kind: RecipeKind;
  readonly #text: string;
  readonly #edits: readonly ContentEdit[];
  readonly #before: { value: Value; problems: readonly Problem[]; comments: readonly Comment[] };
  readonly #wanted: Value;
  /** Comments that may go with what is removed. */
  readonly #going: readonly Comment[];

  constructor(kind: RecipeKind, text: string, edits: readonly ContentEdit[]) {
    this.#kind = kind;
    this.#text = text;
    this.#edits = edits;
    const { ast } = readable(text);
    const { value = {}, problems } = ast ? readValues(ast) : { problems: [] };
    const comments = readComments(text);
    this.#before = { value, problems, comments };
    const after = applyEdits(kind, value, edits);
    this.#going = removedComments(new TextLines(text), comments, ast, value, after, this.#removed);
    this.#wanted = edits.reduce((now, edit) => ("rename" in edit ? renamedValue(now, edit) : now), after);
  }

  /** The smallest change of a text that says what the recipe says. Undefined where its parts would overlap. */
  smallest(text: string): TextChange[] | undefined {
    const { ast } = readable(text);
    const before = ast && (readValues(ast).value ?? {});
    const after = applyEdits(this.#kind, before ?? {}, this.#edits);
    const [lines, comments] = [new TextLines(text), readComments(text)];
    const emitter = new Emitter(this.#kind, lines, comments, this.#removed);
    emitter.root(ast, before, after);
    for (const edit of this.#edits)
      if ("rename" in edit) emitter.changes.push(renameChange(this.#kind, text, ast, edit));
    try {
      const changes = keepOutOfBlockTexts(text, tidyChanges(text, emitter.changes), comments);
      const mayDisturb = emitter.mayDisturb || lengthensLine(text, changes);
      return mayDisturb && changes.length > 0 ? keepCanonical(text, changes, this.#kind) : changes;
    } catch (error) {
      if (error instanceof RangeError) return undefined;
      throw error;
    }
  }

  /** The text with the entries that the edits are in laid out again. */
  relaid(): string | undefined {
    let text: string | undefined = this.#text;
    for (const { path } of this.#edits) text = text && reformatEntry(text, this.#kind, path);
    return text;
  }

  /** The one item of a list that the edits remove, or empty, so that it goes. */
  readonly #removed = (path: RecipePath): number | undefined => {
    const items = this.#edits.flatMap((edit) => {
      const index = edit.path[path.length];
      const isHere = path.every((part, i) => part === edit.path[i]);
      return isHere && typeof index === "number" && !("rename" in edit) && edit.value === undefined ? [index] : [];
    });
    return items.length === 1 ? items[0] : undefined;
  };

  /** Whether a new text says what is wanted, has every comment that stays, and no other. */
  isKept(after: string): boolean {
    if (limitProblem(after)) return false;
    const { ast, syntaxErrors } = readSyntax(after);
    const { value = {}, problems } = ast ? readValues(ast) : { problems: [] };
    if (syntaxErrors.length > 0 || !isSame(value, this.#wanted)) return false;
    const [missing, added] = commentsChanged(this.#before.comments, readComments(after));
    const [lost] = commentsChanged(missing, this.#going);
    return lost.length === 0 && added.length === 0 && this.#keepsProblems(problems);
  }

  /** What is no value (a number that is not finite, a key stated twice) stays as well, outside the edits' own places. */
  #keepsProblems(now: readonly Problem[]): boolean {
    const nameOf = ({ code, path }: Problem): string => JSON.stringify([code, path]);
    const names = new Set(now.map(nameOf));
    const isTouched = ({ path }: Problem): boolean =>
      this.#edits.some((edit) => edit.path.every((part, i) => i >= path.length || path[i] === part));
    const count = (all: readonly Problem[], code: string): number => all.filter((one) => one.code === code).length;
    if (now.some(({ code }) => count(now, code) > count(this.#before.problems, code))) return false;
    return this.#before.problems.every((problem) => names.has(nameOf(problem)) || isTouched(problem));
  }
}

function readable(text: string): Syntax {
  const limit = limitProblem(text);
  if (limit) throw new RecipeEditError(`The recipe cannot be edited: ${limit.message}`);
  let syntax: Syntax;
  try {
    syntax = readSyntax(text);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RecipeEditError("The recipe cannot be edited: its values are nested too deeply.");
  }
  if (syntax.syntaxErrors.length > 0)
    throw new RecipeEditError("The recipe cannot be edited while it is not valid YAML. Fix the syntax errors first.");
  if (syntax.ast && syntax.ast.kind !== "mapping")
    throw new RecipeEditError("The recipe cannot be edited: it is not a mapping of keys and values.");
  return syntax;
}

/** Whether a changed line reaches past the column at which the canonical layout breaks mappings. */
function lengthensLine(text: string, changes: readonly TextChange[]): boolean {
  const known = new Set(text.split("\n"));
  return applyChanges(text, changes)
    .split("\n")
    .some((line) => line.length > MAX_COLUMN && !known.has(line));
}

/** A value that now fits on one line, or no longer does, is laid out again, if the text was canonical. */
function keepCanonical(text: string, changes: TextChange[], kind: RecipeKind): TextChange[] {
  const edited = applyChanges(text, changes);
  const formatted = formatRecipe(edited, { kind });
  return formatted === edited || formatRecipe(text, { kind }) !== text ? changes : wholeChange(text, formatted);
}
