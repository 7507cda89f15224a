/** Moves a value up to the roll or the stock without changing any frame's picture. */
import { applyChanges, editRecipe, RecipeEditError, type TextChange, type ValueEdit } from "../edit/edit.ts";
import { describeKey } from "../schema/describe.ts";
import { parseRecipe, type RecipeDocument } from "../problems/document.ts";
import { hasErrors } from "../problems.ts";
import { pathText, type RecipePath } from "../path.ts";
import { resolveRoll, type ResolvedRoll } from "../resolve/resolve.ts";
import type { Value } from "../yaml/values.ts";
import { fileEdits } from "./edits.ts";
import { statedLeaves } from "./hover.ts";
import { inheritedUnit, isCascading, isShared, placed } from "./levels.ts";
import type { DocumentCache, Reading } from "./document-cache.ts";
import { child } from "./scans.ts";
import type { FileEdits, Say } from "./types.ts";
import { sameValue } from "./values.ts";
import type { RecipeWorkspace } from "./workspace.ts";

export type MoveTarget = "roll" | "stock";

/** A value that can be moved up, and where to. */
export interface Movable {
  readonly target: MoveTarget;
  readonly path: RecipePath;
  /** The value's name, for the title. */
  readonly name: string;
}

/** A recipe as it is, and its edits so far. */
interface Sheet {
  readonly document: RecipeDocument;
  readonly stock: RecipeDocument | undefined;
  readonly edits: ValueEdit[];
}

/** Where the value at an offset could move to. Quick: whether it can is found out by `move`. */
export function movable(reading: Reading, offset: number): Movable[] {
  const { document, stock } = reading;
  const at = document.pathAt(offset);
  if (document.kind !== "roll" || !document.wellFormed || at.part === "gap" || at.path.length === 0) return [];
  const path = inheritedUnit(reading, at.path);
  const { frame, own } = placed(path);
  if (own.length === 0 || statedLeaves(document.value, path).length === 0) return [];
  const name = pathText(own);
  const toRoll: Movable[] = frame !== undefined && isShared(own) ? [{ target: "roll", path, name }] : [];
  const toStock: Movable[] =
    stock && isCascading(own) && describeKey("stock", own) ? [{ target: "stock", path, name }] : [];
  return [...toRoll, ...toStock];
}

/**
 * Moves a value up. What every other frame of this roll, and of every other roll with the same stock, resolves to stays
 * the same: those that would inherit another value than before state theirs. The result is checked, not hoped for.
 * @returns the edits, or a sentence that tells why it cannot be done
 */
export async function move(
  reading: Reading,
  { path, target }: Movable,
  documents: DocumentCache,
  workspace: RecipeWorkspace,
  t: Say,
): Promise<readonly FileEdits[] | { readonly problem: string }> {
  const { document, stock } = reading;
  if (target === "stock" && (!stock || hasErrors(stock.problems)))
    return { problem: t("The stock has errors. Fix them first.") };
  const others = target === "stock" && stock ? await rollsWith(stock, document, documents, workspace) : [];
  const broken = [document, ...others].find((one) => hasErrors(one.problems));
  if (broken) return { problem: t("{0} has errors. Fix them first.", nameIn(broken)) };

  const sheets = [document, ...others].map((one): Sheet => ({ document: one, stock, edits: [] }));
  const sheet = sheets[0]!;
  const stockEdits: ValueEdit[] = [];
  const prefix = placed(path).frame === undefined ? [] : path.slice(0, 2);
  for (const leaf of statedLeaves(document.value, path).map((one) => inheritedUnit(reading, one))) {
    const own = leaf.slice(prefix.length);
    const value = leaf.reduce<Value | undefined>(child, document.value);
    sheet.edits.push({ path: leaf, value: undefined });
    if (target === "roll") sheet.edits.push({ path: own, value });
    else {
      stockEdits.push({ path: own, value });
      // What the roll itself says would stand in the way.
      if (prefix.length > 0 && statedLeaves(document.value, own).length > 0)
        sheet.edits.push({ path: own, value: undefined });
    }
    for (const one of sheets) {
      const refused = keepOthers(one, own, value, one === sheet ? { prefix, target } : undefined, t);
      if (refused) return { problem: refused };
    }
  }
  return checked(sheets, stock, stockEdits, t);
}

