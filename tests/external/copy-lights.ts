/** Published lights that film is copied on, 400–700 nm in steps of 5. */
import type { Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import { referenceTable } from "./reference.ts";

const tables = ["lights/illuminants_scan_lights_5nm.csv", "lights/illuminants_copy_lights_5nm.csv"].map((file) => {
  const rows = referenceTable(file);
  const names = Object.keys(rows[0]).filter((name) => name !== "nm");
  return new Map(names.map((name): [string, Spectrum] => [name, rows.map((row) => Number(row[name]))]));
});
const POWERS: ReadonlyMap<string, Spectrum> = new Map(tables.flatMap((table) => [...table]));

/** Lights by name; the strongest power of each is 1. */
export const COPY_LIGHTS: ReadonlyMap<string, Spectrum> = new Map(
  [...POWERS].map(([name, power]) => {
    const most = Math.max(...power);
    return [name, power.map((v) => v / most)];
  }),
);

/** A light by name, as its table has it. */
export function copyLight(name: string): Spectrum {
  const power = POWERS.get(name);
  if (!power) throw new Error(`tests/reference has no light ${name}.`);
  return power;
}

/** Panels of white LEDs and of several narrow ones, high-rendering tubes, daylight: what film is laid on. */
export const PANELS: readonly string[] = [...tables[1].keys(), "D50", "LED-B3", "LED-V2", "LED-RGB1"];
