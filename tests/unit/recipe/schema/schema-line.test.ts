import { describe, expect, test } from "vitest";
import { schemaLine } from "../../../../extension/recipe/schema/schema-line.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";

describe("the line that names a schema", () => {
  test.each([
    ["/w/a.roll.yaml", "/w/roll.schema.json", "./roll.schema.json"],
    ["/w/rolls/a.roll.yaml", "/w/schemas/roll.schema.json", "../schemas/roll.schema.json"],
    ["/w/rolls/2026/a.roll.yaml", "/w/roll.schema.json", "../../roll.schema.json"],
    ["/w/a.roll.yaml", "/w/schemas/roll.schema.json", "./schemas/roll.schema.json"],
    ["a.roll.yaml", "schemas/roll.schema.json", "./schemas/roll.schema.json"],
  ])("leads from %s to %s", (recipe, schema, path) => {
    expect(schemaLine(recipe, schema)).toBe(`# yaml-language-server: $schema=${path}\n`);
  });

  test("is no problem of a recipe, and stays when it is formatted", () => {
    const text = `${schemaLine("/w/a.roll.yaml", "/w/s.json")}version: 1\n`;
    expect(parseRecipe(text, { file: "a.roll.yaml" }).problems).toEqual([]);
    expect(formatRecipe(text)).toBe(text);
  });
});
