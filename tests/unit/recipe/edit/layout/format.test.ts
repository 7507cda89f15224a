import { describe, expect, test } from "vitest";
import { applyChanges, editRecipe } from "../../../../../extension/recipe/edit/edit.ts";
import { formatRecipe, tryFormat } from "../../../../../extension/recipe/edit/layout/format.ts";

describe("the canonical format", () => {
  test("keeps the comment behind the mark of a block text, which keeps what holds it on lines of its own", () => {
    const text = `version: 1
output:
  - name: |- # why so long
      a

      b
    type: tiff
note: >2  # odd mark
   indented
`;
    const formatted = formatRecipe(text);
    expect(formatted).toContain("- name: |- # why so long\n");
    expect(formatted).toContain("# odd mark\n");
    expect(formatRecipe(formatted)).toBe(formatted);
  });

  test("order, layout, quotes, comments and blank lines, all at once", () => {
    const text = `# the harbour roll


# about positive
positive:  # head
    # first
    contrast: 1.5   # c

    # toe comment
    toe: 0.3
    # end of positive

# title lead
title: 'it''s'


version: 1
output:
- name: web
  type: jpeg
  # long?
  long: 2400
- {type: tiff, name: b}
exposed:
   camera: folding, 35
   lens: 50 mm
frames:
  # before 12A
  12A:
    note: |
       hold
         the sky

       end
    scan: a.dng   # a scan
    area: {left: 0.1, # l
       top: 0.2}
    positive: { toe: 0.1, exposure: 1 }
    spots: [[0.1,0.2,0.001],[0.1,0.2,0.002],[0.1,0.2,0.003],[0.1,0.2,0.004],
      [0.1,0.2,0.005]]
  '2': {scan: b.dng, mirror: true}
# end
`;
    expect(formatRecipe(text)).toBe(`# the harbour roll

version: 1

# title lead
title: 'it''s'
exposed: { camera: "folding, 35", lens: 50 mm }
# about positive
positive:  # head
  # first
  contrast: 1.5   # c

  # toe comment
  toe: 0.3
  # end of positive
output:
  - name: web
    type: jpeg
    # long?
    long: 2400
  - { name: b, type: tiff }
frames:
  # before 12A
  "12A":
    scan: a.dng   # a scan
    area:
      left: 0.1 # l
      top: 0.2
    positive: { exposure: 1, toe: 0.1 }
    spots:
      - [0.1, 0.2, 0.001]
      - [0.1, 0.2, 0.002]
      - [0.1, 0.2, 0.003]
      - [0.1, 0.2, 0.004]
      - [0.1, 0.2, 0.005]
    note: |
      hold
        the sky

      end
  "2":
    scan: b.dng
    mirror: true
# end
`);
  });

  test("a mapping in brackets that reaches past column 100 becomes a block, and returns when it is short again", () => {
    const base = (density: string): string =>
      `negative:\n  base: { density: [${density}], read: { scan: LEADER.dng, area: [0.4, 0.4, 0.2, 0.2] } }  # read by hand\n`;
    const long = formatRecipe(`version: 1\n${base("0.2421, 0.2482, 0.25743")}`, { kind: "roll" });
    expect(long).toBe(
      "version: 1\nnegative:\n  base:  # read by hand\n    density: [0.2421, 0.2482, 0.25743]\n" +
        "    read: { scan: LEADER.dng, area: [0.4, 0.4, 0.2, 0.2] }\n",
    );
    expect(formatRecipe(long, { kind: "roll" })).toBe(long);
    const short = long.replace("0.2421, 0.2482, 0.25743", "0.24, 0.25, 0.26");
    expect(formatRecipe(short, { kind: "roll" })).toBe(`version: 1\n${base("0.24, 0.25, 0.26")}`);
  });

  test("the comment of an item too long for one line stands before its dash at once", () => {
    const item = ["red", "green", "blue"].map((name) => `${name}: ${"word ".repeat(7)}end`);
    const once = formatRecipe(`version: 1\noutput:\n  - { ${item.join(", ")} } # why\n`);
    expect(once).toContain("  # why\n  - red: word");
    expect(formatRecipe(once)).toBe(once);
  });

  test("an edit leaves other long lines alone, and breaks its own in a text that is canonical", () => {
    const long = `version: 1\nnegative: { base: { density: [0.2421, 0.2482, 0.25743], read: { scan: LEADER.dng, area: [0.4, 0.4, 0.2, 0.2] } } }\npositive:\n  exposure: 0.2\n`;
    const edit = (text: string, path: string[], value: number): string =>
      applyChanges(text, editRecipe(text, [{ path, value }], { kind: "roll" }));
    expect(edit(long, ["positive", "exposure"], 0.5)).toBe(long.replace("0.2\n", "0.5\n"));
    const frame = `version: 1\nframes:\n  "01":\n    scan: H0001.dng\n    positive: { exposure: -0.25, filtration: { magenta: -12.5, yellow: 33.5 }, contrast: 1.65 }\n`;
    expect(formatRecipe(frame, { kind: "roll" })).toBe(frame);
    expect(edit(frame, ["frames", "01", "positive", "saturation"], 1.25)).toBe(
      `version: 1\nframes:\n  "01":\n    scan: H0001.dng\n    positive:\n      exposure: -0.25\n      filtration: { magenta: -12.5, yellow: 33.5 }\n      contrast: 1.65\n      saturation: 1.25\n`,
    );
  });

  test("keys that the schema does not know follow the ones it knows", () => {
    expect(formatRecipe("zebra: 1\nfilm: slide\nversion: 1\nant: { b: 1, a: 2 }\n")).toBe(
      "version: 1\nfilm: slide\nzebra: 1\nant: { b: 1, a: 2 }\n",
    );
  });

  test("a stock has the order of a stock", () => {
    expect(formatRecipe("process: x\niso: 400\nversion: 1\n", { file: "n.stock.yaml" })).toBe(
      "version: 1\niso: 400\nprocess: x\n",
    );
  });

  test("line endings and a byte order mark stay", () => {
    expect(formatRecipe("\uFEFFtitle: x\r\nversion: 1\r\n")).toBe("\uFEFFversion: 1\r\ntitle: x\r\n");
  });

  test.each([
    ["not YAML", "version: 1\ntitle: [\n"],
    ["empty", ""],
    ["comments alone", "# x\n"],
    ["an anchor", "title: &a x\nversion: 1\nnote: *a\n"],
    ["a tag", "title: !!str 1\nversion: 1\n"],
    ["a directive", "%YAML 1.2\n---\ntitle: x\nversion: 1\n"],
    ["a question mark before a key", "? title\n: x\nversion: 1\n"],
    ["a list", "- b\n- a\n"],
    ["a conflict", "title: x\n<<<<<<< a\nversion: 1\n"],
  ])("%s is left as it is", (_, text) => {
    expect(formatRecipe(text)).toBe(text);
  });
});

