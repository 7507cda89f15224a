/** What the edge codes say of a whole roll: film, numbers of the frames, side of the emulsion, and where it changes. */
import { type Shot, shotKey } from "../pictures/join-shots.ts";
import type { RollFrames } from "../pictures/roll-frames.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { type EdgeReading, readEdges } from "./edge-codes.ts";
import { type SecondRoll, secondRoll } from "./two-rolls.ts";

export interface RollEdge {
  readonly edge?: EdgeReading;
  /** Where a second roll seems to begin. */
  readonly second?: SecondRoll;
}

/** @param shown what was found on each picture, in order along the film */
export function rollEdge(scans: readonly FirstPassScan[], shown: readonly Shot[]): RollEdge {
  const shapes = new Map(scans.map(({ name, info }) => [name, info.height / info.width]));
  const edge = readEdges(
    shown.map(({ name, seen }) => ({
      codes: seen.codes,
      area: seen.frame?.area,
      width: 1,
      height: shapes.get(name)!,
    })),
  );
  const second = secondRoll(shown.map(({ name, seen }) => ({ name, codes: seen.codes, base: seen.base?.density })));
  return { ...(edge ? { edge } : {}), ...(second ? { second } : {}) };
}

/** Names of the frames: as on the film where every frame has a number of its own, else counted from `first`. */
export function frameNames(
  { frames, shown }: Pick<RollFrames, "frames" | "shown">,
  edge: EdgeReading | undefined,
  first: number | undefined,
): string[] {
  const named = frames.flatMap(({ id }) => id ?? []);
  if (named.length === frames.length) return named;
  const onFilm = frames.map(
    (f) => edge?.frames[shown.findIndex((shot) => shotKey(shot) === shotKey({ name: f.scans[0], part: f.part }))],
  );
  const known = onFilm.filter((id) => id !== undefined);
  if (first === undefined && known.length === onFilm.length && new Set(known).size === known.length) return known;
  return onFilm.map((_, i) => String((first ?? 1) + i).padStart(2, "0"));
}
