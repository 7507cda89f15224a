import { describe, expect, test } from "vitest";
import { applyChanges, type Edit, editRecipe, RecipeEditError } from "../../../../extension/recipe/edit/edit.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import fc from "../../../properties.ts";
import { type Written, written } from "../arbitrary.ts";

const edit = (text: string, ...edits: Edit[]) => applyChanges(text, editRecipe(text, edits));
const frame = (id: string, before: string | null): Edit => ({ path: ["frames", id], before });

const ROLL = `version: 1
frames:
  # the pier, early
  "01": { scan: A.dng }   # first
  "02":
    scan: B.dng
    positive:
      exposure: 0.1

      # by eye
  "03": { scan: C.dng }

  # second evening

  "04": { scan: D.dng }
  # too dark
  "05":
    scan: E.dng   # again
output:
  - { name: web, type: jpeg }
  # for the archive
  - { name: print, type: tiff }
`;

describe("frames", () => {
  test("lines go with the comments above and in them, as they stand", () => {
    expect(edit(ROLL, frame("02", "01"))).toBe(
      ROLL.replace(/ {2}"02":[^"]*?# by eye\n/, "").replace(
        "  # the pier",
        `  "02":\n    scan: B.dng\n    positive:\n      exposure: 0.1\n\n      # by eye\n  # the pier`,
      ),
    );
  });

  test("blank lines and headings between frames stay where they are", () => {
    expect(edit(ROLL, frame("05", "02"))).toBe(
      ROLL.replace('  # too dark\n  "05":\n    scan: E.dng   # again\n', "").replace(
        '  "02":',
        '  # too dark\n  "05":\n    scan: E.dng   # again\n  "02":',
      ),
    );
    expect(edit(ROLL, frame("04", "01"))).toBe(
      ROLL.replace('  "04": { scan: D.dng }\n', "").replace("  # the pier", '  "04": { scan: D.dng }\n  # the pier'),
    );
  });

  test("blank lines between all frames stay between all frames", () => {
    const text = 'frames:\n  "1": { scan: A }\n\n  "2": { scan: B }\n\n  "3": { scan: C }\n';
    expect(edit(text, frame("3", "1"))).toBe(
      'frames:\n  "3": { scan: C }\n\n  "1": { scan: A }\n\n  "2": { scan: B }\n',
    );
    expect(edit(text, frame("1", null))).toBe(
      'frames:\n  "2": { scan: B }\n\n  "3": { scan: C }\n\n  "1": { scan: A }\n',
    );
  });

  test("behind the last, where the text ends without a line break, and with other line breaks", () => {
    const text = 'frames:\r\n  "1": { scan: A }\r\n  "2": { scan: B }';
    expect(edit(text, frame("1", null))).toBe('frames:\r\n  "2": { scan: B }\r\n  "1": { scan: A }');
    expect(edit(text, frame("2", "1"))).toBe('frames:\r\n  "2": { scan: B }\r\n  "1": { scan: A }');
  });

  test("to where it is already changes nothing", () => {
    expect(editRecipe(ROLL, [frame("02", "03")])).toEqual([]);
    expect(editRecipe(ROLL, [frame("02", "02")])).toEqual([]);
    expect(editRecipe(ROLL, [frame("05", null)])).toEqual([]);
  });

  test("several move one after the other, behind other edits", () => {
    const after = edit(ROLL, frame("04", "01"), frame("05", "01"), { path: ["frames", "01", "rank"], value: 3 });
    expect([...after.matchAll(/^ {2}"(\d+)"/gm)].map(([, id]) => id)).toEqual(["04", "05", "01", "02", "03"]);
    expect(after).toContain('"01": { scan: A.dng, rank: 3 }   # first');
  });

  test("in brackets they change places, and all between them stays", () => {
    expect(edit('frames: { "1": { scan: A },  "2": { scan: B , rank: 1 } }\n', frame("2", "1"))).toBe(
      'frames: { "2": { scan: B , rank: 1 },  "1": { scan: A } }\n',
    );
  });
});

describe("items of lists", () => {
  test("with the comments above them", () => {
    const after = edit(ROLL, { path: ["output", 1], before: 0 });
    expect(after.slice(after.indexOf("output"))).toBe(
      "output:\n  # for the archive\n  - { name: print, type: tiff }\n  - { name: web, type: jpeg }\n",
    );
    expect(edit(after, { path: ["output", 0], before: null })).toBe(ROLL);
  });

  test("in brackets", () => {
    expect(
      edit("light:\n  spots: [[0.1, 0.2, 0.003], [0.5,0.5,0.01]] # two\n", {
        path: ["light", "spots", 0],
        before: null,
      }),
    ).toBe("light:\n  spots: [[0.5,0.5,0.01], [0.1, 0.2, 0.003]] # two\n");
  });
});

describe("refused, with the text as it was", () => {
  test.each([
    [
      "keys whose order is fixed",
      ROLL,
      { path: ["frames", "02", "scan"], before: null },
      /order of the keys .* is fixed/,
    ],
    ["a frame that is not there", ROLL, frame("09", "01"), /"09" is not in the recipe/],
    ["a place that is not there", ROLL, frame("02", "09"), /"09" is not in the recipe/],
    ["a recipe without frames", "version: 1\n", frame("02", "01"), /is not in the recipe/],
    ["a frame that is stated twice", 'frames:\n  "1": {}\n  "1": {}\n  "2": {}\n', frame("1", null), /is there twice/],
    [
      "an alias that would stand before its anchor",
      'frames:\n  "1": { positive: &look { exposure: 1 } }\n  "2": { positive: *look }\n',
      frame("2", "1"),
      /anchors/,
    ],
    [
      "a comment between brackets",
      'frames: { "1": { scan: A }, # first\n  "2": { scan: B } }\n',
      frame("2", "1"),
      /comments/,
    ],
    [
      "a comment that a text below it would take in",
      'frames:\n  "1":\n    note: |\n      two\n      lines\n        # set in far\n  "2": { scan: B }\n      # set in far too\n  "3": { scan: C }\n',
      frame("1", "3"),
      /texts around it/,
    ],
  ] as [string, string, Edit, RegExp][])("%s", (_, text, move, reason) => {
    expect(() => editRecipe(text, [move])).toThrow(RecipeEditError);
    expect(() => editRecipe(text, [move])).toThrow(reason);
  });
});

describe("any roll", () => {
  const ids = (text: string): string[] => {
    const { ast } = parseRecipe(text, { file: "a.roll.yaml" });
    const frames = ast?.kind === "mapping" ? ast.entries.find(({ name }) => name === "frames")?.value : undefined;
    return frames?.kind === "mapping" ? frames.entries.map(({ name }) => name) : [];
  };
  const several = written.filter(({ text }) => ids(text).length > 1);
  const move: fc.Arbitrary<[Written, string, string | null]> = several.chain((recipe) =>
    fc.tuple(
      fc.constant(recipe),
      fc.constantFrom(...ids(recipe.text)),
      fc.constantFrom<string | null>(null, ...ids(recipe.text)),
    ),
  );

  test("a moved frame is where it was meant to be, every line is still there, and what the roll says is the same", () => {
    fc.assert(
      fc.property(move, ([{ text, value }, id, before]) => {
        const after = edit(text, frame(id, before));
        expect(parseRecipe(after, { file: "a.roll.yaml" }).value).toEqual(value);
        const expected = ids(text).filter((other) => other !== id);
        expected.splice(
          before === null ? expected.length : before === id ? ids(text).indexOf(id) : expected.indexOf(before),
          0,
          id,
        );
        expect(ids(after)).toEqual(expected);
        const canonical = formatRecipe(text);
        const kept = edit(canonical, frame(id, before));
        expect(kept).toBe(formatRecipe(kept));
        // A canonical text may be laid out again, which the line above has shown.
        expect(text === canonical || signs(after) === signs(text)).toBe(true);
      }),
      { numRuns: 60, interruptAfterTimeLimit: 20_000 },
    );
  });
});

const signs = (text: string): string => Array.from(text.replaceAll("\r\n", "\n")).toSorted().join("");
