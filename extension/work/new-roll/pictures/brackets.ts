/** Which scans of a roll are exposures of one picture: taken one after the other, at shutter times that lie apart. */
import { samePicture } from "../../../engine/verdict/same-picture.ts";
import type { Shot } from "./join-shots.ts";

/** Stops between two exposures of a bracket, at least: two thirds, less what marks of shutter times are off by. */
const MIN_STOPS = 0.6;

export interface Brackets {
  /** Scans in order, of each bracket the first alone. */
  readonly shots: readonly Shot[];
  /** All scans of a bracket, by the name of its first. */
  readonly brackets: ReadonlyMap<string, readonly Shot[]>;
  readonly warnings: readonly string[];
}

export function findBrackets(all: readonly Shot[]): Brackets {
  const groups: Shot[][] = [];
  const warnings: string[] = [];
  for (const shot of all) {
    const group = groups.at(-1);
    if (group && belongs(group, shot)) group.push(shot);
    else groups.push([shot]);
  }
  const several = groups.filter(({ length }) => length > 1);
  for (const group of several)
    warnings.push(
      `${namesOf(group)} show the same picture at shutter times that lie apart: they are merged into one frame.`,
    );
  const shots = groups.map(([first]) => first!);
  return { shots, brackets: new Map(several.map((group) => [group[0]!.name, group])), warnings };
}

/** The same picture as the scan before it, at another exposure than all of the group. */
function belongs(group: readonly Shot[], shot: Shot): boolean {
  const apart = ({ exposure }: Shot): boolean =>
    exposure !== undefined && shot.exposure !== undefined && Math.abs(Math.log2(exposure / shot.exposure)) >= MIN_STOPS;
  return group.every(apart) && group.some((one) => samePicture(shot.seen, one.seen) === "same");
}

/** "A, B and C" */
const namesOf = (group: readonly Shot[]): string => {
  const names = group.map(({ name }) => name);
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
};
