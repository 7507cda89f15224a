import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { type ProblemCode, problemKinds } from "../../../../extension/recipe/problems.ts";

const corpus = new URL("../../../corpus/", import.meta.url);
const read = (path: string) => readFileSync(new URL(path, corpus), "utf8");
const namesIn = (folder: string) => readdirSync(new URL(folder, corpus)).filter((name) => name.endsWith(".yaml"));

/** Codes that depend on other files or on size, and have tests of their own. */
const elsewhere: readonly ProblemCode[] = [
  "missing-profile",
  "too-large",
  "not-utf8",
  "missing-stock",
  "broken-stock",
  "not-a-stock",
  "same-file-name",
  "missing-scan",
  "scan-not-fetched",
];

describe("valid recipes", () => {
  test.each(namesIn("valid/"))("%s has no problem and is in canonical format", (name) => {
    const text = read(`valid/${name}`);
    expect(parseRecipe(text, { file: `rolls/${name}` }).problems).toEqual([]);
    expect(formatRecipe(text, { file: name })).toBe(text);
  });
});

function invalid(name: string): { text: string; expected: string[] } {
  const [text = "", ...marks] = read(`invalid/${name}`).replaceAll("%TAB%", "\t").split(/^#! /m);
  return { text, expected: marks.map((mark) => mark.trim()).toSorted() };
}

describe("invalid recipes", () => {
  test.each(namesIn("invalid/"))("%s has the problems it states, at exactly that text", (name) => {
    const { text, expected } = invalid(name);
    expect(expected.length).toBeGreaterThan(0);
    const { problems } = parseRecipe(text, { file: `rolls/${name}` });
    const found = problems.map(({ code, range }) => `${code} ${JSON.stringify(text.slice(...range))}`);
    expect(found.toSorted()).toEqual(expected);
  });

  test("every message is a sentence or more, and says what to do", () => {
    for (const name of namesIn("invalid/")) {
      for (const { message } of parseRecipe(invalid(name).text, { file: `rolls/${name}` }).problems) {
        expect(message).toMatch(/^\S.*[.!?:\]})"0-9a-z]$/s);
        expect(message).not.toMatch(/undefined|\[object|NaN/);
        expect(message.length).toBeGreaterThan(30);
      }
    }
  });

  test("every code has a recipe that shows it", () => {
    const shown = new Set(
      namesIn("invalid/").flatMap((name) => invalid(name).expected.map((mark) => mark.split(" ")[0]!)),
    );
    expect(
      (Object.keys(problemKinds) as ProblemCode[]).filter((code) => !shown.has(code) && !elsewhere.includes(code)),
    ).toEqual([]);
  });
});

test("docs/diagnostics.md has an entry with cause, fix and severity for each code, in the same order, and no other", () => {
  const text = readFileSync(new URL("../../docs/diagnostics.md", corpus), "utf8");
  const entries = text.split(/^### /m).slice(1);
  expect(entries.map((entry) => entry.split("\n")[0])).toEqual(Object.keys(problemKinds));
  for (const entry of entries) {
    const [code = ""] = entry.split("\n");
    const { severity } = problemKinds[code as ProblemCode];
    expect(entry).toMatch(new RegExp(`^${severity[0]!.toUpperCase()}${severity.slice(1)}\\. \\*\\*Cause:\\*\\* `, "m"));
    expect(entry).toContain("**Fix:** ");
  }
});
