import { describe, expect, expectTypeOf, it } from "vitest";
import {
  FILM_FORMATS,
  FORMAT_SIDE_RANGE,
  type FormatId,
  type StatedFormat,
  aspectRatio,
  formatOf,
  formatText,
  isFormat,
  parseFormat,
  pictureSides,
} from "../../../../extension/engine/film/formats.ts";
import type { FilmFormat } from "../../../../extension/recipe/generated/types.ts";
import parts from "../../../../schemas/recipe.parts.json" with { type: "json" };
import { numbers, referenceTable } from "../../../external/reference.ts";

const rows = referenceTable("films/film_frames.csv");

/** The row of tests/reference/films/film_frames.csv for each format; sheets have none. */
const NAMES: Readonly<Partial<Record<FormatId, string>>> = {
  "135": "135 full frame",
  "135-half": "135 half frame",
  "24x24": "135 square 24x24",
  "24x65": "135 panoramic 24x65",
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

  it("takes small and cine film from common practice, which the table of film frames has no row for", () => {
    const small = FILM_FORMATS.filter(({ id }) => NAMES[id] === undefined && !id.endsWith("in"));
    expect(small.map(({ id }) => id)).toEqual(
      "127-4x3 127-4x4 127-4x6 126 110 cine-35 cine-16 cine-16w cine-9.5 cine-8 cine-8s".split(" "),
    );
    expect(small.every(({ source }) => source === "practice")).toBe(true);
    // Widths of the films in millimetres (from memory): a picture is never wider than its film.
    const width = (id: string) =>
      id.startsWith("127")
        ? 46
        : id === "110"
          ? 16
          : id === "126" || id === "cine-35"
            ? 35
            : Number(/\d+(\.\d)?/.exec(id)![0]);
    for (const { id, short } of small) expect(short).toBeLessThan(width(id));
  });

  it("takes sheets from common practice, which the table of film frames has no row for", () => {
    const sheets = FILM_FORMATS.filter(({ id }) => id.endsWith("in"));
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
    expectTypeOf<StatedFormat>().toEqualTypeOf<FilmFormat>();
    const { minimum, maximum } = parts.definitions.format.items;
    expect([minimum, maximum]).toEqual([FORMAT_SIDE_RANGE.min, FORMAT_SIDE_RANGE.max]);
  });

  it("name themselves and no other text", () => {
    expect(FILM_FORMATS.every(({ id }) => isFormat(id))).toBe(true);
    expect(["", "6x5", "35"].some(isFormat)).toBe(false);
  });

  it("give the ratio of the sides, the longer over the shorter", () => {
    expect(aspectRatio("135")).toBe(1.5);
    expect(FILM_FORMATS.every(({ id }) => aspectRatio(id) >= 1)).toBe(true);
    expect(aspectRatio([45, 60])).toBeCloseTo(4 / 3, 12);
  });

  it("give the sides of a size in millimetres, the longer first", () => {
    expect(pictureSides([45, 60])).toEqual([60, 45]);
    expect(pictureSides("645")).toEqual([56, 41.5]);
    expect(formatText([45, 60])).toBe("45 × 60 mm");
    expect(formatText("645")).toBe("645");
  });

  it("are read from a text by name or size, and nothing else is", () => {
    expect(parseFormat("6x9")).toBe("6x9");
    expect(parseFormat("60x45mm")).toEqual([60, 45]);
    expect(parseFormat("10.26x7.49mm")).toEqual([10.26, 7.49]);
    for (const text of ["", "60x45", "60mm", "0x45mm", "60x1001mm", "-60x45mm", "60x45mm ", "1e2x45mm"])
      expect({ text, format: parseFormat(text) }).toEqual({ text, format: undefined });
  });
});
