/** The witness's own colorimetry against published colours and an independent library. */
import Color from "colorjs.io";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { labOfRgb, rgbOfReflectance, type Triple } from "../witness/spectra/colour.ts";
import { readReflectances } from "../witness/spectra/reflectances.ts";
import { integralDensity, spectrum } from "../witness/spectra/spectrum.ts";
import { STATUS_A } from "../witness/spectra/tables.ts";
import { interpolated, numbers, referenceTable } from "./reference.ts";

/** Lab by the library: "lab" has D50 for its white, "lab-d65" D65. */
const labOf = (space: "lab" | "lab-d65", rgb: Triple): number[] =>
  new Color("srgb-linear", rgb).to(space).coords.map((v) => v ?? 0);

// Source: BabelColor's mean of 30 charts, spectra and xyY (© Danny Pascale, used by permission), as carried by
// colour-science 0.4.6. The published Lab is under D50; ours is seen under D65 and adapted by colorjs.io (Bradford), which
// for surface colours leaves about a unit.
describe("24 published surfaces", () => {
  const patches = readReflectances(
    readFileSync(
      new URL("../reference/charts/colorchecker24_babelcolor_avg_380_730_10nm.csv", import.meta.url),
      "utf8",
    ),
  );
  const published = referenceTable("charts/cc24_babelcolor_xyY_XYZ_LabD50.csv");

  it("have their published Lab", () => {
    expect(patches.length).toBe(24);
    const errors = patches.map(({ reflectance }, i) => {
      const [l, a, b] = labOf("lab", rgbOfReflectance(reflectance));
      const [L, A, B] = numbers(published[i], "L", "a", "b");
      return Math.hypot(l - L, a - A, b - B);
    });
    expect(errors.reduce((s, e) => s + e) / 24).toBeLessThan(1.2);
    expect(Math.max(...errors)).toBeLessThan(4);
  });

  it("linear Rec.709 to CIELAB agrees with colorjs.io", () => {
    for (const rgb of [
      [0.18, 0.18, 0.18],
      [0.6, 0.2, 0.05],
      [0.02, 0.3, 0.5],
    ] as Triple[]) {
      const own = labOfRgb(rgb);
      for (const [i, v] of labOf("lab-d65", rgb).entries()) expect(own[i]).toBeCloseTo(v, 1);
    }
  });
});

// Source: W. Faust, IT8.7/1 batch E131102 on reversal film: spectra and Status A densities of 288 patches. The
// witness's grid ends at 400 and 700 nm, so that the tails of the weights are missing: 0.02 D below a density of 2.
describe("the witness's densitometer", () => {
  it("reads 288 measured film patches", () => {
    const published = new Map(
      referenceTable("charts/it8_E131102_reference_XYZ_Lab_StatusA.csv").map((row) => [row.patch, row]),
    );
    const wavelengths = Array.from({ length: 41 }, (_, i) => 380 + 10 * i);
    let checked = 0;
    for (const row of referenceTable("charts/it8_E131102_spectral_transmittance_380_780_10nm.csv")) {
      const values = wavelengths.map((nm) => Number(row[String(nm)]));
      const density = spectrum((nm) => -Math.log10(Math.max(1e-6, interpolated(wavelengths, values, nm))));
      const theirs = numbers(published.get(row.patch)!, "D_RED", "D_GREEN", "D_BLUE");
      for (let k = 0; k < 3; k++) {
        if (theirs[k] >= 2) continue;
        expect(Math.abs(integralDensity(STATUS_A[k], density) - theirs[k]), `${row.patch} ${k}`).toBeLessThan(0.02);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(500);
  });
});
