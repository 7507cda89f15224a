import { describe, expect, it } from "vitest";
import { filmCurve, type FilmCurve } from "../../extension/engine/film/characteristic-curve.ts";
import {
  blackAndWhiteSpeed,
  colourNegativeSpeed,
  contrastIndex,
  paperRange,
} from "../../extension/engine/film/sensitometry.ts";
import { filmPoints, numbers, referenceTable } from "./reference.ts";

// Curves: makers' data sheets, digitised by JanLohse/spectral_film_lut (MIT), tests/reference/films/film_curves.csv.
const curveOf = (film: string, channel = ""): FilmCurve => {
  const { x, y } = filmPoints(film, "sensiometric_curve", channel);
  return filmCurve(x, y);
};

// Rule: ISO 5800:1987, S = √2 / Hm. Expected: iso5800_dmin_gamma.csv, worked out elsewhere from the same curves.
describe("ISO 5800 speed of colour negatives from data-sheet curves", () => {
  const films = ["Portra 400", "Ektar 100", "Gold 200", "Portra 160", "Portra 800", "Ultramax 400"].map(
    (f) => `Kodak ${f}`,
  );
  const table = new Map(referenceTable("films/iso5800_dmin_gamma.csv").map((row) => [row.film, row]));
  const curves = (film: string): FilmCurve[] => ["0", "1", "2"].map((channel) => curveOf(film, channel));

  // Within a thirtieth of a stop: the expected values come from straight lines between the digitised points, ours from a
  // cubic. The standard's own steps are a third of a stop.
  it.each(films)("%s: speed", (film) => {
    const [red, green, blue] = curves(film);
    const expected = Number(table.get(film)?.S_iso5800);
    expect(Math.abs(Math.log2(colourNegativeSpeed(red, green, blue) / expected))).toBeLessThan(1 / 30);
  });
  it.each(films.slice(0, 3))("%s: within a sixth of a stop of the speed on the box", (film) => {
    const [red, green, blue] = curves(film);
    const box = Number(table.get(film)?.iso_nominal);
    expect(Math.abs(Math.log2(colourNegativeSpeed(red, green, blue) / box))).toBeLessThan(1 / 6);
  });
  it.each(films)("%s: least densities and gradients", (film) => {
    const row = table.get(film)!;
    curves(film).forEach((curve, c) => {
      expect(curve.dmin).toBeCloseTo(numbers(row, "dmin_R", "dmin_G", "dmin_B")[c], 2);
      expect(Math.abs(curve.gamma - numbers(row, "g_R", "g_G", "g_B")[c])).toBeLessThan(0.006);
    });
  });
});

// Rule: ISO 6:1993, S = 0.8 / Hm; development is right where the density gains 0.80 over 1.30 log H.
describe("ISO 6 speed of black-and-white negatives from data-sheet curves", () => {
  it.each([
    ["Kodak Trix-X 400 Dev 7", 490, 0.752],
    ["Kodak Trix-X 400 Dev 6", 422, 0.677],
    ["Kodak 5222 Dev 6", 296, 0.789],
  ])("%s: S %i, gain %f", (film, speed, rise) => {
    const found = blackAndWhiteSpeed(curveOf(film));
    expect(Math.abs(found.speed / speed - 1)).toBeLessThan(0.02);
    expect(Math.abs(found.densityRange - rise)).toBeLessThan(0.01);
  });
});

// "About 0.56 to 0.62 is typical" (maker's literature, as quoted in forums); more development gives a higher index.
describe("contrast index of a black-and-white negative at four development times", () => {
  it("rises with development and brackets the typical values", () => {
    const index = [6, 7, 9, 11].map((minutes) => contrastIndex(curveOf(`Kodak Trix-X 400 Dev ${minutes}`)));
    const known = index.filter((v) => v !== undefined);
    expect(known.length).toBeGreaterThanOrEqual(3);
    for (let i = 1; i < known.length; i++) expect(known[i]).toBeGreaterThan(known[i - 1]);
    expect(known[0]).toBeLessThan(0.62);
    expect(known[known.length - 1]).toBeGreaterThan(0.56);
  });
});

// Rule: ISO 6846:1992 clause 6.2. Expected: iso6846_polymax.csv, worked out elsewhere from the same curves.
describe("ISO 6846 range of printing papers from data-sheet curves", () => {
  const rows = referenceTable("films/iso6846_polymax.csv");
  it.each(rows.map((row) => [row.paper, row] as const))("%s", (paper, row) => {
    // The standard's tolerance: 0.01 log H or 3 %, whichever is more.
    const expected = Number(row.R_raw);
    expect(Math.abs(paperRange(curveOf(paper)) - expected)).toBeLessThanOrEqual(Math.max(1, 0.03 * expected));
  });
});
