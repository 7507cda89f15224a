import { describe, expect, it } from "vitest";
import { contextAt } from "../../../../../extension/recipe/language/completion/context.ts";
import { marked } from "../memory.ts";

const at = (source: string) => {
  const { text, offset } = marked(source);
  const found = contextAt(text, offset);
  return (
    found && {
      what: found.what,
      path: found.path.join("."),
      prefix: found.prefix,
      word: text.slice(...found.word),
      present: found.present,
    }
  );
};

describe("what is being written at the caret", () => {
  it.each([
    ["an empty text", "|", "key", ""],
    ["the start of a key", "ver|", "key", ""],
    ["a key in the middle", "version: 1\npos|\nframes:\n", "key", ""],
    ["a value", "version: 1\nfilm: sl|", "value", "film"],
    ["a value right behind the colon", "film:|", "value", "film"],
    ["an empty line in a section", "positive:\n  |\n", "key", "positive"],
    ["an empty line at the margin after a section", "positive:\n  toe: 0.3\n|", "key", ""],
    ["a line in a frame", 'frames:\n  "01":\n    scan: a.dng\n    |', "key", "frames.01"],
    [
      "an empty line between a frame's lines",
      'frames:\n  "01":\n    scan: a.dng\n    |\n    turn: 90\n',
      "key",
      "frames.01",
    ],
    ["an empty line at the frames' column", 'frames:\n  "01":\n    scan: a.dng\n  |', "key", "frames"],
    ["a mapping in brackets", "exposed: { camera: x, | }", "key", "exposed"],
    ["an open mapping in brackets", "exposed: { camera: x, le|", "key", "exposed"],
    ["a value in brackets", "exposed: { camera: x, date: |", "value", "exposed.date"],
    ["a list in brackets", "negative:\n  gamma: [0.5, |", "value", "negative.gamma.1"],
    [
      "a list within a mapping in brackets",
      "negative:\n  base: { density: [0.3, 0.6, |] }",
      "value",
      "negative.base.density.2",
    ],
    ["an item with brackets", "output:\n  - { name: web, type: j|", "value", "output.0.type"],
    ["the second item", "output:\n  - { name: a, type: tiff }\n  - { |", "key", "output.1"],
    ["an item over several lines", "output:\n  - name: a\n    |", "key", "output.0"],
    ["items at the margin of their key", "output:\n- name: a\n  |", "key", "output.0"],
    ["the key of an item", "output:\n  - na|", "key", "output.0"],
    [
      "brackets over several lines",
      "negative:\n  unmix: [[1, 0, 0],\n    [0, 1, 0],\n    [0, |",
      "value",
      "negative.unmix.2.1",
    ],
    ["after a text over several lines", "note: ¦\n  one: two\n  three\n|", "key", ""],
    [
      "after brackets that were left open",
      'frames:\n  "01":\n    area: { left: 0.1\n    tu|\n  "02":\n    scan: b.dng',
      "key",
      "frames.01",
    ],
    ["a scan of several", 'frames:\n  "01":\n    scans: [a.dng, |', "value", "frames.01.scans.1"],
    [
      "a scan of several, one a line",
      'frames:\n  "01":\n    scans:\n      - a.dng\n      - b.|',
      "value",
      "frames.01.scans.1",
    ],
    ["a value in quotes", 'format: "13|"', "value", "format"],
    ["behind a comment line", "film: slide\n# a remark { [\n|", "key", ""],
  ] as const)("knows %s", (_, source, what, path) => {
    expect(at(source)).toMatchObject({ what, path });
  });

  it.each([
    ["a comment", "# film|"],
    ["a comment behind a value", "film: slide # |"],
    ["a text over several lines", "note: ¦\n  some te|xt\n"],
    ["below a value", "film: slide\n  |"],
    ["a comment inside brackets", "light: { # bl|\n"],
  ])("proposes nothing in %s", (_, source) => {
    expect(at(source)).toBeUndefined();
  });

  it("finds the keys that are there, above and below", () => {
    expect(at('version: 1\n|\ntitle: x\nframes:\n  "01": {}\n')?.present).toEqual(["version", "title", "frames"]);
    expect(at("exposed: { camera: x, |, lens: y }")?.present).toEqual(["camera", "lens"]);
  });

  it("replaces the word at the caret, quotes and the rest behind it included", () => {
    expect(at('format: "1|35"')?.word).toBe('"135"');
    expect(at("film: sl|ide # remark")?.word).toBe("slide");
    expect(at("posi|tive:\n  toe: 1")?.word).toBe("positive");
    expect(at("exposed: { cam|era: x }")?.word).toBe("camera");
  });

  it("does not stumble over keys with blanks, dashes and colons in quotes", () => {
    expect(at('fingerprints:\n  "a: b.dng":\n    size: |')).toMatchObject({
      what: "value",
      path: "fingerprints.a: b.dng.size",
    });
  });
});
