import { describe, expect, it } from "vitest";
import { diagnostics, isStructural, problemCodes } from "../../../../extension/recipe/language/diagnostics.ts";
import { fixes, fixableCodes } from "../../../../extension/recipe/language/fixes.ts";
import { english } from "../../../../extension/recipe/language/types.ts";
import type { ProblemCode } from "../../../../extension/recipe/problems.ts";
import { browserBuild } from "./features-browser.ts";
import { direct } from "./features-direct.ts";
import { covered, edited, open } from "./memory.ts";
import { files, roll } from "./recipes.ts";
import { specimens } from "./specimens.ts";

describe.each([direct, browserBuild])("problems and fixes $name", (features) => {
  /** The fixes of the first problem with this code, and what the text becomes by each. */
  async function remedies(text: string, code: ProblemCode, name?: string) {
    const opened = await features.open(text, files, name);
    const codes = (await opened.problems()).map((one) => one.code);
    if (!codes.includes(code)) throw new Error(`No ${code} in ${JSON.stringify(text)}, only ${codes.join(", ")}.`);
    return (await opened.fixes(code)).map(({ title, preferred, edits }) => ({
      title,
      preferred,
      after: edited(text, edits),
    }));
  }

  describe("every code of a problem", () => {
    it.each(problemCodes.filter((code) => code !== "too-large"))(
      "%s is shown at exactly the offending text",
      async (code) => {
        const { text, at, name, others } = specimens[code];
        const problems = await (await features.open(text, { ...files, ...others }, name)).problems();
        const found = problems.filter((one) => one.code === code);
        expect(problems.map((one) => one.code)).toContain(code);
        expect(covered(text, found[0]!.range)).toBe(at);
        expect(found[0]!.message.length).toBeGreaterThan(20);
      },
    );

    it("has at most 1000 problems in a text, and the largest text is refused at its first character", async () => {
      const problems = await (await features.open(`version: 1\n${"#".repeat(2_000_001)}`)).problems();
      const [start, end] = [0, 1].map((character) => ({ line: 0, character }));
      expect(problems.map(({ code, range }) => [code, range])).toEqual([["too-large", { start, end }]]);
    });
  });

  describe("quick fixes", () => {
    it("correct a misspelt key", async () => {
      const [first] = await remedies(roll.replace("toe:", "tow:"), "unknown-key");
      expect(first).toEqual({ title: "Change to toe", preferred: true, after: roll });
    });

    it("do not rename a key to one that is there", async () => {
      const titles = (await remedies(roll.replace("title: Harbour", "title: Harbour\ntitel: x"), "unknown-key")).map(
        ({ title }) => title,
      );
      expect(titles).toEqual(["Remove titel"]);
    });

    it("correct a misspelt word, and offer the others", async () => {
      const all = await remedies("version: 1\nfilm: slde\n", "not-one-of");
      expect(all[0]).toEqual({ title: "Change to slide", preferred: true, after: "version: 1\nfilm: slide\n" });
      expect(all.slice(1).map(({ preferred }) => preferred)).toEqual([false, false]);
    });

    it("bring a number into its range, which is no safe thing to do unasked", async () => {
      expect(await remedies(roll.replace("contrast: 1.7", "contrast: 17"), "out-of-range")).toEqual([
        { title: "Change to 5", preferred: false, after: roll.replace("contrast: 1.7", "contrast: 5") },
      ]);
    });

    it("add the version", async () => {
      expect(await remedies("title: x\n", "missing-key")).toEqual([
        { title: "Add version: 2", preferred: true, after: "version: 2\ntitle: x\n" },
      ]);
      expect((await remedies("", "not-a-mapping"))[0]!.after).toBe("version: 2\n");
    });

    it("quote a frame id, with its own digits", async () => {
      const [first] = await remedies(roll.replace('"02"', "02"), "unquoted-frame-id");
      expect(first).toEqual({ title: 'Write it as "02"', preferred: true, after: roll });
    });

    it("correct a frame id's capital", async () => {
      const [first] = await remedies(roll.replace('"02"', '"12a"'), "bad-frame-id");
      expect(first!.after).toBe(roll.replace('"02"', '"12A"'));
    });

    it("write a number that was a text, and a text that was a number", async () => {
      expect((await remedies("version: 1\npositive:\n  toe: '0,3'\n", "wrong-type"))[0]!.after).toBe(
        "version: 1\npositive:\n  toe: 0.3\n",
      );
      expect((await remedies("version: 1\nformat: 135\n", "wrong-type"))[0]!.after).toBe('version: 1\nformat: "135"\n');
      expect(
        (await remedies('version: 1\nframes:\n  "01":\n    scan: a.dng\n    mirror: yes\n', "wrong-type"))[0]!.after,
      ).toContain("mirror: true");
    });

    it("remove a key stated twice, on its own line and between brackets", async () => {
      expect((await remedies("version: 1\ntitle: a\ntitle: b\n", "duplicate-key"))[0]!.after).toBe(
        "version: 1\ntitle: a\n",
      );
      expect(
        (await remedies("version: 1\nexposed: { push: 1, push: 2, rated: 400 }\n", "duplicate-key"))[0]!.after,
      ).toBe("version: 1\nexposed: { push: 1, rated: 400 }\n");
    });

    it("replace tabs by two blanks each", async () => {
      expect((await remedies("version: 1\npositive:\n\ttoe: 0.3\n", "tab-indent"))[0]!.after).toBe(
        "version: 1\npositive:\n  toe: 0.3\n",
      );
    });

    it("remove either of two keys that exclude each other", async () => {
      const text = "version: 1\nnegative:\n  gamma: 0.6\n  curve: { logH: [0, 1], density: [0, 1] }\n";
      expect((await remedies(text, "gamma-and-curve")).map(({ title }) => title)).toEqual([
        "Remove gamma",
        "Remove curve",
      ]);
    });

    it("remove what has no effect, which is safe", async () => {
      const text = "version: 1\noutput:\n  - { name: a, type: png, quality: 90 }\n";
      const [first] = await remedies(text, "without-effect");
      expect(first).toMatchObject({ preferred: true, after: text.replace(", quality: 90", "") });
    });

    it("sort the points of a tone curve", async () => {
      const text = "version: 1\npositive:\n  curve: [[0, 0], [75, 78], [25, 23], [100, 100]]\n";
      expect((await remedies(text, "not-ascending"))[0]!.after).toContain("[[0, 0], [25, 23], [75, 78], [100, 100]]");
    });

    it("name the scan or stock that was meant", async () => {
      expect((await remedies(roll.replace("H0002.dng", "H0002.DNG"), "missing-scan"))[0]).toMatchObject({
        preferred: true,
        after: roll,
      });
      expect(await remedies(roll.replace("H0002.dng", "H0009.dng"), "missing-scan")).toEqual([]);
      const [stock] = await remedies(roll.replace("stocks/north", "stock/north"), "missing-stock");
      expect(stock?.after).toBe(roll);
    });

    it("that are safe can be made all at once, and fix what they are for", async () => {
      const text = roll
        .replace("toe:", "tow:")
        .replace('"02"', "02")
        .replace("contrast: 1.7", "contrst: 1.7")
        .replace("version: 1\n", "");
      const all = await (await features.open(text, files)).fixAll();
      expect(edited(text, all!)).toBe(roll.replace("version: 1", "version: 2"));
      expect(await (await features.open(roll, files)).fixAll()).toBeUndefined();
    });
  });

  describe("each fix of each code", () => {
    it.each(fixableCodes)("of %s leaves one problem less of its kind", async (code) => {
      const { text, name, others } = specimens[code];
      const opened = await features.open(text, { ...files, ...others }, name);
      const made = await opened.fixes(code);
      expect(made.length).toBeGreaterThan(0);
      const count = (all: readonly { code: string }[]) => all.filter((one) => one.code === code).length;
      for (const fix of made) {
        const after = await features.open(edited(text, fix.edits), { ...files, ...others }, name);
        expect(count(await after.problems())).toBeLessThan(count(await opened.problems()));
      }
    });
  });
});

