/** The text of a stock's recipe, made from a roll. */
import { stockFromRoll } from "../../../recipe/edit/stock-from-roll.ts";
import { parseRecipe, type RecipeDocument } from "../../../recipe/problems/document.ts";
import type { ResolvedRoll } from "../../../recipe/resolve/resolve.ts";
import type { Workspace } from "../../files/workspace.ts";

/** The text of a stock with what applies to a roll; comments and notes of the roll's own stock are kept. */
export async function stockText(
  document: RecipeDocument,
  roll: ResolvedRoll,
  workspace: Workspace,
  title?: string,
): Promise<string> {
  const old = roll.stock && (await workspace.read(roll.stock.file));
  const stock = old === undefined ? undefined : parseRecipe(old, { file: roll.stock!.file, kind: "stock" });
  return stockFromRoll(document, roll, { title, stock });
}
