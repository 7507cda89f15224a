import { describe, expect, it } from "vitest";
import { frameLenses } from "../../../../extension/recipe/language/lenses.ts";
import { rollSummary } from "../../../../extension/recipe/language/roll-summary.ts";
import type { Symbol } from "../../../../extension/recipe/language/symbols.ts";
import { browserBuild } from "./features-browser.ts";
import { direct } from "./features-direct.ts";
import { covered, edited, open } from "./memory.ts";
import { files, roll, stock } from "./recipes.ts";

const caretAt = (text: string, place: string) => text.replace(place, `|${place}`);

describe.each([direct, browserBuild])("the text features $name", (features) => {
  describe("hovers", () => {
    const hoverAt = async (place: string, text = roll) => {
      const opened = await features.open(caretAt(text, place), files);
      const found = await opened.hover();
      return found && { ...found, over: covered(opened.text, found.range) };
    };

    it("say what a key means, its unit, range and default", async () => {
      const found = await hoverAt("contrast: 1.7");
      expect(found?.over).toBe("contrast");
      expect(found?.contents).toContain("**contrast** · slope at mid-grey");
      expect(found?.contents).toContain("Range: 0.2 to 5 · Default: 1.35; 1 for slides");
    });

    it("name the value that is replaced, with a link to its line", async () => {
      const { contents } = (await hoverAt("contrast: 1.7"))!;
      expect(contents).toContain(
        "Replaces `1.5`, from the stock, [northlight-400.stock.yaml:8](/w/stocks/northlight-400.stock.yaml#L8)",
      );
      expect((await hoverAt("toe: 0.3"))?.contents).toContain("Replaces `0.25`, from the stock");
    });

    it("name the default where nothing else is replaced", async () => {
      expect((await hoverAt("exposure: 0.33"))?.contents).toContain("Replaces `0`, the default");
    });

    it("tell of a frame what it states itself", async () => {
      const { contents } = (await hoverAt('"03"'))!;
      expect(contents).toContain("**Frame 03**");
      expect(contents).toContain("Scan: `H0003.dng`");
      expect(contents).toContain("Its own: `positive.contrast`");
    });

    it("describe the allowed words", async () => {
      expect((await hoverAt("film:", `version: 1\nfilm: slide\n`))?.contents).toContain(
        "One of: `colour-negative`, `black-and-white-negative`, `slide` · Default: `colour-negative`",
      );
    });

    it("stay away from gaps, unknown keys and texts that cannot be read", async () => {
      expect(await hoverAt("\nframes:", "version: 1\n\nframes:\n")).toBeUndefined();
      expect(await hoverAt("colour: 1", "version: 1\ncolour: 1\n")).toBeUndefined();
      expect(await hoverAt("<<<<", "version: 1\n<<<<<<< HEAD\nfilm: slide\n=======\n>>>>>>> other\n")).toBeUndefined();
    });
  });

  describe("go to definition", () => {
    const from = async (place: string, text = roll) => {
      const opened = await features.open(caretAt(text, place), files);
      const found = await opened.definition();
      return found && { file: found.file, line: found.range.start.line + 1, from: covered(opened.text, found.from) };
    };

    it("opens the stock and the scans", async () => {
      expect(await from("stocks/north")).toEqual({
        file: "/w/stocks/northlight-400.stock.yaml",
        line: 1,
        from: "stocks/northlight-400.stock.yaml",
      });
      expect(await from("H0002.dng")).toMatchObject({ file: "/w/scans/H0002.dng" });
      expect(await from("LIGHT.dng")).toMatchObject({ file: "/w/scans/LIGHT.dng" });
    });

    it("goes from a value to the one that it replaces", async () => {
      expect(await from("contrast: 1.7")).toEqual({
        file: "/w/stocks/northlight-400.stock.yaml",
        line: 8,
        from: "contrast",
      });
      expect(await from("toe: 0.3")).toMatchObject({ file: "/w/stocks/northlight-400.stock.yaml", line: 9 });
    });

    it("goes nowhere from values that replace nothing, and to files that are not there", async () => {
      expect(await from("exposure: 0.33")).toBeUndefined();
      expect(await from("gone.dng", roll.replace("H0002", "gone"))).toBeUndefined();
    });
  });

  describe("document links", () => {
    it("cover each path, quotes left out, and lead nowhere outside", async () => {
      const opened = await features.open(
        roll.replace("H0002.dng", '"H0002.dng"').replace("H0003.dng", "../../../etc/passwd"),
        files,
      );
      const found = (await opened.links()).map(({ range, file }) => [covered(opened.text, range), file]);
      expect(found).toContainEqual(["stocks/northlight-400.stock.yaml", "/w/stocks/northlight-400.stock.yaml"]);
      expect(found).toContainEqual(["H0002.dng", "/w/scans/H0002.dng"]);
      expect(found.some(([, file]) => file!.includes("passwd"))).toBe(false);
    });
  });

  describe("the outline", () => {
    it("shows frames with their scan, and what they state themselves", async () => {
      const outline = await (await features.open(roll, files)).symbols();
      expect(outline.map(({ name }) => name)).toEqual([
        "version",
        "title",
        "stock",
        "scans",
        "light",
        "positive",
        "frames",
      ]);
      const frames = outline.at(-1)!.children;
      expect(frames.map(({ name, detail, kind }) => [name, detail, kind])).toEqual([
        ["01", "H0001.dng", "frame"],
        ["02", "H0002.dng", "frame"],
        ["03", "H0003.dng", "frame"],
      ]);
      expect(frames[2]!.children[1]!.children[0]).toMatchObject({ name: "contrast", detail: "1.7" });
    });

    it("keeps every child inside its parent and every name inside its range", async () => {
      const opened = await features.open(roll, files);
      const check = (all: readonly Symbol[]) => {
        for (const one of all) {
          expect(covered(opened.text, one.range)).toContain(covered(opened.text, one.selection));
          for (const inner of one.children)
            expect(covered(opened.text, one.range)).toContain(covered(opened.text, inner.range));
          check(one.children);
        }
      };
      check(await opened.symbols());
    });

    it("survives a text that is being written", async () => {
      const outline = await (await features.open("version: 1\npositive:\n  toe\nframes:\n", files)).symbols();
      expect(outline.map(({ name }) => name)).toContain("frames");
    });
  });

  describe("folding", () => {
    it("folds sections, frames and comments", async () => {
      const opened = await features.open(
        '# one\n# two\nversion: 1\nframes:\n  "01":\n    scan: a.dng\n  "02":\n    scan: b.dng\n',
      );
      expect(await opened.folds()).toEqual([
        { start: 0, end: 1, kind: "comment" },
        { start: 3, end: 7 },
        { start: 4, end: 5 },
        { start: 6, end: 7 },
      ]);
    });
  });

  describe("inlay hints", () => {
    it("show what a value replaces and what a section inherits, never defaults", async () => {
      const opened = await features.open(roll, files);
      const found = (await opened.inlays(0, 100)).map(({ at, label }) => [
        opened.text.split("\n")[at.line]!.trim(),
        label,
      ]);
      expect(found).toEqual([
        ["positive:", "contrast 1.5"],
        ["toe: 0.3", "instead of 0.25"],
        ["positive:", "magenta 4, yellow 7, toe 0.3"],
        ["contrast: 1.7", "instead of 1.5"],
      ]);
    });

    it("are made for the lines asked for alone", async () => {
      expect(await (await features.open(roll, files)).inlays(0, 9)).toHaveLength(2);
    });

    it("say where the value stands", async () => {
      const hint = (await (await features.open(roll, files)).inlays(0, 100)).at(-1)!;
      expect(hint.tooltip).toBe("stated in northlight-400.stock.yaml:8");
      expect(hint.origin).toMatchObject({ file: "/w/stocks/northlight-400.stock.yaml", line: 8 });
    });
  });

  describe("lenses", () => {
    it("stand at each frame and count its problems", async () => {
      const opened = await features.open(
        roll.replace("contrast: 1.7", "contrast: 17").replace("H0002", "H0009"),
        files,
      );
      const found = (await opened.lenses()).map(({ range, problems }) => [covered(opened.text, range), problems]);
      expect(found).toEqual([
        ['"02"', 1],
        ['"03"', 1],
      ]);
    });
  });

  describe("renaming a frame", () => {
    const renamed = async (place: string, name: string) => {
      const opened = await features.open(caretAt(roll, place), files);
      const result = await opened.rename(name);
      return "problem" in result ? result.problem : edited(opened.text, result);
    };

    it("changes the id and nothing else, with or without quotes", async () => {
      expect(await renamed('"02"', "12A")).toBe(roll.replace('"02"', '"12A"'));
      expect(await renamed('"02"', '"00"')).toBe(roll.replace('"02"', '"00"'));
    });

    it("refuses what is no id, and ids that are there", async () => {
      expect(await renamed('"02"', "twelve")).toContain("is not a frame id");
      expect(await renamed('"02"', "03")).toBe("There is a frame 03 already.");
    });

    it("is for frame ids alone", async () => {
      expect(await (await features.open(caretAt(roll, "scan: H0002"), files)).renameable()).toBeUndefined();
      expect(await (await features.open(caretAt(roll, '02":'), files)).renameable()).toBe("02");
    });
  });

  describe("a stock", () => {
    it("has hovers, an outline and no frames", async () => {
      const opened = await features.open(caretAt(stock, "contrast"), {}, "x.stock.yaml");
      expect((await opened.hover())?.contents).toContain("Replaces `1.35`, the default");
      expect(await opened.symbols()).toHaveLength(6);
      expect(await opened.lenses()).toEqual([]);
    });
  });
});

describe("lenses of frames without problems", () => {
  it("are there too, for what a desktop offers", async () => {
    const { reading } = await open(roll.replace("H0002", "H0009"), files);
    expect(
      frameLenses(reading.document, reading.problems).map(({ frame, problems }) => [
        frame,
        problems.map(({ code }) => code),
      ]),
    ).toEqual([
      ["01", []],
      ["02", ["missing-scan"]],
      ["03", []],
    ]);
  });
});

describe("the list of rolls", () => {
  it("tells of missing scans and counts problems", async () => {
    const { reading } = await open(roll.replace("contrast: 1.7", "contrast: 17").replace("H0002", "H0009"), files);
    const found = rollSummary(reading);
    expect(found).toMatchObject({ title: "Harbour", errors: 1, warnings: 1 });
    expect(found.frames.map(({ id, missing, errors }) => [id, missing, errors])).toEqual([
      ["01", [], 0],
      ["02", ["H0009.dng"], 0],
      ["03", [], 1],
    ]);
  });
});
