import { describe, expect, it } from "vitest";
import { numbers, referenceTable } from "../../../external/reference.ts";
import { rgbOfReflectance, type Triple } from "../../../witness/spectra/colour.ts";
import { flat, WAVELENGTHS } from "../../../witness/spectra/spectrum.ts";
import { D50, D55, D65, OBSERVER, STATUS_A, STATUS_M } from "../../../witness/spectra/tables.ts";
import { spectrumOfRgb } from "../../../witness/spectra/upsample.ts";

const columnOf = (file: string, name: string): number[] => {
  const rows = new Map(referenceTable(file).map((row) => [Number(row.nm), row[name]]));
  return WAVELENGTHS.map((nm) => Number(rows.get(nm)));
};

describe("tables of the witness", () => {
  it("agree with the CIE observer, the daylight illuminants and ISO 5-3 as kept in tests/reference", () => {
    for (const [i, name] of ["x", "y", "z"].entries())
      expect([...OBSERVER[i]]).toEqual(
        columnOf("colour/cie1931_2deg_cmf_1nm.csv", name).map((v) => expect.closeTo(v, 4)),
      );
    for (const [name, ours] of Object.entries({ D50, D55, D65 }))
      expect([...ours]).toEqual(columnOf("lights/illuminants_daylight_5nm.csv", name).map((v) => expect.closeTo(v, 1)));
    for (const [letter, table] of [
      ["A", STATUS_A],
      ["M", STATUS_M],
    ] as const)
      for (const [i, channel] of ["R", "G", "B"].entries()) {
        const name = `status${letter}_${channel}`;
        const printed = columnOf("colour/iso5-3_log10_spectral_products_10nm.csv", name);
        for (const [k, v] of printed.entries())
          expect(table[i][k], `${name} ${WAVELENGTHS[k]}`).toBeCloseTo(v ? 10 ** (v - 5) : 0, 6);
      }
    expect(numbers(referenceTable("lights/illuminants_daylight_5nm.csv")[0], "nm")).toEqual([380]);
  });
});

describe("spectra of scene colours", () => {
  const colours: Triple[] = [
    [0.18, 0.18, 0.18],
    [0.8, 0.3, 0.2],
    [0.1, 0.4, 0.15],
    [0.05, 0.1, 0.5],
    [0.9, 0.8, 0.1],
    [0.02, 0.35, 0.4],
    [3, 2.5, 2],
  ];

  it("have the colour that they were made for", () => {
    for (const rgb of colours) {
      const back = rgbOfReflectance(spectrumOfRgb(rgb));
      for (let c = 0; c < 3; c++) expect(back[c] / Math.max(...rgb)).toBeCloseTo(rgb[c] / Math.max(...rgb), 2);
    }
  });

  it("are flat for greys, nowhere negative, and scale with brightness", () => {
    for (const v of spectrumOfRgb([0.4, 0.4, 0.4])) expect(v).toBeCloseTo(0.4, 6);
    for (const rgb of [...colours, [1, 0, 0], [0, 1, 0], [0, 0, 1], [1, 1, 0]] as Triple[]) {
      const s = spectrumOfRgb(rgb);
      expect(Math.min(...s)).toBeGreaterThanOrEqual(0);
      const twice = spectrumOfRgb(rgb.map((v) => 2 * v) as Triple);
      for (const [i, v] of s.entries()) expect(twice[i]).toBeCloseTo(2 * v, 9);
    }
    expect(rgbOfReflectance(flat(1))).toEqual([1, 1, 1]);
  });

  it("are smooth: no step of 10 nm jumps by more than a quarter of the peak", () => {
    for (const rgb of colours) {
      const s = spectrumOfRgb(rgb);
      const peak = Math.max(...s);
      for (let i = 1; i < s.length; i++) expect(Math.abs(s[i] - s[i - 1]) / peak).toBeLessThan(0.25);
    }
  });
});
