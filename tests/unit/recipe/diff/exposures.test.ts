import { describe, expect, test } from "vitest";
import { editsToSide } from "../../../../extension/recipe/diff/edits-to-side.ts";
import { diffRecipes, type RecipeState } from "../../../../extension/recipe/diff/diff.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";

function side(frame: string): RecipeState {
  const roll = parseRecipe(`version: 2\nscans: scans\nframes:\n  "07": ${frame}\n`, { file: "harbour.roll.yaml" });
  return { roll, resolved: resolveRoll(roll) };
}
const words = (before: string, after: string): string[] =>
  diffRecipes(side(before), side(after)).changes.map(({ text }) => text);

const [ONE, THREE] = ["{ scan: A.dng }", "{ exposures: [A.dng, B.dng, C.dng] }"];

describe("exposures in words", () => {
  test("one scan becomes three, and back", () => {
    expect(words(ONE, THREE)).toEqual(["exposures: three scans instead of one (A.dng, B.dng, C.dng)"]);
    expect(words(THREE, ONE)).toEqual(["exposures: one scan instead of three (A.dng)"]);
  });

  test("one more, another one, and another order", () => {
    expect(words("{ exposures: [A.dng, B.dng] }", THREE)).toEqual([
      "exposures: three scans instead of two (A.dng, B.dng, C.dng)",
    ]);
    expect(words(THREE, "{ exposures: [A.dng, B.dng, D.dng] }")).toEqual([
      "exposures: A.dng, B.dng, D.dng instead of A.dng, B.dng, C.dng",
    ]);
    expect(diffRecipes(side(THREE), side("{ exposures: [B.dng, A.dng, C.dng] }")).frames[0]!.looksDifferent).toBe(true);
  });

  test("three-colour light: from one scan and back, another scan, from exposures", () => {
    const channels = "{ channels: { red: R.dng, green: G.dng, blue: B.dng } }";
    expect(words("{ scan: G.dng }", channels)).toEqual([
      "three-colour light: three scans instead of one (R.dng, G.dng, B.dng)",
    ]);
    expect(words(channels, "{ scan: G.dng }")).toEqual(["three-colour light: one scan instead of three (G.dng)"]);
    expect(words(channels, channels.replace("B.dng", "B2.dng"))).toEqual([
      "three-colour light: R.dng, G.dng, B2.dng instead of R.dng, G.dng, B.dng",
    ]);
    expect(words("{ exposures: [G.dng, R.dng, B.dng] }", channels)).toEqual([
      "three-colour light: three lights instead of three exposures (R.dng, G.dng, B.dng)",
    ]);
    const { frames } = diffRecipes(side("{ exposures: [G.dng, R.dng, B.dng] }"), side(channels));
    expect(frames.map(({ looksDifferent }) => looksDifferent)).toEqual([true]);
  });

  test("three blanks instead of one", () => {
    const one = "{ skip: true, light: { blank: L.dng } }";
    const three = "{ skip: true, light: { blank: { red: R.dng, green: L.dng, blue: B.dng } } }";
    expect(words(one, three)).toEqual(["blank L.dng → R.dng, L.dng, B.dng"]);
  });

  test("another blank of three makes another picture", () => {
    const colours = "channels: { red: R1.dng, green: G1.dng, blue: B1.dng }";
    const frame = (red: string) => side(`{ ${colours}, light: { blank: { red: ${red}, green: G.dng, blue: B.dng } } }`);
    const { changes, frames } = diffRecipes(frame("R.dng"), frame("R2.dng"));
    expect(changes.map(({ text }) => text)).toEqual(["blank R.dng, G.dng, B.dng → R2.dng, G.dng, B.dng"]);
    expect(frames.map(({ looksDifferent }) => looksDifferent)).toEqual([true]);
  });

  test("other changes of the frame stand beside it", () => {
    expect(words(ONE, "{ exposures: [A.dng, B.dng], positive: { exposure: 0.3 } }")).toHaveLength(2);
  });

  test("scans that are joined, more of them, and no longer", () => {
    const six = "{ scans: [A.dng, B.dng, C.dng, D.dng, E.dng, F.dng] }";
    const two = "{ scans: [A.dng, B.dng] }";
    expect(words(ONE, six)).toEqual([
      "joined from six scans instead of one (A.dng, B.dng, C.dng, D.dng, E.dng, F.dng)",
    ]);
    expect(words(two, six)).toEqual([
      "joined from six scans instead of two (A.dng, B.dng, C.dng, D.dng, E.dng, F.dng)",
    ]);
    expect(words(two, "{ scans: [A.dng, C.dng] }")).toEqual(["joined from A.dng, C.dng instead of A.dng, B.dng"]);
    expect(words(two, ONE)).toEqual(["no longer joined: one scan instead of two (A.dng)"]);
  });

  test("places of joined scans with their exposures", () => {
    const [text] = words(
      "{ scans: [A.dng, B.dng], join: [[0, 0, 0], [9, 0, 0]] }",
      "{ scans: [A.dng, B.dng], join: [[0, 0, 0, 0], [9, 0, 0.1, [0.1, 0.2, 0.3]]] }",
    );
    expect(text).toContain("0.10 0.20 0.30 EV");
  });

  test("the same scans joined or merged are two pictures", () => {
    const diff = diffRecipes(
      side("{ scans: [A.dng, B.dng], join: [[0, 0, 0], [9, 0, 0]] }"),
      side("{ exposures: [A.dng, B.dng] }"),
    );
    expect(diff.frames.map(({ looksDifferent }) => looksDifferent)).toEqual([true]);
  });

  test("taking the change back restores the scan and removes the list", () => {
    const { changes } = diffRecipes(side(ONE), side(THREE));
    const edits = changes.flatMap(({ sources }) => sources.map(({ path, before }) => [path.join("."), before]));
    expect(edits).toEqual([
      ["frames.07.scan", "A.dng"],
      ["frames.07.exposures", undefined],
    ]);
    expect(editsToSide).toBeTypeOf("function");
  });
});
