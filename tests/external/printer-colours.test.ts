/**
 * Conversions to printers' colours against transicc of the package liblcms2-utils, run as a program of its own: another build and
 * another version of the engine, and none of our reading, flags or pixel layouts. Colours are compared by what the model
 * printer prints of them (tests/witness/printer/), in ΔE00.
 *
 * Bars: 0.05 worked through exactly; 0.1 on average, 0.3 for 95 of 100 and 5 at the worst through a table, as pictures
 * are converted, over all of ROMM RGB with the colours that no paper has. Common practice, no source: a difference of 1 is just visible side by
 * side.
 */
import { describe, expect, test } from "vitest";
import { deltaE2000 } from "../../extension/engine/colour/difference.ts";
import { printerProfile } from "../../extension/scans/icc/profile.ts";
import { type RenderingIntent, withTransform } from "../../extension/scans/icc/transform.ts";
import { iccProfile } from "../../extension/scans/output/icc.ts";
import { printedLab } from "../witness/printer/inks.ts";
import { modelProfile } from "../witness/printer/printer-profile.ts";
import { hasTransicc, INTENTS, transicc } from "./transicc.ts";

const EXACT = 0.05;
const TABLE = { worst: 5, most: 0.3, mean: 0.1 };
/** Two intents print plainly different colours, so that one taken for another cannot pass. */
const APART = 1.5;
/** A grid over the source space, its greys, and colours between the steps of any table. */
const COLOURS: readonly (readonly number[])[] = [
  ...Array.from({ length: 125 }, (_, i) => [i % 5, Math.floor(i / 5) % 5, Math.floor(i / 25)].map((v) => v / 4)),
  ...Array.from({ length: 21 }, (_, i) => [i / 20, i / 20, i / 20]),
  ...Array.from({ length: 200 }, (_, i) => [(i * 0.618) % 1, (i * 0.414 + 0.1) % 1, (i * 0.732 + 0.3) % 1]),
];

const byReference = (from: Uint8Array, to: Uint8Array, intent: RenderingIntent, compensate: boolean): number[][] =>
  transicc({ from, to, intent, compensate }, COLOURS);

async function byUs(
  from: Uint8Array,
  to: Uint8Array,
  options: { intent: RenderingIntent; compensate: boolean; exact: boolean },
): Promise<number[][]> {
  const { bytes, channels } = printerProfile(to, "printer.icc");
  const out = new Uint16Array(COLOURS.length * channels);
  const samples = Uint16Array.from(COLOURS.flat(), (v) => Math.round(65535 * v));
  await withTransform(
    { from: { profile: from, channels: 3 }, to: { profile: bytes, channels }, ...options },
    (convert) => convert(samples, out),
  );
  return COLOURS.map((_, i) => [...out.subarray(i * channels, (i + 1) * channels)].map((v) => v / 65535));
}

function differences(
  one: readonly number[][],
  two: readonly number[][],
): { worst: number; most: number; mean: number } {
  expect(one).toHaveLength(COLOURS.length);
  expect(two).toHaveLength(COLOURS.length);
  const lab = (device: readonly number[]) => printedLab(device.length === 3 ? device.map((v) => 1 - v) : device);
  const all = one.map((device, i) => deltaE2000(lab(device), lab(two[i]!)));
  const most = all.toSorted((a, b) => a - b)[Math.floor(0.95 * all.length)]!;
  return { worst: Math.max(...all), most, mean: all.reduce((sum, v) => sum + v, 0) / all.length };
}

describe.runIf(hasTransicc)("colours for a printer", () => {
  const romm = iccProfile("romm", 3);
  // A printer of light described by primaries and curves.
  const matrix = iccProfile("adobe", 3).slice();
  matrix.set(new TextEncoder().encode("prtr"), 12);
  const printers = [
    ["RGB by tables", () => modelProfile("RGB")],
    ["CMYK by tables", () => modelProfile("CMYK")],
    ["RGB by a matrix", () => matrix],
  ] as const;

  test.each(printers)(
    "%s: every intent is the reference's",
    async (name, profile) => {
      const references: number[][][] = [];
      for (const intent of INTENTS)
        for (const compensate of intent === "relative-colorimetric" ? [false, true] : [false]) {
          const reference = byReference(romm, profile(), intent, compensate);
          const exact = differences(await byUs(romm, profile(), { intent, compensate, exact: true }), reference);
          const table = differences(await byUs(romm, profile(), { intent, compensate, exact: false }), reference);
          expect(exact.worst).toBeLessThan(EXACT);
          expect(table.worst).toBeLessThan(TABLE.worst);
          expect(table.most).toBeLessThan(TABLE.most);
          expect(table.mean).toBeLessThan(TABLE.mean);
          references.push(reference);
        }
      if (name === "RGB by a matrix") return; // which has one rendering for all intents but the absolute
      for (const [i, one] of references.entries())
        for (const two of references.slice(i + 1)) expect(differences(one, two).worst).toBeGreaterThan(APART);
    },
    60_000,
  );
});
