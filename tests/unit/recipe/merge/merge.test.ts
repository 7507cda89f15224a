import fc from "../../../properties.ts";
import { describe, expect, test } from "vitest";
import { withEdits } from "../../../../extension/recipe/diff/stated.ts";
import { upgradeRecipe } from "../../../../extension/recipe/edit/upgrade.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import type { ValueEdit } from "../../../../extension/recipe/edit/edit.ts";
import { mergeRecipes, type MergeOptions } from "../../../../extension/recipe/merge/merge.ts";
import { written } from "../arbitrary.ts";

const FILE = "harbour.roll.yaml";
const BASE = `version: 1
title: Harbour
negative: { gamma: 0.55 }
positive:
  exposure: 0   # by eye
  contrast: 1.4
output:
  - { name: web, type: jpeg, quality: 90 }
frames:
  # from the pier
  "01": { scan: A.dng, positive: { exposure: 0.1 } }
  "02":
    scan: B.dng
    spots: [[0.1, 0.2, 0.003]]
`;

const merge = (ours: string, theirs: string, base = BASE, options: Partial<MergeOptions> = {}) => {
  const merged = mergeRecipes(base, ours, theirs, { file: FILE, ...options });
  if (!merged) throw new Error("One of the texts is not YAML.");
  return merged;
};
const swap = (from: string, to: string, text = BASE): string => {
  expect(text).toContain(from);
  return text.replace(from, to);
};
const upgraded = (text: string): string => upgradeRecipe(parseRecipe(text, { file: FILE }))!.text;
const value = (text: string): unknown => parseRecipe(text, { file: FILE }).value;

/** Values of every kind that a person may set, change or take away. */
const edit = (ids: readonly string[]): fc.Arbitrary<ValueEdit> => {
  const amount = fc.integer({ min: -40, max: 40 }).map((n) => n / 20);
  const word = fc.constantFrom("hold the sky", "second try", "x: y", "# not a comment");
  const gone = fc.constant(undefined);
  const of = (path: (string | number)[], values: fc.Arbitrary<unknown>) =>
    fc.oneof({ weight: 4, arbitrary: values }, { weight: 1, arbitrary: gone }).map((v) => ({ path, value: v }));
  const inFrame = fc.constantFrom(...ids, "41").chain((id) => {
    const frame = ["frames", id];
    return fc.oneof(
      of([...frame, "positive", "exposure"], amount),
      of([...frame, "positive", "filtration", "yellow"], fc.integer({ min: -20, max: 20 })),
      of([...frame, "note"], word),
      of([...frame, "turn"], fc.constantFrom(90, 180, 270)),
      of([...frame, "choice"], fc.constantFrom("keep", "reject")),
      of([...frame, "rank"], fc.integer({ min: 1, max: 5 })),
      of([...frame, "area", "left"], amount.map(Math.abs)),
      of([...frame, "spots"], fc.constant([[0.5, 0.5, 0.01]])),
      fc.constant({ path: frame, value: undefined }),
    );
  });
  return fc.oneof(
    inFrame,
    of(["positive", "exposure"], amount),
    of(["positive", "contrast"], fc.constantFrom(1.1, 1.2, 1.9)),
    of(
      ["positive", "curve"],
      fc.constant([
        [0, 0],
        [50, 52],
        [100, 100],
      ]),
    ),
    of(["negative", "base", "density"], fc.constant([0.1, 0.2, 0.3])),
    of(["title"], word),
    of(["exposed", "rated"], fc.constantFrom(100, 200)),
    of(["light", "flare"], fc.constantFrom(0.001, 0.002)),
  );
};

const disjoint = (a: ValueEdit, b: ValueEdit): boolean => {
  const shorter = Math.min(a.path.length, b.path.length);
  return a.path.slice(0, shorter).join("\n") !== b.path.slice(0, shorter).join("\n");
};

const twoEditors = written.chain((recipe) => {
  const ids = Object.keys((recipe.value["frames"] as object | undefined) ?? { "07": {} });
  const one = fc.array(edit(ids), { minLength: 1, maxLength: 3 });
  return fc
    .tuple(fc.constant(recipe.text), one, one)
    .filter(([, a, b]) => a.every((x) => b.every((y) => disjoint(x, y))));
});

