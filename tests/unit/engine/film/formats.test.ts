import { describe, expect, expectTypeOf, it } from "vitest";
import {
  FILM_FORMATS,
  type FormatId,
  aspectRatio,
  formatOf,
  isFormat,
} from "../../../../extension/engine/film/formats.ts";
import type { FilmFormat } from "../../../../extension/recipe/generated/types.ts";
import parts from "../../../../schemas/recipe.parts.json" with { type: "json" };
import { numbers, referenceTable } from "../../../external/reference.ts";

const rows = referenceTable("films/film_frames.csv");

/** The row of tests/reference/films/film_frames.csv for each format; sheets have none. */
const NAMES: Readonly<Partial<Record<FormatId, string>>> = {
  "135": "135 full frame",
  "135-half": "135 half frame",
  "645": "120 6x4.5",
  "6x6": "120 6x6",
  "6x7": "120 6x7",
  "6x8": "120 6x8",
  "6x9": "120 6x9",
  "6x12": "120 6x12",
  "6x17": "120 6x17",
};

describe("film formats", () => {
  it.each(Object.entries(NAMES))("%s has the size and status of the table of film frames", (id, name) => {
    const row = rows.find(({ format }) => format === name)!;
    const [long, short] = numbers(row, "long_mm", "short_mm");
    const source = row.status === "r" ? "standard" : "practice";
    expect(formatOf(id as FormatId)).toEqual({ id, long, short, source });
  });

  it("takes sheets from common practice, which the table of film frames has no row for", () => {
    const sheets = FILM_FORMATS.filter(({ id }) => NAMES[id] === undefined);
    expect(sheets.map(({ id }) => id)).toEqual(["4x5in", "5x7in", "8x10in"]);
    // A sheet is its name's inches less the margin under the holder's rails, 2 to 8 mm a side (common practice, no source).
    for (const { id, long, short, source } of sheets) {
      expect(source).toBe("practice");
      const [shortSheet, longSheet] = id
        .slice(0, -2)
        .split("x")
        .map((inches) => Number(inches) * 25.4);
      for (const margin of [(longSheet - long) / 2, (shortSheet - short) / 2]) {
        expect(margin).toBeGreaterThan(2);
        expect(margin).toBeLessThan(8);
      }
    }
  });

  it("are those of the recipe's schema, in its order", () => {
    expect(FILM_FORMATS.map(({ id }) => id)).toEqual(parts.definitions.format.enum);
    expectTypeOf<FormatId>().toEqualTypeOf<FilmFormat>();
  });

  it("name themselves and no other text", () => {
    expect(FILM_FORMATS.every(({ id }) => isFormat(id))).toBe(true);
    expect(["", "6x5", "35"].some(isFormat)).toBe(false);
  });

  it("give the ratio of the sides, the longer over the shorter", () => {
    expect(aspectRatio("135")).toBe(1.5);
    expect(FILM_FORMATS.every(({ id }) => aspectRatio(id) >= 1)).toBe(true);
  });
});
