/** Published reflectances, read from the CSV files of tests/reference. */
import { BANDS, WAVELENGTHS, type Spectrum } from "./spectrum.ts";

/** Columns of a CSV whose first column is the wavelength in nm; "#" lines are comments. Missing wavelengths: an error. */
export function readReflectances(csv: string): { name: string; reflectance: Spectrum }[] {
  const lines = csv.split(/\r?\n/).filter((l) => l && !l.startsWith("#"));
  const names = lines[0].split(",").slice(1);
  const rows = new Map(lines.slice(1).map((l) => [Number(l.split(",")[0]), l.split(",").slice(1).map(Number)]));
  return names.map((name, column) => {
    const reflectance = new Float64Array(BANDS);
    for (const [i, nm] of WAVELENGTHS.entries()) {
      const value = rows.get(nm)?.[column];
      if (value === undefined || Number.isNaN(value))
        throw new Error(`The reflectance "${name}" has no value at ${nm} nm: the table must hold 400–700 nm in tens.`);
      reflectance[i] = value;
    }
    return { name, reflectance };
  });
}