describe("disjoint edits", () => {
  test("merged are both edits, in either order, whoever merges whom", () => {
    fc.assert(
      fc.property(twoEditors, ([base, a, b]) => {
        const made = (text: string, edits: readonly ValueEdit[]): string => withEdits(text, edits, "roll");
        const [left, right] = [made(base, a), made(base, b)];
        const [ab, ba] = [made(left, b), made(right, a)];
        // An edit that takes the last key out of a mapping takes the mapping; then the order may matter to what is empty.
        expect(value(ab)).toEqual(value(ba));
        for (const [ours, theirs] of [
          [left, right],
          [right, left],
        ] as const) {
          const merged = merge(ours, theirs, base);
          expect(merged.conflicts).toEqual([]);
          expect(value(merged.text)).toEqual(value(ab));
        }
      }),
      { numRuns: 30, seed: 11 },
    );
  });

  test("our comments and layout stay; theirs that found no place are told", () => {
    const ours = swap("exposure: 0   # by eye", "exposure: 0.2   # by eye, twice");
    const theirs = swap("contrast: 1.4", "contrast: 1.6   # for the grade 3 look");
    expect(merge(ours, theirs)).toEqual({
      text: swap("contrast: 1.4", "contrast: 1.6", ours),
      conflicts: [],
      lostComments: ["# for the grade 3 look"],
    });
    const byLines = swap("contrast: 1.4", "contrast: 1.6   # for the grade 3 look", ours);
    expect(merge(ours, theirs, BASE, { byLines })).toEqual({ text: byLines, conflicts: [], lostComments: [] });
  });

  test("a merge by lines that says something else is not taken", () => {
    const [ours, theirs] = [swap("exposure: 0 ", "exposure: 1 "), swap("contrast: 1.4", "contrast: 1.6")];
    const merged = merge(ours, theirs, BASE, { byLines: ours });
    expect(value(merged.text)).toEqual(value(swap("contrast: 1.4", "contrast: 1.6", ours)));
  });

  test("two values on one line, two outputs, two specks, two frames at the same place", () => {
    const one = (text: string) =>
      value(text) as { frames: Record<string, { positive?: unknown; spots?: unknown }>; output: unknown };
    const line = merge(
      swap("{ exposure: 0.1 }", "{ exposure: 0.3 }"),
      swap("{ exposure: 0.1 }", "{ exposure: 0.1, contrast: 1.2 }"),
    );
    expect(one(line.text).frames["01"]?.positive).toEqual({ exposure: 0.3, contrast: 1.2 });
    const web = "  - { name: web, type: jpeg, quality: 90 }\n";
    const outputs = merge(
      swap(web, `${web}  - { name: archive, type: tiff }\n`),
      swap(web, "  - { name: web, type: jpeg, quality: 80 }\n  - { name: proof, type: png }\n"),
    );
    expect(one(outputs.text).output).toEqual([
      { name: "web", type: "jpeg", quality: 80 },
      { name: "archive", type: "tiff" },
      { name: "proof", type: "png" },
    ]);
    const hair = { line: [[0.3, 0.3] as const, [0.4, 0.35] as const], width: 0.002 };
    const hairs = merge(
      swap("[[0.1, 0.2, 0.003]]", "[[0.1, 0.2, 0.003], { line: [[0.3, 0.3], [0.4, 0.35]], width: 0.002 }]"),
      swap("[[0.1, 0.2, 0.003]]", "[[0.1, 0.2, 0.003], [0.5, 0.5, 0.01]]"),
    );
    expect(one(hairs.text).frames["02"]?.spots).toEqual([[0.1, 0.2, 0.003], hair, [0.5, 0.5, 0.01]]);
    const spots = merge(
      swap("[[0.1, 0.2, 0.003]]", "[[0.1, 0.2, 0.003], [0.5, 0.5, 0.01]]"),
      swap("[[0.1, 0.2, 0.003]]", "[[0.7, 0.1, 0.002]]"),
    );
    expect(one(spots.text).frames["02"]?.spots).toEqual([
      [0.5, 0.5, 0.01],
      [0.7, 0.1, 0.002],
    ]);
    const frames = merge(`${BASE}  "03": { scan: C.dng }\n`, `${BASE}  "04": { scan: D.dng }\n`);
    expect(Object.keys(one(frames.text).frames)).toEqual(["01", "02", "03", "04"]);
    for (const merged of [line, outputs, spots, frames]) expect(merged.conflicts).toEqual([]);
  });
});

