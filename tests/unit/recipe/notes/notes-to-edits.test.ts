import { describe, expect, test } from "vitest";
import { applyChanges, editRecipe } from "../../../../extension/recipe/edit/edit.ts";
import { COLUMNS } from "../../../../extension/recipe/notes/columns.ts";
import { importNotes } from "../../../../extension/recipe/notes/notes-to-edits.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { describeKey } from "../../../../extension/recipe/schema/describe.ts";

const TEXT = `version: 1
exposed: { camera: folding 35, date: 2026-05-02 }
frames:
  "01":
    scan: a.dng
  "02":
    scan: b.dng
    exposed: { shutter: 1/60 }
  "12A":
    scan: c.dng
`;
const file = "harbour.roll.yaml";
const roll = resolveRoll(parseRecipe(TEXT, { file }));
const table = (headings: string, ...rows: string[]) => ({
  headings: headings.split("|"),
  rows: rows.map((row) => row.split("|")),
});
/** What one cell becomes; the warning where it is left out. */
const read = (heading: string, cell: string) => {
  const { values, warnings } = importNotes(table(`frame|${heading}`, `1|${cell}`), roll);
  return warnings.length > 0 ? { warning: warnings.join(" ") } : values[0]?.value;
};

describe("notes in a table", () => {
  test("fill the frames that they name, and nothing that applies already", () => {
    const found = importNotes(
      table("Frame|Camera|shutter|f|title", "1|folding 35|1/250 s|8|Ferry", "12a|box|2||"),
      roll,
    );
    expect(found.values).toEqual([
      { frame: "01", path: ["exposed", "shutter"], value: "1/250" },
      { frame: "01", path: ["title"], value: "Ferry" },
      { frame: "12A", path: ["exposed", "camera"], value: "box", before: "folding 35" },
      { frame: "12A", path: ["exposed", "shutter"], value: 2 },
    ]);
    expect(found.warnings).toEqual([expect.stringMatching(/^The column "f" has no place in a recipe/)]);
    const text = applyChanges(TEXT, editRecipe(TEXT, found.edits, { file }));
    expect(parseRecipe(text, { file }).problems).toEqual([]);
    expect(text).toContain("exposed: { camera: box, shutter: 2 }");
    // A second time there is nothing left to write.
    const again = resolveRoll(parseRecipe(text, { file }));
    expect(importNotes(table("frame|camera|shutter", "1|folding 35|1/250"), again).edits).toEqual([]);
  });

  test("leave what a frame states otherwise, unless they are to replace it", () => {
    const notes = table("frame|shutter", "2|1/125");
    expect(importNotes(notes, roll)).toMatchObject({
      edits: [],
      kept: [{ frame: "02", path: ["exposed", "shutter"], value: "1/125", before: "1/60" }],
    });
    expect(importNotes(notes, roll, { overwrite: true })).toMatchObject({
      edits: [{ path: ["frames", "02", "exposed", "shutter"], value: "1/125" }],
      kept: [],
    });
  });

  test("name rows without a frame, of an unknown frame, and of one frame twice", () => {
    const { values, warnings } = importNotes(table("frame|title", "|A", "7|B", "01|C", "1|D", "|"), roll);
    expect(values.map(({ value }) => value)).toEqual(["C"]);
    expect(warnings).toEqual([
      "Row 2 names no frame and was left out.",
      "Row 3 is about frame 7, which the roll does not have; it was left out.",
      "Rows 4 and 5 are both about frame 01; row 5 was left out.",
    ]);
  });

  test("need a column of frames, and name headings that were meant otherwise", () => {
    expect(() => importNotes(table("title|shutter"), roll)).toThrow(/no column "frame".*title, shutter/);
    const { warnings } = importNotes(table("frame|shuter|title|title", "1|1/250|a|b"), roll);
    expect(warnings).toEqual([
      'The column "shuter" has no place in a recipe and was left out. Did you mean shutter?',
      'The column "title" is there twice; the second was left out.',
    ]);
  });
});

describe("cells", () => {
  test.each([
    ["shutter", "1/250", "1/250"],
    ["shutter", "1 / 30 s", "1/30"],
    ["shutter", "0,5", 0.5],
    ["shutter", '4"', 4],
    ["aperture", "f/5.6", 5.6],
    ["aperture", "5,6", 5.6],
    ["focal", "50 mm", 50],
    ["rated", "ISO 400", 400],
    ["rated", "EI 250", 250],
    ["date", "2026:05:14", "2026-05-14"],
    ["date", "2026/5/4", "2026-05-04"],
    ["time", "9:05", "09:05"],
    ["time", "17:40:12 +0200", "17:40:12+02:00"],
    ["keywords", "harbour; ferry , morning;", ["harbour", "ferry , morning"]],
    ["keywords", "harbour, ferry", ["harbour", "ferry"]],
  ])("%s: %s", (heading, cell, value) => {
    expect(read(heading, cell)).toEqual(value);
  });

  test.each([
    ["shutter", "B"],
    ["shutter", "-1"],
    ["aperture", "0"],
    ["aperture", "open"],
    ["date", "04.05.2026"],
    ["date", "05/04/26"],
    ["time", "25:00"],
    ["rated", "1e9"],
    ["copyright", "x".repeat(201)],
  ])("%s: %s is left out, with a word on how to write it", (heading, cell) => {
    expect(read(heading, cell)).toEqual({ warning: expect.stringMatching(/^Row 2, column .* Write it as in /) });
  });

  test("latitude and longitude are one value, with signs or letters", () => {
    const read2 = (row: string) => importNotes(table("frame|latitude|longitude", row), roll);
    expect(read2("1|58.2406 N|8,3772°W").values).toEqual([
      { frame: "01", path: ["exposed", "coordinates"], value: [58.2406, -8.3772] },
    ]);
    for (const row of ["1|58.2|", "1|91|0", "1|58.2 E|8"]) {
      expect(read2(row).values).toEqual([]);
      expect(read2(row).warnings.length).toBeGreaterThan(0);
    }
  });

  test("every column fills a key that a frame has", () => {
    const keys = COLUMNS.map(({ path }) => (path[1] === "coordinates" ? path.slice(0, 2) : path));
    expect(keys.filter((path) => describeKey("roll", ["frames", "01", ...path]) === undefined)).toEqual([]);
  });

  test("every column's example is read", () => {
    const headings = ["frame", ...COLUMNS.map(({ heading }) => heading)];
    const cells = ["12A", ...COLUMNS.map(({ example }) => example)];
    const { values, warnings } = importNotes({ headings, rows: [cells] }, roll);
    expect(warnings).toEqual([]);
    // Camera and date apply already; latitude and longitude are one value.
    expect(values).toHaveLength(COLUMNS.length - 3);
  });
});
