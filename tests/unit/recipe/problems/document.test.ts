import { describe, expect, test } from "vitest";
import { describeKey } from "../../../../extension/recipe/schema/describe.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { distance, nearest } from "../../../../extension/recipe/problems/nearest.ts";
import { pathText } from "../../../../extension/recipe/path.ts";

const text = `version: 1
positive: { filtration: { cyan: 1, magenta: 4 } }   # c
frames:
  "01":
    scan: a.dng
    positive:
      exposure: 0.5

    turn: 90
  "02": { scan: b.dng }
output:
  - { name: web, type: jpeg }
`;
const document = parseRecipe(text, { file: "h.roll.yaml" });
const at = (needle: string, plus = 0) => text.indexOf(needle) + plus;

describe("places in the text", () => {
  test("ranges of keys, values and both", () => {
    const shown = (path: (string | number)[], part?: "key" | "value" | "both") => {
      const range = document.rangeOf(path, part);
      return range && text.slice(...range);
    };
    expect(document.problems).toEqual([]);
    expect(shown(["positive", "filtration", "magenta"])).toBe("4");
    expect(shown(["positive", "filtration", "magenta"], "key")).toBe("magenta");
    expect(shown(["frames", "01", "positive"], "both")).toBe("positive:\n      exposure: 0.5");
    expect(shown(["frames", "02"], "key")).toBe('"02"');
    expect(shown(["output", 0])).toBe("{ name: web, type: jpeg }");
    expect(shown(["output", 1])).toBeUndefined();
    expect(shown(["frames", "03"])).toBeUndefined();
    expect(shown([])).toBe(text.trimEnd());
  });

  test("lines and columns count from 1", () => {
    expect(document.positionOf(0)).toEqual({ line: 1, column: 1 });
    expect(document.positionOf(at("scan: a"))).toEqual({ line: 5, column: 5 });
    expect(document.positionOf(text.length)).toEqual({ line: 13, column: 1 });
  });

  test.each([
    [at("magenta", 3), "positive.filtration.magenta", "key"],
    [at("magenta: 4", 9), "positive.filtration.magenta", "value"],
    [at("a.dng", 2), 'frames."01".scan', "value"],
    [at("0.5", 1), 'frames."01".positive.exposure', "value"],
    [at("jpeg", 2), "output[0].type", "value"],
    [at('"02"', 1), 'frames."02"', "key"],
    [at("version"), "version", "key"],
    [at("\n    turn"), 'frames."01"', "gap"],
    [text.length, "", "gap"],
  ])("offset %i is at %s (%s)", (offset, path, part) => {
    const place = document.pathAt(offset);
    expect([pathText(place.path), place.part]).toEqual([path, part]);
  });
});

describe("what was probably meant", () => {
  test("distance counts a swap of neighbours once", () => {
    expect([
      distance("", "abc"),
      distance("contrast", "contrast"),
      distance("contrats", "contrast"),
      distance("kitten", "sitting"),
    ]).toEqual([3, 0, 1, 3]);
  });

  test.each([
    ["titel", "title"],
    ["Exposure", "exposure"],
    ["expo", "exposure"],
    ["magneta", "magenta"],
    ["frame", "frames"],
    ["xyz", undefined],
    ["q", undefined],
    ["", undefined],
  ])("%s: %s", (word, wanted) => {
    expect(nearest(word, ["title", "exposure", "magenta", "frames", "format", "film"])).toBe(wanted);
  });
});

describe("problems carry what a quick fix needs", () => {
  const data = (recipe: string) =>
    parseRecipe(recipe, { file: "h.roll.yaml" }).problems.map(({ code, data: fix }) => ({ code, ...fix }));

  test.each([
    ["version: 1\ntitel: x", { code: "unknown-key", key: "titel", suggestion: "title" }],
    ["version: 1\npositive: { contrast: 7 }", { code: "out-of-range", minimum: 0.2, maximum: 5, nearest: 5 }],
    ["version: 1\npositive: { black: -3 }", { code: "out-of-range", minimum: 0, maximum: 30, nearest: 0 }],
    ["version: 1\nfilm: slides", { code: "not-one-of", suggestion: "slide" }],
    ["title: x", { code: "missing-key", key: "version" }],
    ["version: 1\nformat: 645", { code: "wrong-type", quoted: '"645"' }],
    ["version: 1\ntitle: 1984", { code: "wrong-type", quoted: '"1984"' }],
    ["version: 1\npositive: { toe: '0,5' }", { code: "wrong-type", nearest: 0.5 }],
    ["version: 1\nframes: { '1': { scan: a, mirror: no } }", { code: "wrong-type", suggestion: "false" }],
    ["version: 1\nframes: { 01: { scan: a } }", { code: "unquoted-frame-id", quoted: '"01"' }],
    ["version: 1\nframes: { 12a: { scan: a } }", { code: "bad-frame-id", suggestion: "12A" }],
    [
      "version: 1\nframes: { '1': { scan: a, area: { left: 0.4, width: 0.7 } } }",
      { code: "area-outside", nearest: 0.6 },
    ],
  ])("%j", (recipe, wanted) => {
    expect(data(recipe)).toEqual([expect.objectContaining(wanted)]);
  });
});

test("the kind follows the file's name, unless it is stated", () => {
  const iso = "version: 1\niso: 400\n";
  expect(parseRecipe(iso, { file: "n.stock.yaml" }).problems).toEqual([]);
  expect(parseRecipe(iso, { file: "n.roll.yaml" }).problems.map((p) => p.code)).toEqual(["unknown-key"]);
  expect(parseRecipe(iso, { file: "n.yaml", kind: "stock" }).problems).toEqual([]);
});

test("the key table knows every path with unit, range and order", () => {
  expect(describeKey("roll", ["frames", "12A", "positive", "filtration", "magenta"])).toMatchObject({
    unit: "CC (0.01 density)",
    minimum: -200,
    maximum: 200,
    default: 0,
  });
  expect(describeKey("roll", ["light", "spots", 3, 2])).toMatchObject({ minimum: 0.00001, maximum: 0.1 });
  expect(describeKey("stock", ["light"])).toBeUndefined();
  expect(describeKey("roll", [])?.keys?.[0]).toBe("version");
});

describe("decimal commas", () => {
  const messages = (text: string) =>
    parseRecipe(`version: 1\n${text}`, { file: "a.roll.yaml" }).problems.map(
      ({ code, message }) => `${code}: ${message}`,
    );

  test.each([
    ["positive:\n  exposure: -0,2\n", "wrong-type", "Write -0.2."],
    ["positive: { exposure: -0,2, contrast: 1.5 }\n", "wrong-type", "Write -0.2."],
    ["positive: { exposure: 1,25 }\n", "wrong-type", "Write 1.25."],
    ["light: { flare: 0,004 }\n", "wrong-type", "Write 0.004."],
    ["negative: { gamma: [0,55, 0,60, 0,64] }\n", "wrong-type", "Write [0.55, 0.60, 0.64]."],
  ])("%j", (text, code, fix) => {
    expect(messages(text).find((line) => line.startsWith(code) && line.endsWith(fix))).toBeDefined();
    expect(messages(text).filter((line) => line.startsWith("bad-key"))).toEqual([]);
  });

  test("a list or mapping of whole numbers is none", () => {
    expect(messages("positive: { toe: 1, 2 }\n").join()).not.toContain("decimal");
    expect(messages("negative: { gamma: [1, 2, 1, 2, 1, 2] }\n").join()).not.toContain("decimal");
  });
});
