import Color from "colorjs.io";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CAMERA_A, CAMERA_B, PANEL } from "../../../witness/camera/cameras.ts";
import { labOfRgb, rgbOfReflectance, type Triple } from "../../../witness/spectra/colour.ts";
import { dataSheet } from "../../../witness/film/datasheet.ts";
import { photographedDensity } from "../../../witness/film/fit.ts";
import { positiveOf } from "../../../witness/film/positive.ts";
import { readReflectances } from "../../../witness/spectra/reflectances.ts";
import { flat } from "../../../witness/spectra/spectrum.ts";
import { LANTERN_64, NORTHLIGHT_400, SKERRY_100 } from "../../../witness/film/stocks.ts";

/** CIEDE2000 by an independent library (CIELAB D50). */
const difference = (a: Triple, b: Triple): number =>
  new Color("srgb-linear", a).deltaE(new Color("srgb-linear", b), "2000");
// BabelColor's mean of 30 charts; © Danny Pascale, used by permission.
const patches = readReflectances(
  readFileSync(
    new URL("../../../reference/charts/colorchecker24_babelcolor_avg_380_730_10nm.csv", import.meta.url),
    "utf8",
  ),
);

describe.each([
  { stock: NORTHLIGHT_400, camera: CAMERA_A },
  { stock: NORTHLIGHT_400, camera: CAMERA_B },
  { stock: SKERRY_100, camera: CAMERA_A },
])("data sheet of $stock.name seen by $camera.model", ({ stock, camera }) => {
  const sheet = dataSheet(stock, camera, PANEL);
  const positive = (reflectance: Float64Array, stops: number): Triple =>
    positiveOf(stock, sheet, photographedDensity(stock, camera, PANEL, reflectance, stops), stops);

  it("brings greys to grey, −1 to +3 stops", () => {
    for (const stops of [-1, 0, 1, 3])
      for (const y of [0.03, 0.06, 0.1, 0.184, 0.3, 0.5, 0.76]) {
        const [l, a, b] = labOfRgb(positive(flat(y), stops));
        expect(Math.hypot(a, b)).toBeLessThan(2);
        expect(Math.abs(l - labOfRgb([y, y, y])[0])).toBeLessThan(1.2);
      }
  });

  it("brings 24 measured surfaces, none used in the fit, near their colours", () => {
    for (const stops of [-1, 0, 1]) {
      const errors = patches.map((p) => difference(rgbOfReflectance(p.reflectance), positive(p.reflectance, stops)));
      expect(errors.reduce((a, b) => a + b) / 24).toBeLessThan(2.5);
      expect(errors.sort((a, b) => a - b)[21]).toBeLessThan(5.5);
    }
  });

  it("has rows of colour that sum to 1 and a base as the camera sees it", () => {
    for (const row of sheet.colour) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 12);
    expect(sheet.base[2]).toBeGreaterThan(sheet.base[1]);
    expect(sheet.base[1]).toBeGreaterThan(sheet.base[0]);
    expect(sheet.curve!.logH.length).toBe(sheet.curve!.green.length);
  });
});

describe("data sheet of a slide", () => {
  it("fits a matrix that leaves white alone and greys within ΔE 3", () => {
    const sheet = dataSheet(LANTERN_64, CAMERA_A, PANEL);
    for (const row of sheet.colour) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 12);
    expect(sheet.residual.grey).toBeLessThan(3);
    expect(sheet.residual.mean).toBeLessThan(2);
  });
});
