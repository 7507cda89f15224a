import fc from "../../../properties.ts";
import { describe, expect, test } from "vitest";
import { canonicalJson } from "../../../../extension/recipe/resolve/canonical.ts";
import { diffRecipes, type RecipeState, subjectOf } from "../../../../extension/recipe/diff/diff.ts";
import { stockImpact } from "../../../../extension/recipe/diff/impact.ts";
import { findRenames } from "../../../../extension/recipe/diff/renames.ts";
import { statedEdits, withEdits } from "../../../../extension/recipe/diff/stated.ts";
import { upgradeRecipe } from "../../../../extension/recipe/edit/upgrade.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { written } from "../arbitrary.ts";

const STOCK = `version: 1
title: Northlight 400
negative: { gamma: [0.53, 0.56, 0.63] }
positive: { contrast: 1.5 }
`;
const ROLL = `version: 1
title: Harbour, first light
stock: northlight.stock.yaml
light: { blank: LIGHT.dng, flare: 0.004 }
positive: { exposure: 0 }
output:
  - { name: web, type: jpeg, quality: 90 }
frames:
  "07": { scan: H0007.dng }
  "08": { scan: H0008.dng, positive: { exposure: 0.5 } }
`;

function side(roll: string, stock: string | undefined = STOCK, file = "harbour.roll.yaml"): RecipeState {
  const document = parseRecipe(roll, { file });
  const named = stock === undefined ? undefined : parseRecipe(stock, { file: "northlight.stock.yaml" });
  return { roll: document, stock: named, resolved: resolveRoll(document, named) };
}

/** Every change of a roll in words. */
function words(before: string, after: string, stocks: [string?, string?] = []): string[] {
  const { changes } = diffRecipes(side(before, stocks[0]), side(after, stocks[1] ?? stocks[0]));
  return changes.map((change) => `${subjectOf(change, "roll")} · ${change.text}`);
}

const swap = (from: string, to: string, text = ROLL): string => {
  expect(text).toContain(from);
  return text.replace(from, to);
};

