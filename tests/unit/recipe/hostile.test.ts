import fc from "../../properties.ts";
import { describe, expect, test } from "vitest";
import { parseRecipe } from "../../../extension/recipe/problems/document.ts";
import { applyChanges, editRecipe, RecipeEditError } from "../../../extension/recipe/edit/edit.ts";
import { formatRecipe } from "../../../extension/recipe/edit/layout/format.ts";
import { resolveRoll } from "../../../extension/recipe/resolve/resolve.ts";
import { written } from "./arbitrary.ts";

const parse = (text: string) => parseRecipe(text, { file: "rolls/a.roll.yaml" });

/** Texts made to hurt, with the one code that answers each, and a bound in milliseconds that only a hang can pass. */
const hostile: readonly [name: string, text: string, code: string, bound: number][] = [
  ["ten megabytes", "a".repeat(10_000_000), "too-large", 100],
  ["ten megabytes of keys", "a: 1\n".repeat(2_000_000), "too-large", 100],
  ["open brackets", "[".repeat(1_900_000), "too-deep", 1000],
  ["open braces", "{a: ".repeat(400_000), "too-deep", 1000],
  ["dashes in a row", "- ".repeat(900_000), "too-deep", 1000],
  ["question marks in a row", "? ".repeat(900_000), "too-deep", 1000],
  ["the same key again and again", "a: 1\n".repeat(20_000), "duplicate-key", 10_000],
  ["ten thousand keys", Array.from({ length: 10_000 }, (_, i) => `k${i}: 1`).join("\n"), "missing-key", 10_000],
  [
    "forty thousand aliases of a list",
    `a: &a [${"x,".repeat(9)}]
b: [${"*a,".repeat(40_000)}]`,
    "too-many-aliases",
    30_000,
  ],
  [
    "aliases of aliases",
    `a0: &a0 [${"x,".repeat(9)}]\n${Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [${`*a${i},`.repeat(9)}]`).join("\n")}`,
    "too-many-aliases",
    10_000,
  ],
  ["an alias of itself", "a: &a { b: *a }", "bad-alias", 1000],
  ["quotes", '"'.repeat(20_001), "yaml-syntax", 10_000],
  ["tags", "!a ".repeat(20_000), "unknown-tag", 10_000],
  ["document marks", "---\n".repeat(100_000), "several-documents", 10_000],
  ["blanks", " ".repeat(1_000_000), "not-a-mapping", 10_000],
  ["comments", "#\n".repeat(50_000), "not-a-mapping", 10_000],
  ["zero characters", "\0".repeat(1000), "not-a-mapping", 1000],
  ["a lone byte order mark", "\uFEFF", "not-a-mapping", 1000],
  ["conflict in a large file", `version: 1\nnote: ${"x".repeat(1_000_000)}\n<<<<<<< a\n`, "conflict-markers", 1000],
];

describe("hostile texts", () => {
  test.each(hostile)("%s: one clear answer, no hang", (_, text, code, bound) => {
    const start = performance.now();
    const { problems } = parse(text);
    expect(performance.now() - start).toBeLessThan(bound);
    expect(problems.map((p) => p.code)).toContain(code);
    expect(problems.length).toBeLessThanOrEqual(1000);
  });

  test("a forbidden key reaches no prototype", () => {
    const { value, problems } = parse(
      'version: 1\n__proto__: { polluted: 1 }\nframes: { "01": { __proto__: { polluted: 1 }, scan: a.dng } }\n',
    );
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
    expect(Object.keys(value as object)).toEqual(["version", "frames"]);
    expect(Object.getPrototypeOf(value)).toBe(Object.prototype);
    expect(problems.map((p) => p.code)).toEqual(["forbidden-key", "forbidden-key"]);
  });
});

/** Everything that a text goes through in an editor. Throws only what it says it throws. */
function useAll(text: string): void {
  const document = parse(text);
  for (const { range, message } of document.problems) {
    expect(range[0]).toBeGreaterThanOrEqual(0);
    expect(range[1]).toBeLessThanOrEqual(text.length);
    expect(range[1]).toBeGreaterThanOrEqual(range[0]);
    expect(message).not.toBe("");
  }
  for (const offset of [0, text.length >> 1, text.length]) {
    document.pathAt(offset);
    document.positionOf(offset);
  }
  const resolved = resolveRoll(document);
  for (const frame of resolved.frames) resolved.originOf(frame.id, ["positive", "contrast"]);
  const formatted = formatRecipe(text);
  expect(formatRecipe(formatted)).toBe(formatted);
  try {
    applyChanges(text, editRecipe(text, [{ path: ["positive", "exposure"], value: 0.5 }]));
  } catch (error) {
    if (!(error instanceof RecipeEditError)) throw error;
  }
}

test("no text whatever makes anything throw", () => {
  const yamlish = fc
    .array(
      fc.constantFrom(
        "version: 1",
        "\n",
        "  ",
        "frames:",
        "- ",
        "[",
        "]",
        "{",
        "}",
        ":",
        ",",
        "#",
        "&a",
        "*a",
        "!t",
        '"',
        "'",
        "|",
        ">",
        "?",
        "---",
        "\t",
        "01",
        "é",
        "\0",
        "\r\n",
        "%",
        "@",
      ),
      { maxLength: 30 },
    )
    .map((parts) => parts.join(""));
  fc.assert(fc.property(fc.oneof(yamlish, fc.string({ unit: "binary", maxLength: 60 })), useAll), {
    numRuns: 600,
    interruptAfterTimeLimit: 15_000,
  });
});

test("no mutilation of a good recipe makes anything throw", () => {
  const mutilated = fc
    .tuple(
      written,
      fc.nat(),
      fc.nat(40),
      fc.constantFrom(
        "",
        "\t",
        "[",
        "}",
        "'",
        '"',
        ": ",
        "- ",
        "# ",
        "\n",
        "&a ",
        "*a",
        "null",
        ".nan",
        "  ",
        "\0",
        "<<<<<<<",
      ),
    )
    .map(([{ text }, at, length, put]) => {
      const start = at % text.length;
      return text.slice(0, start) + put + text.slice(start + length);
    });
  fc.assert(fc.property(mutilated, useAll), { numRuns: 60, interruptAfterTimeLimit: 15_000 });
});
