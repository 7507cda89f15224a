import { describe, expect, test } from "vitest";
import { applyChanges, type Edit, editRecipe, RecipeEditError } from "../../../../extension/recipe/edit/edit.ts";

const edit = (text: string, ...edits: Edit[]) => applyChanges(text, editRecipe(text, edits));
const set = (path: Edit["path"], value: unknown): Edit => ({ path, value });
const remove = (path: Edit["path"]): Edit => ({ path, value: undefined });

describe("values", () => {
  test("a number keeps its comment and its line; only the number changes", () => {
    const text = "version: 1\npositive:\n  contrast: 1.50   # soft\n";
    expect(editRecipe(text, [set(["positive", "contrast"], 1.6)])).toEqual([{ start: 33, end: 37, text: "1.6" }]);
  });

  test("the same value again changes nothing, however it is written", () => {
    expect(editRecipe("version: 1\npositive: { contrast: 1.50 }\n", [set(["positive", "contrast"], 1.5)])).toEqual([]);
  });

  test("numbers are printed shortest", () => {
    const text = "version: 1\npositive: { exposure: 1 }\n";
    const printed = (value: number) => edit(text, set(["positive", "exposure"], value)).match(/exposure: (\S+)/)![1];
    expect([0.1 + 0.2, 1e-7, -1e-7, 1 / 3, 100, 1e21, -0, 6e-7, 0.30000001].map(printed)).toEqual([
      "0.3",
      "0",
      "0",
      "0.333333",
      "100",
      "1000000000000000000000",
      "0",
      "0.000001",
      "0.3",
    ]);
    expect(() => edit(text, set(["positive", "exposure"], Number.NaN))).toThrow(RecipeEditError);
  });

  test("quotes stay as they are, and come where they are needed", () => {
    const text = "version: 1\ntitle: 'a'\nnote: \"b\"\nstock: c.stock.yaml\n";
    expect(edit(text, set(["title"], "it's"), set(["note"], 'say "so"'), set(["stock"], "true"))).toBe(
      'version: 1\ntitle: \'it\'\'s\'\nnote: "say \\"so\\""\nstock: "true"\n',
    );
  });

  test("one number of a list changes alone", () => {
    const text = "version: 1\nnegative: { base: { density: [0.310, 0.60, 0.76] } }\n";
    expect(edit(text, set(["negative", "base", "density"], [0.31, 0.6, 0.8]))).toBe(text.replace("0.76", "0.8"));
  });

  test("line endings stay", () => {
    expect(
      edit(
        'version: 1\r\nframes:\r\n  "01":\r\n    scan: a.dng\r\n',
        set(["frames", "01", "turn"], 90),
        set(["frames", "02"], { scan: "b.dng" }),
      ),
    ).toBe('version: 1\r\nframes:\r\n  "01":\r\n    scan: a.dng\r\n    turn: 90\r\n  "02":\r\n    scan: b.dng\r\n');
  });

  test("a text of several lines becomes a block", () => {
    expect(edit("version: 1\nnote: x   # c\n", set(["note"], "hold\nthe sky\n"))).toBe(
      "version: 1\nnote: |   # c\n  hold\n  the sky\n",
    );
    expect(
      edit('version: 1\nframes: { "01": { scan: a, note: x } }\n', set(["frames", "01", "note"], "a\nb")),
    ).toContain('note: "a\\nb"');
  });
});

