import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { CURRENT_VERSION, migrateRecipe, type Step } from "../../../../extension/recipe/edit/versions.ts";

const file = "a.roll.yaml";

describe("versions of the recipe format", () => {
  test("today's recipes are current, and stay what they are to the letter", () => {
    const folder = new URL("../../../corpus/valid/", import.meta.url);
    const names = readdirSync(folder);
    expect(names.length).toBeGreaterThan(5);
    for (const name of names) {
      const text = readFileSync(new URL(name, folder), "utf8");
      expect(migrateRecipe(text, { file: name })).toBe(text);
      expect(parseRecipe(text, { file: name }).value).toMatchObject({ version: CURRENT_VERSION });
    }
  });

  test("an older one is led from version to version, and its comments, order and other values stay", () => {
    // Two steps that a format might once have had: a key that was renamed, and one whose unit changed.
    const steps = new Map<number, Step>([
      [
        -1,
        ({ name }) => [
          { path: ["title"], value: name ?? null },
          { path: ["name"], value: undefined },
        ],
      ],
      [
        0,
        ({ positive }) => [
          { path: ["positive", "exposure"], value: Number((positive as { exposure: number }).exposure) / 3 },
        ],
      ],
    ]);
    const old = `# kept\nversion: -1\nname: Pier # also kept\npositive:\n  contrast: 1.4\n  exposure: 3 # thirds\nframes:\n  "01": { scan: a.dng }\n`;
    const now = migrateRecipe(old, { file }, steps);
    expect(parseRecipe(now, { file }).problems.filter((p) => p.severity === "error")).toEqual([]);
    expect(parseRecipe(now, { file }).value).toMatchObject({
      version: 1,
      title: "Pier",
      positive: { contrast: 1.4, exposure: 1 },
    });
    expect(now).toContain("# kept\n");
    expect(now).toContain("# thirds");
    expect(migrateRecipe(now, { file }, steps)).toBe(now);
  });

  test("what has no step, or is no YAML, is left alone", () => {
    const steps = new Map<number, Step>([[0, () => []]]);
    for (const text of ["version: 7\n", "version: [\n", "version: one\n", "- 1\n", ""])
      expect(migrateRecipe(text, { file }, steps)).toBe(text);
  });
});
