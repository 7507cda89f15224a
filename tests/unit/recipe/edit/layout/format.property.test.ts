import fc from "../../../../properties.ts";
import { expect, test } from "vitest";
import { parseRecipe } from "../../../../../extension/recipe/problems/document.ts";
import { formatRecipe } from "../../../../../extension/recipe/edit/layout/format.ts";
import { written } from "../../arbitrary.ts";

const parse = (text: string) => parseRecipe(text, { file: "rolls/a.roll.yaml" });
const comments = (text: string) => (text.match(/# (?:note|trail) \d+/g) ?? []).toSorted();

test("a formatted recipe says the same, keeps every comment and line ending, and formatting again changes nothing", () => {
  fc.assert(
    fc.property(written, ({ value, text }) => {
      expect(parse(text).problems.filter((p) => p.severity === "error")).toEqual([]);
      expect(parse(text).value).toEqual(value);
      const formatted = formatRecipe(text);
      expect(parse(formatted).value).toEqual(value);
      expect(comments(formatted)).toEqual(comments(text));
      expect(/(?<!\r)\n/.test(formatted)).toBe(!text.includes("\r\n"));
      expect(formatRecipe(formatted)).toBe(formatted);
    }),
    { numRuns: 100, interruptAfterTimeLimit: 20_000 },
  );
});
