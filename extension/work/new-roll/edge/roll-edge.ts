/** What the edge codes say of a whole roll: film, numbers of the frames, side of the emulsion, and where it changes. */
import type { FoundPicture } from "../pictures/find-frame.ts";
import type { ShotFrame } from "../pictures/join-shots.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { type EdgeReading, readEdges } from "./edge-codes.ts";
import { type SecondRoll, secondRoll } from "./two-rolls.ts";

export interface RollEdge {
  readonly edge?: EdgeReading;
  /** Where a second roll seems to begin. */
  readonly second?: SecondRoll;
}

/** @param seen what was found on each picture */
export function rollEdge(pictures: readonly FirstPassScan[], seen: readonly FoundPicture[]): RollEdge {
  const edge = readEdges(
    pictures.map(({ info }, i) => ({
      codes: seen[i].codes,
      area: seen[i].frame?.area,
      width: 1,
      height: info.height / info.width,
    })),
  );
  const second = secondRoll(
    pictures.map(({ name }, i) => ({ name, codes: seen[i].codes, base: seen[i].base?.density })),
  );
  return { ...(edge ? { edge } : {}), ...(second ? { second } : {}) };
}

/** Names of the frames: as on the film where every frame has a number of its own, else counted from `first`. */
export function frameNames(
  frames: readonly ShotFrame[],
  pictures: readonly FirstPassScan[],
  edge: EdgeReading | undefined,
  first: number | undefined,
): string[] {
  const named = frames.flatMap(({ id }) => id ?? []);
  if (named.length === frames.length) return named;
  const onFilm = frames.map((f) => edge?.frames[pictures.findIndex((p) => p.name === f.scans[0])]);
  const known = onFilm.filter((id) => id !== undefined);
  if (first === undefined && known.length === onFilm.length && new Set(known).size === known.length) return known;
  return onFilm.map((_, i) => String((first ?? 1) + i).padStart(2, "0"));
}