/** Has the frames state what they would no longer inherit. `moved` tells of the roll that the value comes from. */
function keepOthers(
  { document, stock, edits }: Sheet,
  own: RecipePath,
  value: Value | undefined,
  moved: { readonly prefix: RecipePath; readonly target: MoveTarget } | undefined,
  t: Say,
): string | undefined {
  const before = resolveRoll(document, stock);
  const states = (prefix: RecipePath) => statedLeaves(document.value, [...prefix, ...own]).length > 0;
  const rollStates = states([]);
  const rollKeeps = rollStates && !moved;
  if (rollKeeps || (moved && moved.prefix.length === 0)) return undefined;
  const old = before.valueAt(undefined, own);
  if (sameValue(old, value)) return undefined;
  if (old === undefined)
    return t(
      "Other frames state no {0}, and no value could be written there that leaves them as they are.",
      pathText(own),
    );
  if (!moved) {
    // Another roll states once what it inherited from the stock so far.
    edits.push({ path: own, value: old });
    return undefined;
  }
  for (const { id } of before.frames) {
    const prefix = ["frames", id];
    if (id !== moved.prefix[1] && !states(prefix)) edits.push({ path: [...prefix, ...own], value: old });
  }
  return undefined;
}

/** Makes the edits and compares every frame's result. */
function checked(
  sheets: readonly Sheet[],
  stock: RecipeDocument | undefined,
  stockEdits: readonly ValueEdit[],
  t: Say,
): readonly FileEdits[] | { problem: string } {
  const out: FileEdits[] = [];
  try {
    const edited = (document: RecipeDocument, edits: readonly ValueEdit[]): RecipeDocument => {
      const changes: TextChange[] = editRecipe(document.text, edits, { kind: document.kind });
      if (changes.length > 0) out.push(fileEdits(document, changes));
      return parseRecipe(applyChanges(document.text, changes), { file: document.file, kind: document.kind });
    };
    const rolls = sheets.map((sheet) => ({ sheet, after: edited(sheet.document, sheet.edits) }));
    const stockAfter = stock && stockEdits.length > 0 ? edited(stock, stockEdits) : stock;
    for (const { sheet, after } of rolls)
      if (picture(resolveRoll(sheet.document, sheet.stock)) !== picture(resolveRoll(after, stockAfter)))
        return {
          problem: t(
            "Frames of {0} would change, even if their present values were stated there.",
            nameIn(sheet.document),
          ),
        };
  } catch (error) {
    if (error instanceof RecipeEditError) return { problem: error.message };
    throw error;
  }
  return out;
}

/** Everything that decides what the roll's pictures look like. */
function picture({ film, format, outputs, frames }: ResolvedRoll): string {
  return JSON.stringify([film, format, outputs, frames]);
}

/** The other rolls of the workspace that use a stock. */
async function rollsWith(
  stock: RecipeDocument,
  than: RecipeDocument,
  documents: DocumentCache,
  workspace: RecipeWorkspace,
): Promise<RecipeDocument[]> {
  const found: RecipeDocument[] = [];
  for (const file of await workspace.find("roll")) {
    if (file === than.file) continue;
    const roll = await documents.file(file);
    const named = child(roll?.value, "stock");
    if (roll && typeof named === "string" && documents.pathFrom(roll, named) === stock.file) found.push(roll);
  }
  return found;
}

const nameIn = ({ file }: RecipeDocument): string => file.slice(file.lastIndexOf("/") + 1);
