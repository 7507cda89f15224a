import { applyEdits, type Edit, RecipeEditError, type ValueEdit } from "./model.ts";
import { Emitter } from "./emit.ts";
import { renameChange } from "./rename.ts";
import { applyChanges, type TextChange, tidyChanges, wholeChange } from "./changes.ts";
import { formatRecipe } from "./format.ts";
import { kindOfFile, type RecipeKind } from "../path.ts";
import { refusal } from "../yaml/refuse.ts";
import { readSyntax, type Syntax } from "../yaml/syntax.ts";
import { readValues } from "../yaml/values.ts";

export { applyChanges, type Edit, RecipeEditError, type TextChange, type ValueEdit };

/**
 * The smallest change of the text that makes it say something else. An edit sets the value at a path (creating what is
 * missing on the way, in canonical order), removes it (`value: undefined`; a mapping left empty goes too), or renames
 * a key. Comments, order, quotes and line endings stay. A text in canonical format stays in canonical format.
 * Changes come in order of place and do not overlap; offsets are of `text`.
 * Throws RecipeEditError where the text is not YAML, or where the path leads through an alias.
 */
export function editRecipe(
  text: string,
  edits: readonly Edit[],
  options: { readonly file?: string; readonly kind?: RecipeKind } = {},
): TextChange[] {
  const kind = options.kind ?? kindOfFile(options.file ?? "");
  const { tree } = readable(text);
  const before = tree && (readValues(tree).value ?? {});
  const after = applyEdits(
    kind,
    before ?? {},
    edits.filter((edit) => !("rename" in edit)),
  );
  const emitter = new Emitter(kind, text);
  emitter.root(tree, before, after);
  for (const edit of edits) if ("rename" in edit) emitter.changes.push(renameChange(kind, text, tree, edit));
  const changes = tidyChanges(text, emitter.changes);
  return emitter.mayDisturb && changes.length > 0 ? keepCanonical(text, changes, kind) : changes;
}

function readable(text: string): Syntax {
  const refused = refusal(text);
  if (refused) throw new RecipeEditError(`The recipe cannot be edited: ${refused.message}`);
  let syntax: Syntax;
  try {
    syntax = readSyntax(text);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RecipeEditError("The recipe cannot be edited: its values are nested too deeply.");
  }
  if (syntax.faults.length > 0)
    throw new RecipeEditError("The recipe cannot be edited while it is not valid YAML. Mend the syntax errors first.");
  if (syntax.tree && syntax.tree.kind !== "mapping")
    throw new RecipeEditError("The recipe cannot be edited: it is not a mapping of keys and values.");
  return syntax;
}

/** Where a comment that kept a value on several lines went away, the value returns to one line, if the text was canonical. */
function keepCanonical(text: string, changes: TextChange[], kind: RecipeKind): TextChange[] {
  const edited = applyChanges(text, changes);
  const formatted = formatRecipe(edited, { kind });
  return formatted === edited || formatRecipe(text, { kind }) !== text ? changes : wholeChange(text, formatted);
}
