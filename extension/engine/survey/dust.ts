/** Sorts dark specks: dust lies on one frame's film, dirt at the same place in every scan. */
import type { ScanReading, Speck, SurveyedRoll } from "./types.ts";

/** Two specks are at the same place when their centres are nearer than this, beside their radii; parts of the width. */
const SLACK = 0.0008;
/** Scans that a speck which no blank shows has to be seen in, and the part of all scans, to count as dirt. */
const [FEWEST, SHARE] = [4, 0.6];

const together = (a: Speck, b: Speck): boolean =>
  Math.hypot(a.x - b.x, a.y - b.y) < SLACK + 0.4 * Math.min(a.radius, b.radius);

const found = new WeakMap<SurveyedRoll, readonly Speck[]>();

/** Dirt on sensor, lens or light: what the blank shows, and what several scans show at one place. */
export function dirtOf(roll: SurveyedRoll): readonly Speck[] {
  const known = found.get(roll);
  if (known) return known;
  // In a banded light a spot no darker than the bands' own swing, edge to edge, may be a piece of one.
  const swing = (2 * (roll.blank?.banding ?? 0)) / 100;
  const dirt: Speck[] = (roll.blank?.dirt ?? []).filter((spot) => spot.opacity > swing);
  const needed = Math.max(FEWEST, Math.ceil(SHARE * roll.scans.length));
  for (const [i, scan] of roll.scans.entries()) {
    if (roll.scans.length - i < needed) break;
    for (const speck of scan.specks) {
      if (dirt.some((d) => together(d, speck))) continue;
      const seen = roll.scans.filter((other) => other.specks.some((s) => together(s, speck))).length;
      if (seen >= needed) dirt.push(speck);
    }
  }
  found.set(roll, dirt);
  return dirt;
}

/** Specks that are probably dust on this frame's film, the surest first. */
export function dustOf(roll: SurveyedRoll, scan: ScanReading): Speck[] {
  const dirt = dirtOf(roll);
  return scan.specks
    .filter((speck) => speck.sure > 0 && !dirt.some((d) => together(d, speck)))
    .toSorted((a, b) => b.sure - a.sure);
}
