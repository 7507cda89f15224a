import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { movable, move } from "../../../../extension/recipe/language/move.ts";
import { english } from "../../../../extension/recipe/language/types.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { browserBuild } from "./features-browser.ts";
import { direct } from "./features-direct.ts";
import { edited, open } from "./memory.ts";
import { files, roll, stock } from "./recipes.ts";

const stockFile = "/w/stocks/northlight-400.stock.yaml";

const framesOf = (texts: ReadonlyMap<string, string>, file: string) =>
  resolveRoll(parseRecipe(texts.get(file)!, { file }), parseRecipe(texts.get(stockFile)!, { file: stockFile })).frames;

describe.each([direct, browserBuild])("moves $name", (features) => {
  /** Moves the value at `place`; gives the texts of all files after that, or why it was refused. */
  async function moved(
    text: string,
    place: string,
    target: "roll" | "stock",
    others: Readonly<Record<string, string>> = {},
  ) {
    const opened = await features.open(text.replace(place, `|${place}`), { ...files, ...others });
    const edits = await opened.move(target);
    if (!edits) return { problem: "not offered" };
    if ("problem" in edits) return edits;
    const after = new Map(opened.files);
    for (const one of edits) after.set(one.file, edited(after.get(one.file)!, one.edits));
    return { before: opened.files, after, touched: edits.map(({ file }) => file) };
  }

  describe("moving a value to the roll", () => {
    it("states it once, and has the other frames keep what they had", async () => {
      const result = await moved(roll, "contrast: 1.7", "roll");
      if ("problem" in result) throw new Error(result.problem);
      const text = result.after.get("/w/harbour.roll.yaml")!;
      expect(result.touched).toEqual(["/w/harbour.roll.yaml"]);
      expect(text).toContain("  contrast: 1.7\n  toe: 0.3\n");
      expect(text).not.toMatch(/"03":\n {4}scan: H0003.dng\n {4}positive/);
      expect(text).toContain("positive: { exposure: 0.33, contrast: 1.5 }");
      expect(framesOf(result.after, "/w/harbour.roll.yaml")).toEqual(framesOf(result.before, "/w/harbour.roll.yaml"));
    });

    it("writes nothing into frames that had the same", async () => {
      const result = await moved(roll.replace("contrast: 1.7", "contrast: 1.5"), "contrast: 1.5", "roll");
      if ("problem" in result) throw new Error(result.problem);
      expect(result.after.get("/w/harbour.roll.yaml")).toBe(
        roll
          .replace("  toe: 0.3\n", "  contrast: 1.5\n  toe: 0.3\n")
          .replace("    positive:\n      contrast: 1.7\n", ""),
      );
    });

    it("moves a whole section by its key", async () => {
      const result = await moved(
        roll.replace("contrast: 1.7", "contrast: 1.7\n      black: 2"),
        "positive:\n      contrast",
        "roll",
      );
      if ("problem" in result) throw new Error(result.problem);
      const text = result.after.get("/w/harbour.roll.yaml")!;
      expect(text).toContain("  contrast: 1.7\n  toe: 0.3\n  black: 2\n");
      expect(framesOf(result.after, "/w/harbour.roll.yaml")).toEqual(framesOf(result.before, "/w/harbour.roll.yaml"));
    });

    it("is refused where other frames could not keep what they had", async () => {
      const own = roll
        .replace("light:\n  blank: LIGHT.dng\n", "")
        .replace('"02":\n', '"02":\n    light: { blank: LIGHT.dng }\n');
      expect(await moved(own, "blank: LIGHT.dng", "roll")).toMatchObject({
        problem: expect.stringContaining("light.blank"),
      });
    });

    it("is not offered for what a frame does not share, nor for a roll's own values", async () => {
      expect(await moved(roll, "scan: H0002", "roll")).toEqual({ problem: "not offered" });
      expect(await moved(roll, "toe: 0.3", "roll")).toEqual({ problem: "not offered" });
    });

    it("is refused while the recipe has errors", async () => {
      expect(await moved(roll.replace("toe: 0.3", "toe: 3"), "contrast: 1.7", "roll")).toEqual({
        problem: "harbour.roll.yaml has errors. Fix them first.",
      });
    });
  });

  describe("moving a value to the stock", () => {
    it("changes both files and no frame", async () => {
      const result = await moved(roll, "toe: 0.3", "stock");
      if ("problem" in result) throw new Error(result.problem);
      expect(new Set(result.touched)).toEqual(new Set(["/w/harbour.roll.yaml", stockFile]));
      expect(result.after.get(stockFile)).toBe(stock.replace("toe: 0.25", "toe: 0.3"));
      expect(result.after.get("/w/harbour.roll.yaml")).toBe(roll.replace("  toe: 0.3\n", ""));
      expect(framesOf(result.after, "/w/harbour.roll.yaml")).toEqual(framesOf(result.before, "/w/harbour.roll.yaml"));
    });

    it("has other rolls of the stock keep what they had", async () => {
      const other = 'version: 1\nstock: stocks/northlight-400.stock.yaml\nframes:\n  "07":\n    scan: H0007.dng\n';
      const otherFrames = 'version: 1\nframes:\n  "07":\n    scan: H0007.dng\n';
      const result = await moved(roll, "toe: 0.3", "stock", {
        "other.roll.yaml": other,
        "unlike.roll.yaml": otherFrames,
      });
      if ("problem" in result) throw new Error(result.problem);
      expect(result.after.get("/w/other.roll.yaml")).toContain("positive:\n  toe: 0.25\n");
      expect(result.after.get("/w/unlike.roll.yaml")).toBe(otherFrames);
      expect(framesOf(result.after, "/w/other.roll.yaml")).toEqual(framesOf(result.before, "/w/other.roll.yaml"));
    });

    it("goes past the roll for a value of a frame", async () => {
      const result = await moved(roll, "contrast: 1.7", "stock");
      if ("problem" in result) throw new Error(result.problem);
      expect(result.after.get(stockFile)).toBe(stock.replace("contrast: 1.5", "contrast: 1.7"));
      expect(framesOf(result.after, "/w/harbour.roll.yaml")).toEqual(framesOf(result.before, "/w/harbour.roll.yaml"));
    });

    it("is not offered without a stock, nor for what no stock has", async () => {
      expect(await moved(roll.replace(/^stock:.*\n/m, ""), "toe: 0.3", "stock")).toEqual({ problem: "not offered" });
      expect(await moved(roll, "blank: LIGHT.dng", "stock")).toEqual({ problem: "not offered" });
    });
  });
});

