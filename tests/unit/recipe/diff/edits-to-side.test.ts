import { describe, expect, test } from "vitest";
import { diffRecipes, type RecipeState } from "../../../../extension/recipe/diff/diff.ts";
import { withEdits } from "../../../../extension/recipe/diff/stated.ts";
import { editsToSide } from "../../../../extension/recipe/diff/edits-to-side.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";

const STOCK = "version: 1\npositive: { contrast: 1.5 }\n";
const BEFORE = `version: 1
stock: a.stock.yaml
output:
  - { name: web, type: jpeg, quality: 90, long: 1000 }
frames:
  "01": { scan: A.dng, spots: [[0.1, 0.1, 0.01], [0.5, 0.5, 0.02]] }
  "02": { scan: B.dng, positive: { exposure: 0.2 } }
  "03": { scan: C.dng }
`;
const AFTER = `version: 1
stock: a.stock.yaml
positive: { exposure: 0.4 }   # a third more
output:
  - { name: archive, type: tiff }
  - { name: web, type: jpeg, quality: 80, long: 2000 }
frames:
  "01": { scan: A.dng, spots: [[0.5, 0.5, 0.03], [0.7, 0.2, 0.01]], turn: 90 }
  "02": { scan: B.dng }
  "04": { scan: D.dng }
`;
const HARDER = "version: 1\npositive: { contrast: 1.7 }\n";

function side(roll: string, stock: string): RecipeState {
  const [document, own] = [parseRecipe(roll, { file: "r.roll.yaml" }), parseRecipe(stock, { file: "a.stock.yaml" })];
  return { roll: document, stock: own, resolved: resolveRoll(document, own) };
}
const differences = (a: RecipeState, b: RecipeState): string[] =>
  diffRecipes(a, b).changes.map((change) => `${change.frame ?? "roll"} ${change.name} ${change.item ?? ""}`);

/** Both texts after one change was made to say what it said on one side. */
function taken(now: RecipeState, at: number, which: "before" | "after"): RecipeState {
  const change = diffRecipes(side(BEFORE, STOCK), side(AFTER, HARDER)).changes[at];
  if (!change) throw new Error("There is no such change.");
  const texts = new Map([now.roll, now.stock].map((document) => [document!.file, document!.text]));
  for (const { file, edits } of editsToSide(change, which)) {
    const text = texts.get(file)!;
    texts.set(
      file,
      withEdits(text, edits(parseRecipe(text, { file }).value), file.includes("stock") ? "stock" : "roll"),
    );
  }
  return side(texts.get("r.roll.yaml")!, texts.get("a.stock.yaml")!);
}

const [before, after] = [side(BEFORE, STOCK), side(AFTER, HARDER)];
const all = differences(before, after);

describe("each change by itself", () => {
  test.each(all.map((name, at) => [name, at] as const))("%s is reverted alone, and accepted again", (name, at) => {
    const back = taken(after, at, "before");
    const left = differences(before, back);
    expect(left).not.toContain(name);
    expect(left).toEqual(all.filter((one) => one !== name));
    expect(differences(taken(back, at, "after"), after)).toEqual([]);
  });
});

test("a comment beside another value stays", () => {
  const turned = diffRecipes(before, after).changes.findIndex((change) => change.name === "turned");
  expect(taken(after, turned, "before").roll.text).toContain("positive: { exposure: 0.4 }   # a third more");
});