describe("nothing is lost", () => {
  test.each([
    [
      "a comment behind a text of several lines",
      "version: 1\nnote: poppies a touch\n  lighter than they want to be  # ask Anna\n",
      "version: 1\nnote: poppies a touch\n  lighter than they want to be  # ask Anna\n",
    ],
    [
      "the same in quotes",
      'version: 1\nnote: "poppies a touch\n  lighter"  # ask Anna\n',
      'version: 1\nnote: "poppies a touch\n  lighter"  # ask Anna\n',
    ],
    [
      "a block text that begins with a tab",
      "version: 1\nnote: |\n  \tfirst\n  b\n  longer line\n",
      "version: 1\nnote: |\n  \tfirst\n  b\n  longer line\n",
    ],
    [
      "a block text that begins with an ideographic space",
      "version: 1\nnote: |\n    \u3000朝の光\n    二枚目\n",
      "version: 1\nnote: |\n  \u3000朝の光\n  二枚目\n",
    ],
    [
      "empty brackets with a comment in them",
      "version: 1\nscans: scans\nframes: { # none developed yet\n}\n",
      "version: 1\nscans: scans\nframes: {} # none developed yet\n",
    ],
    ["an escaped blank at a line's end", 'version: 1\nnote: "a\\ \n  b"\n', 'version: 1\nnote: "a\\ \n  b"\n'],
    [
      "a hard blank at the end of a plain text",
      "version: 1\nnote: a\u00a0\ntitle: b\n",
      "version: 1\ntitle: b\nnote: a\u00a0\n",
    ],
    [
      "a comment behind a bracket",
      "version: 1\nnegative:\n  unmix:\n  - [1, 0, 0]\n  - [0, 1, 0]\n  - [ # the third\n      0, 0, 1]\n",
      "version: 1\nnegative:\n  unmix:\n    - [1, 0, 0]\n    - [0, 1, 0]\n    - [0, 0, 1] # the third\n",
    ],
    [
      "a text that keeps its empty lines at the end",
      "version: 1\nnote: |+\n  a\n\n\ntitle: b\n",
      'version: 1\n\ntitle: b\nnote: "a\\n\\n\\n"\n',
    ],
  ])("%s", (_, text, wanted) => {
    expect(formatRecipe(text)).toBe(wanted);
    expect(formatRecipe(wanted)).toBe(wanted);
  });

  test("a text that is left as it is has a reason", () => {
    expect(tryFormat("title: &a x\nversion: 1\n").left).toContain("anchors");
    expect(tryFormat("title: [\n").left).toContain("not valid YAML");
    expect(tryFormat("").left).toBeUndefined();
  });
});