describe("any value of any roll", () => {
  const value = fc.record(
    {
      exposure: fc.integer({ min: -3, max: 3 }),
      contrast: fc.constantFrom(1.2, 1.35, 1.5),
      toe: fc.constantFrom(0.25, 0.3),
      filtration: fc.record(
        { magenta: fc.integer({ min: 0, max: 3 }), yellow: fc.integer({ min: 0, max: 3 }) },
        { requiredKeys: [] },
      ),
    },
    { requiredKeys: [] },
  );

  it("can move without changing what any frame resolves to, or is refused", async () => {
    let done = 0;
    await fc.assert(
      fc.asyncProperty(
        value,
        fc.array(value, { minLength: 1, maxLength: 4 }),
        fc.nat(),
        fc.boolean(),
        async (shared, own, pick, toStock) => {
          const section = (positive: object) =>
            Object.keys(positive).length > 0 ? `positive: ${JSON.stringify(positive)}` : "note: x";
          const frames = own.map((one, i) => `  "0${i}":\n    scan: H${i}.dng\n    ${section(one)}\n`).join("");
          const text = `version: 1\nstock: stocks/northlight-400.stock.yaml\n${section(shared)}\nframes:\n${frames}`;
          const places = [...text.matchAll(/"(exposure|contrast|toe|magenta|yellow)"/g)];
          if (places.length === 0) return;
          const at = places[pick % places.length]!.index + 1;
          const { reading, offset, documents, workspace } = await open(`${text.slice(0, at)}|${text.slice(at)}`, files);
          const what = movable(reading, offset).find(({ target }) => target === (toStock ? "stock" : "roll"));
          if (!what) return;
          const edits = await move(reading, what, documents, workspace, english);
          if ("problem" in edits) return;
          const after = new Map(workspace.files);
          for (const one of edits) after.set(one.file, edited(after.get(one.file)!, one.edits));
          expect(framesOf(after, "/w/harbour.roll.yaml")).toEqual(framesOf(workspace.files, "/w/harbour.roll.yaml"));
          done++;
        },
      ),
      { numRuns: 150, seed: 3 },
    );
    expect(done).toBeGreaterThan(60);
  });
});
