import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { problemCodes } from "../../../extension/recipe/language/diagnostics.ts";
import { fixesOf } from "../../../extension/recipe/language/fixes.ts";
import { english } from "../../../extension/recipe/language/types.ts";
import { problemKinds } from "../../../extension/recipe/problems.ts";
import { open } from "../recipe/language/memory.ts";
import { files } from "../recipe/language/recipes.ts";

const page = readFileSync(resolve(import.meta.dirname, "../../../docs/diagnostics.md"), "utf8");
const around = {
  ...files,
  "bad.stock.yaml": "version: 3\n",
  "other.roll.yaml": "version: 1\n",
  "profiles/matte.icc": "",
};

interface Entry {
  readonly code: string;
  readonly text: string;
  readonly example?: string;
}

const entries: Entry[] = page
  .split(/^### /m)
  .slice(1)
  .map((part) => {
    const code = /^\S+/.exec(part)![0];
    return { code, text: part, example: /```yaml\n([\s\S]*?)```/.exec(part)?.[1] };
  });

describe("the page of all problems", () => {
  it("has one entry for each code, in their order, and a link to each", () => {
    expect(entries.map(({ code }) => code)).toEqual(problemCodes);
  });

  it.each(entries.filter(({ example }) => example !== undefined))(
    "shows what causes $code",
    async ({ code, text, example }) => {
      const { reading } = await open(example!.replaceAll("|", "¦"), around);
      const found = reading.problems.find((one) => one.code === code)!;
      expect(reading.problems.map((one) => one.code)).toContain(code);
      const { severity } = problemKinds[found.code];
      expect(text).toContain(`\n\n${severity[0]!.toUpperCase()}${severity.slice(1)}. `);
    },
  );

  it.each(entries.filter(({ example }) => example !== undefined))(
    "says of $code whether its correction is safe",
    async ({ code, text, example }) => {
      const { reading } = await open(example!.replaceAll("|", "¦"), around);
      const found = reading.problems.find((one) => one.code === code)!;
      const made = fixesOf(reading.document, found, english);
      expect(text.includes("**Correction")).toBe(made.length > 0);
      expect(text.includes("**Correction (safe):**")).toBe(made.some(({ preferred }) => preferred));
      for (const { title } of made.slice(0, 3)) expect(text).toContain(title);
    },
  );
});
