/** Copy lights of held-out rolls: measured LEDs where their file is, else the committed lights that the prior leaves out. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Light } from "../../witness/camera/cameras.ts";
import { spectrum } from "../../witness/spectra/spectrum.ts";

/** Spectra of 90 LEDs; their licence keeps them out of the project, and the bench works without them. */
export const MEASURED_LEDS = join("..", "shared", "real", "data", "leds_90_360_830_1nm.csv");

/** Peaks of what is combined to a light of three narrow bands, nm. */
const PRIMARIES = [
  ["448", "521", "629"],
  ["454", "521", "643"],
  ["460", "530", "660"],
] as const;

/** White LEDs and lights of three narrow ones; undefined where the file is missing. */
export function measuredLights(): Light[] | undefined {
  if (!existsSync(MEASURED_LEDS)) return undefined;
  const [head, ...lines] = readFileSync(MEASURED_LEDS, "utf8").trim().split(/\r?\n/);
  const rows = lines.map((line) => line.split(",").map(Number));
  const leds = head
    .split(",")
    .slice(1)
    .map((name, i) => ({ name, at: bandMeans(rows, i + 1) }))
    .filter(({ at }) => at.every(Number.isFinite));
  const whites = leds.filter(({ at }) => BANDS.every(([from, to]) => mean(at, from, to) > 0.1 * Math.max(...at)));
  const nearest = (nm: number): number[] => {
    const peak = (at: readonly number[]): number => 400 + 10 * at.indexOf(Math.max(...at));
    const narrow = leds.filter(({ at }) => mean(at, 400, 700) < 0.2 * Math.max(...at));
    return narrow.sort((a, b) => Math.abs(peak(a.at) - nm) - Math.abs(peak(b.at) - nm))[0].at;
  };
  const triples = PRIMARIES.map((peaks) => {
    const [blue, green, red] = peaks.map((nm) => nearest(Number(nm)));
    const sum = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0);
    return {
      name: `LEDs of ${peaks.join(", ")} nm`,
      at: blue.map((b, i) => b / sum(blue) + green[i] / sum(green) + red[i] / sum(red)),
    };
  });
  return [...whites, ...triples].map(({ name, at }) => ({ name, power: spectrum((nm) => at[(nm - 400) / 10]) }));
}

/** A white light has some of each of these, nm. */
const BANDS = [
  [440, 480],
  [520, 570],
  [600, 640],
] as const;

/** Means over 10 nm about 400, 410 … 700. */
const bandMeans = (rows: readonly (readonly number[])[], column: number): number[] =>
  Array.from({ length: 31 }, (_, k) => {
    const near = rows.filter(([nm]) => Math.abs(nm - 400 - 10 * k) <= 5).map((row) => row[column]);
    return Math.max(0, near.reduce((a, b) => a + b, 0) / near.length);
  });

const mean = (at: readonly number[], from: number, to: number): number => {
  const part = at.filter((_, k) => 400 + 10 * k >= from && 400 + 10 * k <= to);
  return part.reduce((a, b) => a + b, 0) / part.length;
};
