/** Brings the order that the other side gave the frames into the merged text. */
import { orderMoves } from "../diff/order.ts";
import { applyChanges, editRecipe, RecipeEditError } from "../edit/edit.ts";
import type { RecipeKind } from "../path.ts";
import { target } from "../yaml/ast.ts";
import { nodeAt } from "../yaml/positions.ts";
import { readSyntax } from "../yaml/syntax.ts";

/** The texts that are merged, and the names that frames of `base` were given since. */
export interface OrderSides {
  readonly base: string;
  readonly ours: string;
  readonly theirs: string;
  readonly given: ReadonlyMap<string, string>;
}

/**
 * The merged text with the frames that they moved where they moved them. A frame that both sides moved stays where we
 * have it, and so does one whose text cannot be moved as it stands.
 */
export function withTheirOrder(merged: string, { base, ours, theirs, given }: OrderSides, kind: RecipeKind): string {
  const named = (text: string): string[] => framesIn(text).map((id) => given.get(id) ?? id);
  const [was, mine, other] = [named(base), named(ours), named(theirs)];
  const now = framesIn(merged);
  const isCommon = (id: string): boolean => [was, mine, other, now].every((ids) => ids.includes(id));
  const [old, common] = [was.filter(isCommon), other.filter(isCommon)];
  const moves = orderMoves(old, common);
  const byUs = new Set(orderMoves(old, mine.filter(isCommon)).map(({ id }) => id));
  let text = merged;
  for (const { id, before } of moves) {
    if (byUs.has(id)) continue;
    // Behind the last of theirs, not behind what only we have.
    const last = common.at(common.indexOf(id) - 1);
    const next = before ?? framesIn(text).find((_, i, ids) => ids[i - 1] === last && common.length > 1) ?? null;
    try {
      text = applyChanges(text, editRecipe(text, [{ path: ["frames", id], before: next }], { kind }));
    } catch (error) {
      if (!(error instanceof RecipeEditError)) throw error;
    }
  }
  return text;
}

/** Ids of a text's frames in its order. */
function framesIn(text: string): string[] {
  const { ast } = readSyntax(text);
  const frames = ast && nodeAt(ast, ["frames"])?.value;
  const mapping = frames && target(frames);
  return mapping?.kind === "mapping" ? [...new Set(mapping.entries.map(({ name }) => name))] : [];
}