describe("in words", () => {
  test("a frame's own value that was the roll's", () => {
    const after = swap("{ scan: H0007.dng }", "{ scan: H0007.dng, positive: { exposure: 0.33 } }");
    expect(words(ROLL, after)).toEqual(["frame 07 · exposure +0.00 → +0.33 EV (own value; was from the roll)"]);
    expect(words(after, ROLL)).toEqual(["frame 07 · exposure +0.33 → +0.00 EV (from the roll; was own value)"]);
  });

  test("a value of the roll is told once, with the frames that follow it", () => {
    const { changes, frames } = diffRecipes(side(ROLL), side(swap("{ exposure: 0 }", "{ exposure: -0.25 }")));
    expect(changes.map((change) => [change.text, change.followers])).toEqual([["exposure +0.00 → −0.25 EV", ["07"]]]);
    expect(frames.map((frame) => [frame.id, frame.looksDifferent])).toEqual([["07", true]]);
  });

  test("a sheet to print: paper, borders, resolution, profile and intent, as far as they are stated", () => {
    const sheet = (print: string): string => swap("quality: 90 }", `quality: 90, print: { ${print} } }`);
    const matte = "paper: A4, border: 15, profile: profiles/matte.icc";
    const whole =
      "paper: [210, 148.5], border: [15, 15, 25, 15], fit: fill, length: 120, place: [0, 0.5], resolution: 360, orientation: portrait, profile: gloss.icc, blackPointCompensation: false";
    expect(words(ROLL, sheet(matte))).toEqual([
      "roll · output web · print none → A4, border 15 mm, profile profiles/matte.icc",
    ]);
    expect(words(sheet(`${matte}, intent: perceptual`), sheet(whole))).toEqual([
      "roll · output web · print A4, border 15 mm, profile profiles/matte.icc, perceptual → 210 × 148.5 mm, portrait orientation, border 15 15 25 15 mm, fill, picture 120 mm long, at 0.00 0.50, 360 ppi, profile gloss.icc, no black point compensation",
    ]);
    expect(words(sheet(matte), sheet(matte.replace("15", "15.04")))).toEqual([
      "roll · output web · print A4, border 15 mm, profile profiles/matte.icc → A4, border 15.04 mm, profile profiles/matte.icc",
    ]);
    expect(words(sheet(matte), ROLL)).toEqual([
      "roll · output web · print A4, border 15 mm, profile profiles/matte.icc → none",
    ]);
  });

  test("areas of local exposure, by identity", () => {
    const areas = (list: string): string =>
      swap("{ scan: H0007.dng }", `{ scan: H0007.dng, positive: { local: [${list}] } }`);
    const face = "{ id: a1, name: face, oval: [0.4, 0.4, 0.1, 0.2], exposure: 0.4 }";
    const sky = "{ id: a2, name: sky, line: [[0.5, 0.1], [0.5, 0.5]], exposure: -0.5 }";
    const before = areas(`${face}, ${sky}`);
    expect(words(before, areas(`${face}, ${sky.replace("-0.5 }", "-0.8 }")}`))).toEqual([
      "frame 07 · burn 2, sky: −0.50 → −0.80 EV",
    ]);
    // The order of the list and the name do not make another area of it.
    expect(words(before, areas(`${sky.replace("sky", "clouds")}, ${face}`))).toEqual([
      "frame 07 · burn 1, clouds: name “sky” → “clouds”",
    ]);
    expect(words(before, areas(face))).toEqual(["frame 07 · burn 2, sky removed: line, −0.50 EV"]);
    expect(words(before, areas(`${face}, ${sky}, { polygon: [[0, 0], [1, 0], [1, 1]], contrast: 1.5 }`))).toEqual([
      "frame 07 · area 3 added: polygon, contrast 1.50",
    ]);
    expect(words(before, areas(`${face.replace("0.1, 0.2]", "0.1, 0.3]")}, ${sky}`))).toEqual([
      "frame 07 · dodge 1, face: oval 0.400 0.400 0.100 0.200 → 0.400 0.400 0.100 0.300",
    ]);
    // Without id and name, an area that was moved is the same area.
    const plain = "{ oval: [0.4, 0.4, 0.1, 0.2], exposure: 0.4 }";
    expect(words(areas(plain), areas(plain.replace("0.4, 0.4", "0.5, 0.4")))).toHaveLength(1);
    expect(
      diffRecipes(side(before), side(areas(face))).frames.map(({ id, looksDifferent }) => [id, looksDifferent]),
    ).toEqual([["07", true]]);
  });

  test("another version of the format: values are compared in its terms", () => {
    const before = ROLL.replace("positive: { exposure: 0 }", "positive: { toe: 0.6, shoulder: 0.4 }");
    const upgraded = upgradeRecipe(side(before).roll)!.text;
    const format = "recipe format version 1 → version 2, in which toe and shoulder open or close their tones";
    expect(words(before, upgraded)).toEqual([`roll · ${format}`]);
    const opened = upgraded.replace("toe: 0.05", "toe: 0.4");
    expect(words(before, opened)).toEqual([`roll · ${format}`, "roll · toe 0.05 → 0.40"]);
    // The print moves a little with the version alone, and the frames are shown.
    expect(diffRecipes(side(before), side(upgraded)).frames.map(({ looksDifferent }) => looksDifferent)).toEqual([
      true,
      true,
    ]);
  });

  test("a value of the stock, seen from the roll", () => {
    const stock = swap("contrast: 1.5", "contrast: 1.55", STOCK);
    expect(words(ROLL, ROLL, [STOCK, stock])).toEqual(["roll · contrast 1.50 → 1.55 (from the stock)"]);
  });

  test("a value that only another level states now", () => {
    const after = swap("{ exposure: 0 }", "{ exposure: 0, contrast: 1.5 }");
    expect(words(ROLL, after)).toEqual(["roll · contrast stays 1.50 (own value; was from the stock)"]);
  });

  test("small differences get the decimals that show them", () => {
    const fine = swap("{ exposure: 0 }", "{ exposure: 0.0004 }");
    expect(words(ROLL, fine)).toEqual(["roll · exposure +0.0000 → +0.0004 EV"]);
  });

  test("two ways of writing the same are no change", () => {
    const after = swap("flare: 0.004", "flare: [0.004, 0.004, 0.004]");
    const diff = diffRecipes(side(ROLL), side(after));
    expect(diff.changes).toEqual([]);
    expect(diff.frames).toEqual([]);
  });

  test("crop, spots, turn, notes of a frame", () => {
    const after = swap(
      "{ scan: H0007.dng }",
      `{ scan: H0007.dng, turn: 90, area: { left: 0.05, top: 0, width: 0.9, height: 1 }, spots: [[0.4, 0.1, 0.002]], note: "hold the sky" }`,
    );
    expect(words(ROLL, after)).toEqual([
      "frame 07 · left edge 0.0000 → 0.0500 of the scan’s width (own value; was the default)",
      "frame 07 · top edge stays 0.0000 of the scan’s height (own value; was the default)",
      "frame 07 · width 1.0000 → 0.9000 of the scan’s width (own value; was the default)",
      "frame 07 · height stays 1.0000 of the scan’s height (own value; was the default)",
      "frame 07 · turned 0 → 90° (own value; was the default)",
      "frame 07 · speck at 0.4, 0.1 added, radius 0.0020",
      "frame 07 · note none → “hold the sky”",
    ]);
  });

  test("specks are known by their place", () => {
    const spots = (list: string): string => swap("{ scan: H0007.dng }", `{ scan: H0007.dng, spots: ${list} }`);
    const before = spots("[[0.1, 0.1, 0.01], [0.5, 0.5, 0.02], [0.9, 0.1, 0.01]]");
    expect(words(before, spots("[[0.9, 0.1, 0.01], [0.5, 0.5, 0.03], [0.105, 0.1, 0.01]]"))).toEqual([
      "frame 07 · speck at 0.5, 0.5, radius 0.02 → 0.03",
      "frame 07 · speck at 0.1, 0.1 moved to 0.105, 0.1",
    ]);
  });

  test("hairs and scratches are known by their ends", () => {
    const spots = (list: string): string => swap("{ scan: H0007.dng }", `{ scan: H0007.dng, spots: ${list} }`);
    const [first, second] = ["line: [[0.1, 0.1], [0.2, 0.12], [0.3, 0.1]]", "line: [[0.5, 0.5], [0.6, 0.5]]"];
    const before = spots(`[{ ${first}, width: 0.002 }, { ${second}, width: 0.001 }, [0.9, 0.1, 0.01]]`);
    const after = spots(
      `[[0.9, 0.1, 0.01], { ${second}, width: 0.003 }, { line: [[0.1, 0.1], [0.2, 0.121], [0.31, 0.1]], width: 0.002 }]`,
    );
    expect(words(before, after)).toEqual([
      "frame 07 · hair or scratch at 0.5, 0.5 to 0.6, 0.5, width 0.001 → 0.003",
      "frame 07 · hair or scratch at 0.1, 0.1 to 0.3, 0.1 moved to 0.1, 0.1 to 0.31, 0.1",
    ]);
    expect(words(spots(`[{ ${first}, width: 0.002 }]`), spots("[[0.2, 0.12, 0.01]]"))).toEqual([
      "frame 07 · speck at 0.1, 0.1 to 0.3, 0.1 moved to 0.2, 0.12, width 0.002 → radius 0.01",
    ]);
  });

  test("outputs are known by their name", () => {
    const after = swap(
      "  - { name: web, type: jpeg, quality: 90 }",
      "  - { name: archive, type: tiff }\n  - { name: web, type: jpeg, quality: 85, long: 2000 }",
    );
    expect(words(ROLL, after)).toEqual([
      "roll · output archive added: type tiff",
      "roll · output web · quality 90 → 85",
      "roll · output web · long none → 2000 px",
    ]);
    // The form that is written is no change of the picture.
    expect(diffRecipes(side(ROLL), side(after)).frames).toEqual([]);
  });

  test("frames come, go, and change their names", () => {
    expect(words(ROLL, `${ROLL}  "09": { scan: H0009.dng }\n`)).toEqual(["frame 09 · new frame, H0009.dng"]);
    expect(words(`${ROLL}  "09": { scan: H0009.dng }\n`, ROLL)).toEqual(["frame 09 · frame removed, H0009.dng"]);
    expect(words(ROLL, swap(`"07"`, `"07A"`))).toEqual(["frame 07A · was called frame 07"]);
    const { frames } = diffRecipes(side(ROLL), side(swap(`"07"`, `"07A"`)));
    expect(frames).toMatchObject([{ id: "07A", status: "changed", looksDifferent: false }]);
  });

  test("a frame that is skipped loses its picture", () => {
    const { frames } = diffRecipes(side(ROLL), side(swap("{ scan: H0007.dng }", "{ scan: H0007.dng, skip: true }")));
    expect(frames).toMatchObject([{ id: "07", looksDifferent: true }]);
  });

  test("choice and rank are named, and are no change of the picture", () => {
    const chosen = swap("{ scan: H0007.dng }", "{ scan: H0007.dng, choice: reject, rank: 2 }");
    expect(words(ROLL, chosen)).toEqual(["frame 07 · choice none → reject", "frame 07 · rank none → 2"]);
    expect(diffRecipes(side(ROLL), side(chosen)).frames).toMatchObject([{ id: "07", looksDifferent: false }]);
  });

  test("a change of layout alone is said to be one", () => {
    const loose = swap("positive: { exposure: 0 }", "positive: # by eye\n  exposure: 0.0");
    const diff = diffRecipes(side(ROLL), side(loose));
    expect(diff).toEqual({ changes: [], frames: [], formattingOnly: true });
    expect(diffRecipes(side(ROLL), side(formatRecipe(ROLL))).changes).toEqual([]);
  });

  test("the order of frames counts", () => {
    const after = ROLL.replace(/( {2}"07".*\n)( {2}"08".*\n)/, "$2$1");
    expect(words(ROLL, after)).toEqual(["roll · order of frames: 08 moved before 07"]);
  });

  test("the order of outputs, specks and areas does not: it is layout", () => {
    const two = "  - { name: web, type: jpeg, quality: 90 }\n";
    const roll = swap(two, `${two}  - { name: print, type: tiff }\n`);
    const other = swap(two, `  - { name: print, type: tiff }\n${two}`);
    expect(diffRecipes(side(roll), side(other))).toEqual({ changes: [], frames: [], formattingOnly: true });
  });

  test("a change knows what to edit to take it back, in whichever file it stands", () => {
    const stock = swap("contrast: 1.5", "contrast: 1.55", STOCK);
    const [change] = diffRecipes(side(ROLL), side(ROLL, stock)).changes;
    expect(change?.sources).toEqual([
      { file: "northlight.stock.yaml", path: ["positive", "contrast"], before: 1.5, after: 1.55 },
    ]);
  });
});