describe("structural problems", () => {
  it("are left to another extension where it reports them, all others stay", async () => {
    const { reading } = await open(roll.replace("contrast: 1.7", "contrast: 17").replace("H0002", "H0009"), files);
    expect(diagnostics(reading, true, () => undefined).map(({ code }) => code)).toEqual([
      "missing-scan",
      "out-of-range",
    ]);
    expect(diagnostics(reading, false, () => undefined).map(({ code }) => code)).toEqual(["missing-scan"]);
  });

  it("are what a schema can tell", () => {
    expect(problemCodes.filter(isStructural)).toContain("unknown-key");
    for (const code of ["unsafe-path", "area-outside", "missing-scan", "conflict-markers"] as const)
      expect(isStructural(code)).toBe(false);
  });
});

describe("related places", () => {
  it("are given in lines, in other files too", async () => {
    const broken = "version: 1\npositive:\n  toe: 3\n";
    const { reading, documents } = await open(roll, { ...files, "stocks/northlight-400.stock.yaml": broken });
    const stock = await documents.file("/w/stocks/northlight-400.stock.yaml");
    const [found] = diagnostics(reading, true, () => stock).filter(({ code }) => code === "broken-stock");
    expect(found!.message).not.toContain("/w/");
    expect(found!.related).toMatchObject([
      { file: "/w/stocks/northlight-400.stock.yaml", range: { start: { line: 2, character: 7 } } },
    ]);
  });
});

describe("fixes by place", () => {
  it("do nothing while the text is no YAML", async () => {
    const { reading } = await open("version: 1\npositive: [\n");
    expect(fixes(reading.document, reading.problems, [0, 100], english)).toEqual([]);
  });

  it("are found by place", async () => {
    const text = roll.replace("toe:", "tow:");
    const { reading } = await open(text, files);
    const at = text.indexOf("tow");
    expect(fixes(reading.document, reading.problems, [at + 1, at + 1], english)).not.toEqual([]);
    expect(fixes(reading.document, reading.problems, [0, 3], english)).toEqual([]);
  });
});