describe("new keys", () => {
  test("stand in canonical order, in blocks and in brackets", () => {
    const text = "version: 1\nexposed: { camera: x, push: 0 }\npositive:\n  exposure: 1\n  # late\n  saturation: 1\n";
    expect(
      edit(text, set(["exposed", "lens"], "50 mm"), set(["positive", "contrast"], 1.4), set(["title"], "Harbour")),
    ).toBe(
      "version: 1\ntitle: Harbour\nexposed: { camera: x, lens: 50 mm, push: 0 }\npositive:\n  exposure: 1\n  contrast: 1.4\n  # late\n  saturation: 1\n",
    );
  });

  test("bring their parents along, laid out as the canonical format has them", () => {
    const text = 'version: 1\nframes:\n  "01":\n    scan: a.dng\n';
    expect(
      edit(
        text,
        set(["positive", "filtration", "yellow"], 7),
        set(["frames", "01", "positive", "exposure"], 0.33),
        set(["frames", "01", "area", "left"], 0.1),
      ),
    ).toBe(
      'version: 1\npositive:\n  filtration: { yellow: 7 }\nframes:\n  "01":\n    scan: a.dng\n    area: { left: 0.1 }\n    positive: { exposure: 0.33 }\n',
    );
  });

  test("fill a parent that was left empty, before its comment", () => {
    expect(edit("version: 1\npositive:   # later\ntitle: x\n", set(["positive", "contrast"], 1.4))).toBe(
      "version: 1\npositive:   # later\n  contrast: 1.4\ntitle: x\n",
    );
    expect(edit("version: 1\nframes: {}\n", set(["frames", "01", "scan"], "a.dng"))).toBe(
      'version: 1\nframes:\n  "01":\n    scan: a.dng\n',
    );
  });

  test("frames come in the order of the film", () => {
    const text = 'version: 1\nframes:\n  "02":\n    scan: b\n  "12A":\n    scan: c\n';
    expect(
      [
        ...edit(
          text,
          set(["frames", "12", "scan"], "x"),
          set(["frames", "13", "scan"], "y"),
          set(["frames", "00", "scan"], "z"),
        ).matchAll(/"(\w+)":/g),
      ].map((m) => m[1]),
    ).toEqual(["00", "02", "12", "12A", "13"]);
  });

  test("frames that are all new, too, though JavaScript puts 10 before 01", () => {
    const ids = ["01", "02", "10", "12A", "101"];
    const text = edit("version: 1\n", ...ids.map((id) => set(["frames", id, "scan"], "a")));
    expect([...text.matchAll(/"(\w+)":/g)].map((m) => m[1])).toEqual(ids);
  });

  test("an empty file gets its first key, a file without a last line break keeps none", () => {
    expect(edit("", set(["version"], 1))).toBe("version: 1\n");
    expect(edit("# mine\n", set(["version"], 1))).toBe("# mine\nversion: 1\n");
    expect(edit("version: 1", set(["title"], "x"))).toBe("version: 1\ntitle: x");
  });

  test("rows stay on one line up to four, then take a line each, and come back", () => {
    const row = (x: number) => [x, 0.5, 0.01];
    const text = 'version: 1\nframes:\n  "01":\n    scan: a\n    spots: [[0.10, 0.5, 0.01]]\n';
    const four = edit(text, set(["frames", "01", "spots"], [0.1, 0.2, 0.3, 0.4].map(row)));
    expect(four).toContain("spots: [[0.10, 0.5, 0.01], [0.2, 0.5, 0.01], [0.3, 0.5, 0.01], [0.4, 0.5, 0.01]]\n");
    const five = edit(four, set(["frames", "01", "spots", 4], row(0.5)));
    expect(five).toContain("    spots:\n      - [0.1, 0.5, 0.01]\n");
    expect(edit(five, set(["frames", "01", "spots", 5], row(0.6)))).toBe(`${five}      - [0.6, 0.5, 0.01]\n`);
    expect(edit(five, remove(["frames", "01", "spots", 0]))).toContain("spots: [[0.2, 0.5, 0.01]");
  });
});

test("a hair stands among the spots on a line of its own", () => {
  const text = 'version: 1\nframes:\n  "01":\n    scan: a\n    spots: [[0.10, 0.5, 0.01]]\n';
  const hair = {
    line: [
      [0.1, 0.2],
      [0.15, 0.22],
    ],
    width: 0.002,
  };
  const two = edit(text, set(["frames", "01", "spots", 1], hair));
  expect(two).toContain("spots: [[0.10, 0.5, 0.01], { line: [[0.1, 0.2], [0.15, 0.22]], width: 0.002 }]\n");
  const five = edit(
    text,
    set(
      ["frames", "01", "spots"],
      [1, 2, 3, 4, 5].map(() => hair),
    ),
  );
  expect(five).toContain("    spots:\n      - { line: [[0.1, 0.2], [0.15, 0.22]], width: 0.002 }\n");
});