describe("applied", () => {
  const value = (text: string): unknown => parseRecipe(text, { file: "a.roll.yaml" }).value;

  test("the difference of a and b, applied to a, gives b", () => {
    fc.assert(
      fc.property(written, written, (a, b) => {
        const edits = statedEdits(parseRecipe(a.text, { file: "a.roll.yaml" }).value, b.value as never);
        const made = withEdits(a.text, edits, "roll");
        expect(value(made)).toEqual(value(b.text));
        const [mine, wanted] = [made, b.text].map((text) => side(text, undefined).resolved);
        const byId = (roll: typeof mine) => roll!.frames.toSorted((x, y) => (x.id < y.id ? -1 : 1));
        expect(canonicalJson(byId(mine))).toBe(canonicalJson(byId(wanted)));
      }),
      { numRuns: 30, seed: 5 },
    );
  });

  test("taking every change back gives what was before", () => {
    fc.assert(
      fc.property(written, written, (a, b) => {
        const { changes } = diffRecipes(side(a.text), side(b.text));
        const edits = changes
          .flatMap((change) => change.sources)
          // Frames that come or go go as a whole, before what is within them.
          .toSorted((x, y) => x.path.length - y.path.length)
          .map(({ path, before }) => ({ path, value: before }));
        const back = withEdits(b.text, edits, "roll");
        const left = diffRecipes(side(a.text), side(back)).changes.filter(({ name }) => name !== "order of frames");
        expect(left.filter(({ kind }) => kind !== "renamed").map((change) => change.text)).toEqual([]);
      }),
      { numRuns: 30, seed: 5 },
    );
  });

  test("nothing changed is nothing to tell", () => {
    fc.assert(
      fc.property(written, ({ text }) => {
        expect(diffRecipes(side(text), side(text))).toEqual({ changes: [], frames: [], formattingOnly: false });
      }),
      { numRuns: 20, seed: 5 },
    );
  });
});

test("a stock's impact leaves out what the roll changed itself, and what states its own value", () => {
  const brighter = swap("contrast: 1.5", "contrast: 1.7", STOCK);
  const [before, after] = [STOCK, brighter].map((text) => parseRecipe(text, { file: "northlight.stock.yaml" }));
  const own = swap("{ exposure: 0 }", "{ exposure: 1, contrast: 1.2 }");
  const rolls = [side(ROLL), side(own, STOCK, "own.roll.yaml")];
  expect(stockImpact(before, after, rolls)).toEqual([
    { file: "harbour.roll.yaml", title: "Harbour, first light", frames: ["07", "08"], of: 2 },
  ]);
});

test("a renamed file is known by its text", () => {
  const gone = new Map([
    ["a.roll.yaml", ROLL],
    ["b.stock.yaml", STOCK],
  ]);
  const added = new Map([
    ["c.roll.yaml", swap("first light", "last light")],
    ["d.stock.yaml", "version: 1\ntitle: Another\niso: 100\n"],
    ["e.roll.yaml", STOCK],
  ]);
  expect([...findRenames(gone, added)]).toEqual([["c.roll.yaml", "a.roll.yaml"]]);
});