describe("a frame that one side renamed", () => {
  const renamed = swap('"01": {', '"00A": {');
  const edited = swap("{ exposure: 0.1 }", "{ exposure: 0.4 }");
  const both = swap("{ exposure: 0.1 }", "{ exposure: 0.4 }", renamed);

  test("keeps what the other side changed in it, whoever merges whom, and its comment", () => {
    expect(merge(renamed, edited)).toEqual({ text: both, conflicts: [], lostComments: [] });
    expect(merge(edited, renamed)).toEqual({ text: both, conflicts: [], lostComments: [] });
  });

  test("and changed is merged value by value, also where both gave it the same name", () => {
    const noted = swap("scan: A.dng, ", "scan: A.dng, note: hold the sky, ", renamed);
    const wanted = swap("scan: A.dng, ", "scan: A.dng, note: hold the sky, ", both);
    for (const other of [edited, both]) {
      const { text, conflicts } = merge(noted, other);
      expect(conflicts).toEqual([]);
      expect(value(text)).toEqual(value(wanted));
    }
    expect(merge(swap("exposure: 0.1", "exposure: 0.2", renamed), edited).conflicts).toEqual([
      'frames."00A".positive.exposure',
    ]);
  });

  test("and the other too, to another name: it cannot have both", () => {
    const { text, conflicts } = merge(renamed, swap('"01": {', '"1A": {'));
    expect(conflicts).toEqual(['frames."00A"', 'frames."1A"']);
    expect(text.match(/^<{7}/gm)).toHaveLength(1);
  });

  test("is gone where the other side took it away, unless it was changed as well", () => {
    const gone = swap(`  "01": { scan: A.dng, positive: { exposure: 0.1 } }\n`, "");
    for (const [ours, theirs] of [
      [renamed, gone],
      [gone, renamed],
    ] as const)
      expect(value(merge(ours, theirs).text)).toEqual(value(gone));
    const changed = swap("0.1 }", "0.2 }", renamed);
    expect(merge(changed, gone).conflicts).toEqual(['frames."00A"']);
    expect(merge(gone, changed).conflicts).toEqual(['frames."00A"']);
  });

  test("conflicts where the other side has another frame of that name", () => {
    const another = `${edited}  "00A": { scan: Z.dng }\n`;
    expect(merge(renamed, another).conflicts).toEqual(['frames."00A".scan', 'frames."01"']);
  });
});

