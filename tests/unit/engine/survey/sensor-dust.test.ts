/** Sensor dust is what most scans show at one place; the search for it is held against looking at every pair of specks. */
import { describe, expect, it } from "vitest";
import { sensorDustOf } from "../../../../extension/engine/survey/dust.ts";
import type { ScanReading, Speck, SurveyedRoll } from "../../../../extension/engine/survey/types.ts";
import { random } from "../../../witness/random.ts";

const PLACES = 12;

/** Scans with specks anywhere, and at some places specks in a given number of scans, each a little aside. */
function rollOf(scans: number, seenIn: (place: number) => number, seed: number): SurveyedRoll {
  const r = random(seed, "specks");
  const speck = (x: number, y: number): Speck => {
    const radius = r.between(0.0005, 0.006);
    return { x, y, radius, elongation: 1, opacity: 0.5, logOdds: 0, spots: [[x, y, radius]] };
  };
  const places = Array.from({ length: PLACES }, (_, k) => [0.05 + 0.07 * k, r.between(0.1, 0.5)] as const);
  const readings = Array.from({ length: scans }, (_, i) => {
    const aside = () => r.between(-0.0003, 0.0003);
    // Scans that show a place lie at the end as often as at the beginning.
    const shown = places.filter((_place, k) => (k % 2 ? scans - 1 - i : i) < seenIn(k));
    const specks = [
      ...Array.from({ length: 150 }, () => speck(r.uniform(), 0.66 * r.uniform())),
      ...shown.map(([x, y]) => speck(x + aside(), y + aside())),
    ];
    return { name: `S${i}`, specks } as unknown as ScanReading;
  });
  return { film: "colour-negative", flare: [0, 0, 0], scans: readings } as unknown as SurveyedRoll;
}

const near = (a: Speck, b: Speck): boolean =>
  Math.hypot(a.x - b.x, a.y - b.y) < 0.0008 + 0.4 * Math.min(a.radius, b.radius);

function byDefinition({ scans }: SurveyedRoll): Speck[] {
  const sensorDust: Speck[] = [];
  const needed = Math.max(4, Math.ceil(0.6 * scans.length));
  for (const speck of scans.flatMap((scan) => scan.specks)) {
    const seen = scans.filter((scan) => scan.specks.some((s) => near(s, speck))).length;
    if (seen >= needed && !sensorDust.some((d) => near(d, speck))) sensorDust.push(speck);
  }
  return sensorDust;
}

describe("sensor dust that no blank shows", () => {
  it.each([3, 4, 5, 9, 12])("is found on a roll of %i as by looking at every pair", (scans) => {
    const needed = Math.max(4, Math.ceil(0.6 * scans));
    // From one scan too few to all of them.
    const roll = rollOf(scans, (place) => needed - 1 + (place % 4), scans);
    const expected = byDefinition(roll);
    expect(expected.length > 0).toBe(scans >= needed);
    expect(sensorDustOf(roll)).toEqual(expected);
  });
});
