/** Published lights that film is copied on, 400–700 nm in steps of 5. */
import type { Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import { referenceTable } from "./reference.ts";

export const COPY_LIGHTS: ReadonlyMap<string, Spectrum> = new Map(
  ["lights/illuminants_scan_lights_5nm.csv", "lights/illuminants_copy_lights_5nm.csv"].flatMap((file) => {
    const rows = referenceTable(file);
    const names = Object.keys(rows[0]).filter((name) => name !== "nm");
    return names.map((name) => {
      const power = rows.map((row) => Number(row[name]));
      const most = Math.max(...power);
      return [name, power.map((v) => v / most)] as const;
    });
  }),
);