describe("removing", () => {
  test("takes the key's own line and the comment directly above", () => {
    const text = "version: 1\n\n# about the film\n\n# its title\ntitle: x  # end\nfilm: slide\n";
    expect(edit(text, remove(["title"]))).toBe("version: 1\n\n# about the film\n\nfilm: slide\n");
  });

  test("the last key takes its parents along, but never a frame", () => {
    const text = 'version: 1\npositive:\n  filtration: { cyan: 1 }\nframes:\n  "01":\n    positive: { toe: 0.1 }\n';
    expect(edit(text, remove(["positive", "filtration", "cyan"]))).toBe(
      'version: 1\nframes:\n  "01":\n    positive: { toe: 0.1 }\n',
    );
    expect(edit(text, remove(["frames", "01", "positive", "toe"]))).toBe(
      'version: 1\npositive:\n  filtration: { cyan: 1 }\nframes:\n  "01": {}\n',
    );
  });

  test("in brackets: first, middle and last", () => {
    const text = "version: 1\nexposed: { camera: a, lens: b, place: c }\n";
    const without = (key: string) => edit(text, remove(["exposed", key])).split("\n")[1];
    expect(["camera", "lens", "place"].map(without)).toEqual([
      "exposed: { lens: b, place: c }",
      "exposed: { camera: a, place: c }",
      "exposed: { camera: a, lens: b }",
    ]);
  });

  test("what is not there is removed without a change", () => {
    expect(editRecipe("version: 1\n", [remove(["positive", "toe"]), remove(["frames", "01"])])).toEqual([]);
  });

  test("when the comment that kept a value on lines of its own goes, the value returns to one line", () => {
    const text = "version: 1\npositive:\n  filtration:\n    cyan: 1   # why\n    yellow: 2\n";
    expect(edit(text, remove(["positive", "filtration", "cyan"]))).toBe(
      "version: 1\npositive:\n  filtration: { yellow: 2 }\n",
    );
  });
});

describe("renaming", () => {
  const text = 'version: 1\nframes:\n  "01":   # first\n    scan: a.dng\n  01A: { scan: b.dng }\n';

  test("changes the key alone; frame ids get double quotes", () => {
    expect(edit(text, { path: ["frames", "01"], rename: "02" })).toBe(text.replace('"01"', '"02"'));
    expect(edit(text, { path: ["frames", "01A"], rename: "02A" })).toBe(text.replace("01A", '"02A"'));
  });

  test("goes together with a change of the value", () => {
    expect(edit(text, { path: ["frames", "01"], rename: "02" }, set(["frames", "01", "turn"], 90))).toBe(
      text.replace('"01"', '"02"').replace("a.dng\n", "a.dng\n    turn: 90\n"),
    );
  });

  test("never onto a key that is there, nor of one that is not", () => {
    expect(() => edit(text, { path: ["frames", "01"], rename: "01A" })).toThrow("is there already");
    expect(() => edit(text, { path: ["frames", "77"], rename: "78" })).toThrow("is not in the recipe");
  });
});

describe("refusals", () => {
  test.each([
    ["syntax errors", "version: 1\ntitle: [\n", ["title"]],
    ["conflict markers", "version: 1\n<<<<<<< a\n", ["title"]],
    ["a list", "- 1\n", ["title"]],
    [
      "a path through an alias",
      'version: 1\npositive: &p { toe: 0.1 }\nframes: { "01": { positive: *p } }\n',
      ["frames", "01", "positive", "toe"],
    ],
    [
      "a value that others refer to",
      'version: 1\npositive: &p { toe: 0.1 }\nframes: { "01": { positive: *p } }\n',
      ["positive", "toe"],
    ],
    ["a forbidden key", "version: 1\n", ["__proto__", "x"]],
    ["an item beyond the end", "version: 1\n", ["output", 3]],
  ] as const)("%s", (_, text, path) => {
    expect(() => editRecipe(text, [set([...path], 1)])).toThrow(RecipeEditError);
  });

  test("an alias itself can be replaced", () => {
    const text = 'version: 1\npositive: &p { toe: 0.1 }\nframes: { "01": { positive: *p } }\n';
    expect(edit(text, set(["frames", "01", "positive"], 3))).toBe(text.replace("*p", "3"));
  });

  test("the text beside an alias can be edited", () => {
    expect(edit("version: 1\ntitle: &t a\nnote: *t\n", set(["version"], 2))).toBe(
      "version: 2\ntitle: &t a\nnote: *t\n",
    );
  });
});

