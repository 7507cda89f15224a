/** Sorts dark specks: dust lies on one frame's film, sensor dust at the same place in every scan. */
import type { ScanReading, Speck, SurveyedRoll } from "./types.ts";

/** Two specks are at the same place when their centres are nearer than this, beside their radii; parts of the width. */
const MAX_OFFSET = 0.0008;
/** Scans that a speck which no blank shows has to be seen in, and the part of all scans, to count as sensor dust. */
const [MIN_SCANS, MIN_SHARE] = [4, 0.6];

const samePlace = (a: Speck, b: Speck): boolean =>
  Math.hypot(a.x - b.x, a.y - b.y) < MAX_OFFSET + 0.4 * Math.min(a.radius, b.radius);

const found = new WeakMap<SurveyedRoll, readonly Speck[]>();

/** Sensor dust (on sensor, lens or light): what the blank shows, and what several scans show at one place. */
export function sensorDustOf(roll: SurveyedRoll): readonly Speck[] {
  const known = found.get(roll);
  if (known) return known;
  // In a banded light a spot no darker than the bands' own swing, edge to edge, may be a piece of one.
  const amplitude = (2 * (roll.blank?.banding ?? 0)) / 100;
  const sensorDust: Speck[] = (roll.blank?.sensorDust ?? []).filter((spot) => spot.opacity > amplitude);
  const needed = Math.max(MIN_SCANS, Math.ceil(MIN_SHARE * roll.scans.length));
  const rows = roll.scans.map(({ specks }) => specks.toSorted((a, b) => a.x - b.x));
  for (const [i, scan] of roll.scans.entries()) {
    if (roll.scans.length - i < needed) break;
    for (const speck of scan.specks)
      if (!sensorDust.some((d) => samePlace(d, speck)) && isSeen(rows, speck, needed)) sensorDust.push(speck);
  }
  found.set(roll, sensorDust);
  return sensorDust;
}

/** Whether enough scans show something at a speck's place. Most places show nothing, so one soon knows. */
function isSeen(rows: readonly (readonly Speck[])[], speck: Speck, needed: number): boolean {
  let misses = rows.length - needed;
  return rows.every((row) => showsAt(row, speck) || --misses >= 0);
}

/** Whether specks, ordered from left to right, hold one at another's place. */
function showsAt(row: readonly Speck[], speck: Speck): boolean {
  const far = MAX_OFFSET + 0.4 * speck.radius;
  let [low, high] = [0, row.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (row[middle].x < speck.x - far) low = middle + 1;
    else high = middle;
  }
  for (let k = low; k < row.length && row[k].x <= speck.x + far; k++) if (samePlace(row[k], speck)) return true;
  return false;
}

/** Specks that are probably dust on this frame's film, the surest first. */
export function dustOf(roll: SurveyedRoll, scan: ScanReading): Speck[] {
  const sensorDust = sensorDustOf(roll);
  return scan.specks
    .filter((speck) => speck.logOdds > 0 && !sensorDust.some((d) => samePlace(d, speck)))
    .toSorted((a, b) => b.logOdds - a.logOdds);
}