describe("conflicts", () => {
  test("are marked on the value, and what does not conflict is merged", () => {
    const ours = swap("exposure: 0   # by eye", "exposure: 0.2   # by eye");
    const theirs = swap("contrast: 1.4", "contrast: 1.6", swap("exposure: 0   # by eye", "exposure: -0.3   # by eye"));
    const { text, conflicts } = merge(ours, theirs, BASE, { ours: "HEAD", theirs: "topic" });
    expect(conflicts).toEqual(["positive.exposure"]);
    expect(text).toBe(
      swap(
        "  exposure: 0.2   # by eye\n",
        "<<<<<<< HEAD\n  exposure: 0.2   # by eye\n=======\n  exposure: -0.3   # by eye\n>>>>>>> topic\n",
        swap("contrast: 1.4", "contrast: 1.6", ours),
      ),
    );
  });

  test("that share a line share their markers; each side is a whole recipe", () => {
    const editors = (values: string) =>
      swap("{ exposure: 0.1 }", values, swap("exposure: 0 ", `exposure: ${values.length} `));
    const [ours, theirs] = [editors("{ exposure: 0.2, contrast: 1.1 }"), editors("{ exposure: 0.3, contrast: 1.25 }")];
    const { text, conflicts } = merge(ours, theirs);
    expect(conflicts).toHaveLength(3);
    expect(text.match(/^<{7}/gm)).toHaveLength(2);
    const side = (which: "ours" | "theirs"): string =>
      text.replaceAll(/<{7}.*\n([^]*?)={7}\n([^]*?)>{7}.*\n/g, which === "ours" ? "$1" : "$2");
    expect(value(side("ours"))).toEqual(value(ours));
    expect(value(side("theirs"))).toEqual(value(theirs));
  });

  test("a frame that one side removed and the other edited", () => {
    const ours = swap(`  "01": { scan: A.dng, positive: { exposure: 0.1 } }\n`, "");
    const theirs = swap("{ exposure: 0.1 }", "{ exposure: 0.4 }");
    const { text, conflicts } = merge(ours, theirs);
    expect(conflicts).toEqual(['frames."01"']);
    expect(text).toContain(">>>>>>> theirs");
    expect(text).toContain("exposure: 0.4");
  });

  test("one side merges exposures, the other joins scans", () => {
    const ours = swap("scan: A.dng", "exposures: [A.dng, A2.dng]");
    const { conflicts } = merge(ours, swap("scan: A.dng", "scans: [A.dng, A3.dng]"));
    expect([...conflicts].toSorted()).toEqual(
      ["channels", "exposures", "scan", "scans"].map((key) => `frames."01".${key}`),
    );
    expect(merge(ours, swap("exposure: 0.1", "exposure: 0.2")).conflicts).toEqual([]);
  });

  test("one side scans in three colours, the other merges exposures", () => {
    const ours = swap("scan: A.dng", "channels: { red: R.dng, green: A.dng, blue: B.dng }");
    const { conflicts } = merge(ours, swap("scan: A.dng", "exposures: [A.dng, A2.dng]"));
    expect([...conflicts].toSorted()).toEqual(
      ["channels", "exposures", "scan", "scans"].map((key) => `frames."01".${key}`),
    );
    expect(merge(ours, swap("exposure: 0.1", "exposure: 0.2")).conflicts).toEqual([]);
  });

  test("one side gives a gamma, the other a curve", () => {
    const ours = swap("gamma: 0.55", "gamma: 0.6");
    const curve = "curve: { logH: [0, 1], density: [0.1, 0.9] }";
    const { conflicts } = merge(ours, swap("gamma: 0.55", curve));
    expect(conflicts).toEqual(["negative.gamma", "negative.curve"]);
    expect(merge(BASE, swap("gamma: 0.55", curve)).conflicts).toEqual([]);
  });

  test("markers of another length, Windows line ends", () => {
    const windows = (text: string): string => text.replaceAll("\n", "\r\n");
    const { text } = merge(windows(swap("1.4", "1.5")), windows(swap("1.4", "1.6")), windows(BASE), { size: 9 });
    expect(text).toContain("<<<<<<<<< ours\r\n  contrast: 1.5\r\n=========\r\n  contrast: 1.6\r\n>>>>>>>>> theirs\r\n");
    expect(text.replaceAll("\r\n", "")).not.toContain("\n");
  });
});

test("a text that is not YAML is left to a merge by lines", () => {
  expect(mergeRecipes(BASE, "a: [", BASE, { file: FILE })).toBeUndefined();
});

test("sides of two versions are merged in the terms of the newer one", () => {
  const base = swap("contrast: 1.4", "contrast: 1.4\n  toe: 0.3");
  const theirs = swap("toe: 0.3", "toe: 0.6", base);
  for (const [ours, other] of [
    [upgraded(base), theirs],
    [theirs, upgraded(base)],
  ] as const) {
    const { text, conflicts } = merge(ours, other, base);
    expect(conflicts).toEqual([]);
    // 0.6 of version 1 is 0.05 of version 2, and never 0.6 of it.
    expect(value(text)).toMatchObject({ version: 2, positive: { toe: 0.05 } });
  }
  const both = merge(swap("toe: 0", "toe: 0.4", upgraded(base)), theirs, base);
  expect(both.conflicts).toEqual(["positive.toe"]);
});

