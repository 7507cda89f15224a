/**
 * Text is never lost: 2,000 generated recipes through format, as many edits and as many moves of a part, the same on every run.
 * PROPERTY_SEED=random plays others; `node tests/fuzz/texts.mjs` plays more.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { tryFormat } from "../../extension/recipe/edit/layout/format.ts";
import { tally } from "./yaml/tally.ts";

const { PROPERTY_SEED = "20261201" } = process.env;
const first = PROPERTY_SEED === "random" ? Math.floor(Math.random() * 2 ** 31) : Number(PROPERTY_SEED);
const COUNT = 2000;
const LIMIT = 900_000;

describe.each(["format", "edits", "moves"] as const)(`%s of texts from seed ${first}`, (what) => {
  test(
    "keeps every value and comment, and refuses none without anchors, tags and markers (moves: few)",
    () => {
      const { counts, finds } = tally(what, COUNT, first);
      expect(finds.slice(0, 3)).toEqual([]);
      const sum = (kind: string): number =>
        Object.entries(counts).reduce((total, [name, count]) => total + (name.endsWith(kind) ? count : 0), 0);
      // The generator and the YAML package differ about a tab here and there; a test of nothing would differ everywhere.
      expect(sum("misread")).toBeLessThan(COUNT / 200);
      // Where the order is fixed, or there is one part alone, there is nothing to move.
      const isMoved = what === "moves";
      expect(sum("ordinary kept")).toBeGreaterThan(COUNT / (isMoved ? 20 : 6));
      expect(sum("wild kept")).toBeGreaterThan(COUNT / (isMoved ? 5 : 2));
      // A part is moved as it stands or not at all: comments between brackets and anchors keep it where it is.
      expect(isMoved ? sum("refused") : 0).toBeLessThan(COUNT / 25);
    },
    LIMIT,
  );
});

test("every recipe of the corpus and the examples can be laid out", () => {
  const folders = ["../corpus/valid/", "../../recipes-examples/"];
  const files = folders.flatMap((folder) =>
    readdirSync(new URL(folder, import.meta.url), { recursive: true, encoding: "utf8" })
      .filter((name) => /\.(roll|stock)\.ya?ml$/.test(name))
      .map((name) => folder + name),
  );
  expect(files.length).toBeGreaterThan(8);
  for (const file of files) {
    const text = readFileSync(new URL(file, import.meta.url), "utf8");
    expect({ file, left: tryFormat(text, { file }).left }).toEqual({ file, left: undefined });
  }
});