test("changes that overlap or leave the text are refused", () => {
  expect(() =>
    applyChanges("abc", [
      { start: 1, end: 2, text: "" },
      { start: 1, end: 3, text: "" },
    ]),
  ).toThrow(RangeError);
  expect(() => applyChanges("abc", [{ start: 1, end: 4, text: "" }])).toThrow(RangeError);
});

describe("comments stay comments", () => {
  test("below a block text, when what stood between goes", () => {
    const text =
      'version: 1\nframes:\n  "01":\n    note: |\n      long text\n    positive: { exposure: 1 }\n      # why\n    spots: [[0.1, 0.2, 0.003]]\n';
    expect(edit(text, remove(["frames", "01", "positive"]))).toBe(
      'version: 1\nframes:\n  "01":\n    note: |\n      long text\n    # why\n    spots: [[0.1, 0.2, 0.003]]\n',
    );
  });

  test("below a text that becomes one of several lines", () => {
    expect(edit("version: 1\nnote: old\n    # ask Anna\nscans: s\n", set(["note"], "one\ntwo\n"))).toBe(
      "version: 1\nnote: |\n  one\n  two\n# ask Anna\nscans: s\n",
    );
  });

  test("at the end of the file, behind a block text", () => {
    expect(edit("version: 1\nscans: |-\n  scans\nlight: {}\n    # c\n", remove(["light"]))).toBe(
      "version: 1\nscans: |-\n  scans\n# c\n",
    );
  });

  test("in empty brackets that are filled", () => {
    expect(edit("version: 1\nframes: { # none yet\n}\n", set(["frames", "01"], { scan: "a.dng" }))).toBe(
      'version: 1\nframes: # none yet\n  "01":\n    scan: a.dng\n',
    );
  });

  test("in brackets of which a part goes", () => {
    const text = "version: 1\nexposed: { camera: a, # one\n  # two\n  lens: b, # three\n  place: c }\n";
    expect(edit(text, remove(["exposed", "camera"]))).toBe(
      "version: 1\nexposed:\n  # two\n  lens: b # three\n  place: c\n",
    );
  });

  test("behind a bracket that is emptied, and before a comma", () => {
    expect(edit("version: 1\nexposed: { # why\n  camera: a, lens: b }\n", remove(["exposed", "camera"]))).toBe(
      "version: 1\nexposed: { # why\n  lens: b }\n",
    );
    expect(edit("{ # why\n  version: 1 }\n", remove(["version"]))).toBe("# why\n\n{}\n");
    expect(edit("version: 1\nexposed: { camera: a\n  # one\n  , lens: b }\n", remove(["exposed", "lens"]))).toBe(
      "version: 1\nexposed:\n  # one\n  camera: a\n",
    );
  });

  test("of items that are alike, those of the ones that stay", () => {
    const text = "version: 1\noutput:\n  - {} # one\n  - {} # two\n  - {} # three\n";
    expect(edit(text, remove(["output", 0]))).toBe("version: 1\noutput:\n  - {} # two\n  - {} # three\n");
  });

  test("of items that are alike, where the one that an edit empties goes", () => {
    const text = "version: 1\noutput: [{ type: jpeg }, { long: 2000 }, {\n  # kept\n  long: 2000 }]\n";
    expect(edit(text, remove(["output", 1, "long"]))).toBe(
      "version: 1\noutput: [{ type: jpeg }, {\n  # kept\n  long: 2000 }]\n",
    );
  });

  test("between a key and brackets below it that become one value", () => {
    const text = "version: 1\noutput: # whole\n  # why\n  [{ long: 2000 }]\n";
    expect(edit(text, set(["output"], 3))).toBe("version: 1\n# why\noutput: 3 # whole\n");
  });

  test("a new first key stands behind the byte order mark", () => {
    expect(edit("\uFEFFtitle: a\n", set(["version"], 1))).toBe("\uFEFFversion: 1\ntitle: a\n");
  });

  test("a key that looks like a conflict marker is quoted", () => {
    expect(edit("version: 1\nnote: a\n", { path: ["note"], rename: "<<<<<<< a" })).toBe('version: 1\n"<<<<<<< a": a\n');
  });
});
