/** Optics and guideline levels against tables worked out or published elsewhere. */
import { describe, expect, it } from "vitest";
import {
  airyDiameter,
  depthOfField,
  diffractionCutoff,
  diffractionResponse,
  effectiveAperture,
  HALF_OF_CUTOFF,
  pixelsPerInch,
  tiltBlur,
  tiltOfBlur,
} from "../../extension/engine/survey/optics.ts";
import { FADGI_FILM, starsOf } from "../../extension/engine/survey/fadgi.ts";
import { numbers, referenceTable } from "./reference.ts";

describe("diffraction at 550 nm (worked out by another program from the textbook formulas)", () => {
  it.each(referenceTable("optics/diffraction_550nm.csv").map((row) => [`${row.m}× f/${row.N}`, row] as const))(
    "%s",
    (_, row) => {
      const [m, stop, eff, airy, sensor, film, half, onFilm, ppi] = numbers(
        row,
        "m",
        "N",
        "N_eff",
        "airy_um_sensor",
        "cutoff_sensor_cymm",
        "cutoff_film_cymm",
        "mtf50_sensor_cymm",
        "mtf50_film_cymm",
        "ppi_nyquist_eq_cutoff",
      );
      const n = effectiveAperture(stop, m);
      expect(n).toBeCloseTo(eff, 3);
      expect(airyDiameter(n) * 1000).toBeCloseTo(airy, 2);
      const cutoff = diffractionCutoff(n);
      expect(Math.abs(cutoff - sensor)).toBeLessThan(0.06);
      expect(Math.abs(cutoff * m - film)).toBeLessThan(0.06);
      expect(Math.abs(cutoff * HALF_OF_CUTOFF - half)).toBeLessThan(0.06);
      expect(Math.abs(cutoff * HALF_OF_CUTOFF * m - onFilm)).toBeLessThan(0.06);
      expect(Math.abs(2 * 25.4 * cutoff * m - ppi)).toBeLessThan(1);
    },
  );

  it("an ideal aperture's response is one half at 0.403973 of its cutoff", () => {
    expect(diffractionResponse(HALF_OF_CUTOFF)).toBeCloseTo(0.5, 5);
    expect(diffractionResponse(0)).toBe(1);
    expect(diffractionResponse(1.2)).toBe(0);
  });
});

describe("depth of field and tilt (worked out likewise)", () => {
  it.each(referenceTable("optics/dof_tilt_examples.csv").map((row, i) => [i + 1, row] as const))(
    "line %i",
    (_, row) => {
      const [m, stop, c, depth, tilt, r, blur, atSensor] = numbers(
        row,
        "m",
        "N",
        "c_mm",
        "DOF_total_mm",
        "tilt_deg",
        "r_mm",
        "blur_film_um",
        "blur_sensor_um",
      );
      expect(Math.abs(depthOfField(stop, c, m) - depth)).toBeLessThan(0.0006);
      const disc = tiltBlur(tilt, r, stop, m);
      expect(Math.abs(disc * 1000 - blur)).toBeLessThan(0.006);
      expect(Math.abs(disc * 1000 * m - atSensor)).toBeLessThan(0.006);
      expect(tiltOfBlur(disc, r, stop, m)).toBeCloseTo(tilt, 9);
    },
  );
});

describe("samples per inch of five cameras on eight formats (worked out likewise)", () => {
  it.each(referenceTable("optics/ppi_examples.csv").map((row) => [`${row.camera}, ${row.format}`, row] as const))(
    "%s",
    (_, row) => {
      const [pitch, m, ppi] = numbers(row, "pitch_um", "m", "ppi");
      // m is printed with four digits.
      expect(Math.abs(pixelsPerInch(m, pitch / 1000) / ppi - 1)).toBeLessThan(0.0005);
    },
  );
});

describe("FADGI 2016, negatives 35 mm to 4×5 in", () => {
  // The table's rows as printed, one to four stars.
  const printed: Record<string, readonly number[]> = {
    resolution: [1000, 2000, 3000, 4000],
    bits: [8, 8, 16, 16],
    range: [3.5, 3.8, 3.9, 4.0],
    evenness: [8, 5, 3, 1],
    misregistration: [1.2, 0.8, 0.5, 0.33],
    efficiency: [60, 70, 80, 90],
    aliasing: [0.4, 0.4, 0.3, 0.2],
    mtf50Least: [25, 30, 35, 40],
    mtf50Most: [95, 85, 75, 65],
    scale: [3, 3, 2, 1],
    sharpening: [1.3, 1.2, 1.1, 1.0],
  };
  it.each(Object.entries(printed))("%s", (name, levels) => {
    expect(FADGI_FILM[name as keyof typeof FADGI_FILM].levels).toEqual(levels);
  });

  it("gives stars by them", () => {
    expect([800, 1000, 2999, 4030].map((v) => starsOf("resolution", v))).toEqual([0, 1, 2, 4]);
    expect([9, 8, 7.9, 4, 2, 0.5].map((v) => starsOf("evenness", v))).toEqual([0, 0, 1, 2, 3, 4]);
    expect([1.35, 1.25, 1.15, 1.05, 1].map((v) => starsOf("sharpening", v))).toEqual([0, 1, 2, 3, 4]);
  });
});