test("areas of local exposure merge by identity, and one area key by key", () => {
  const sky = "{ id: a1, name: sky, line: [[0.5, 0.1], [0.5, 0.5]], exposure: -0.5 }";
  const face = "{ id: a2, oval: [0.4, 0.4, 0.1, 0.2], exposure: 0.4 }";
  const base = swap("contrast: 1.4", `contrast: 1.4\n  local:\n    - ${sky}\n    - ${face}`);
  const local = (text: string): unknown => (value(text) as { positive: { local: unknown } }).positive.local;
  const ours = swap("exposure: -0.5", "exposure: -0.8", base);
  const theirs = swap("[0.4, 0.4, 0.1, 0.2]", "[0.6, 0.4, 0.1, 0.2]", base);
  const merged = merge(ours, theirs, base);
  expect(merged.conflicts).toEqual([]);
  expect(local(merged.text)).toMatchObject([{ exposure: -0.8 }, { oval: [0.6, 0.4, 0.1, 0.2] }]);
  const both = merge(ours, swap("name: sky", "name: clouds", base), base);
  expect(both.conflicts).toEqual([]);
  expect(local(both.text)).toMatchObject([{ name: "clouds", exposure: -0.8 }, { id: "a2" }]);
  expect(merge(ours, swap("exposure: -0.5", "exposure: -0.3", base), base).conflicts).toEqual(["positive.local"]);
});

describe("frames that were moved", () => {
  const roll = (...lines: string[]): string => `version: 1\nframes:\n${lines.map((line) => `  ${line}\n`).join("")}`;
  const [A, B, C, D] = ["A", "B", "C", "D"].map((scan, i) => `"0${i + 1}": { scan: ${scan}.dng }`) as [
    string,
    string,
    string,
    string,
  ];
  const brighter = `"03": { scan: C.dng, positive: { exposure: 0.3 } }`;
  const base = roll(A, B, C, D);
  const merged = (ours: string, theirs: string, options: Partial<MergeOptions> = {}): string => {
    const { text, conflicts } = merge(ours, theirs, base, options);
    expect(conflicts).toEqual([]);
    return text;
  };

  test("by one side, and changed by the other, are both, whoever merges whom", () => {
    const moved = roll(C, A, B, D);
    const changed = roll(A, B, brighter, D);
    expect(merged(moved, changed)).toBe(roll(brighter, A, B, D));
    expect(merged(changed, moved)).toBe(roll(brighter, A, B, D));
  });

  test("by both sides: others apart, the same frame as we have it", () => {
    expect(merged(roll(C, A, B, D), roll(A, C, D, B))).toBe(roll(C, A, D, B));
    expect(merged(roll(D, A, B, C), roll(A, D, B, C))).toBe(roll(D, A, B, C));
  });

  test("lines in which a moved frame stands twice are not taken", () => {
    const byLines = roll(D, A, D, B, C);
    expect(merged(roll(D, A, B, C), roll(A, D, B, C), { byLines })).toBe(roll(D, A, B, C));
  });

  test("behind the last, where we have a new one behind it; and under the name that we gave one", () => {
    const fifth = `"05": { scan: E.dng }`;
    expect(merged(roll(A, B, C, D, fifth), roll(B, C, D, A))).toBe(roll(B, C, D, A, fifth));
    const named = A.replace("01", "00A");
    expect(merged(roll(named, B, C, D), roll(B, A, C, D))).toBe(roll(B, named, C, D));
  });

  test("in any order on either side: every frame is there once, and a side that moved nothing changes no order", () => {
    const order = fc.shuffledSubarray([A, B, C, D], { minLength: 4 });
    fc.assert(
      fc.property(order, order, (a, b) => {
        const text = merged(roll(...a), roll(...b));
        expect(text.split("\n").toSorted()).toEqual(base.split("\n").toSorted());
        expect(merged(base, roll(...a))).toBe(roll(...a));
        expect(merged(roll(...a), base)).toBe(roll(...a));
      }),
    );
  });
});
