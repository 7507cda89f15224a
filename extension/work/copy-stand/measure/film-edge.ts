/** What the codes on the film's edge say at the copy stand: the newest picture's number, the film, and how it lies. */
import { type CodedPicture, type EdgeReading, readEdges } from "../../new-roll/edge/edge-codes.ts";
import { frameOfHalf, halfOf } from "../../../engine/verdict/film-numbers.ts";
import type { JudgedScan } from "../../../engine/verdict/types.ts";
import type { MeasuredPicture } from "./measure-arrival.ts";

/** A picture that a frame of the roll uses. */
export interface FramedPicture {
  readonly frame?: string;
  readonly picture?: MeasuredPicture;
}

export interface EdgeOfRoll {
  /** The newest picture's frame in the roll's own count, also where only its neighbours show a number. */
  readonly frame?: string;
  /** What the newest scan itself shows. */
  readonly own?: JudgedScan["edge"];
}

/**
 * @param before pictures that the roll uses, in the order in which they were taken
 * @returns the number by one rule for the whole roll, as a person or `first` may have shifted it
 */
export function edgeOf(before: readonly FramedPicture[], newest: MeasuredPicture): EdgeOfRoll {
  const own = readEdges([codedOf(newest)]);
  const all = readEdges([...before.flatMap(({ picture }) => (picture ? [codedOf(picture)] : [])), codedOf(newest)]);
  if (!all) return {};
  const frame = inOwnCount(before, all);
  const numbered = newest.codes.some((code) => code.frame !== undefined && code.film === all.film);
  return {
    ...(frame === undefined ? {} : { frame }),
    ...(own
      ? {
          own: {
            film: own.film,
            mirrored: own.mirrored,
            ...(numbered && frame !== undefined ? { frame } : {}),
          },
        }
      : {}),
  };
}

/** What the whole roll's edge says of the film. */
export const filmOnEdge = (pictures: readonly FramedPicture[]): EdgeReading | undefined =>
  readEdges(pictures.flatMap(({ picture }) => (picture ? [codedOf(picture)] : [])));

function inOwnCount(before: readonly FramedPicture[], { frames }: EdgeReading): string | undefined {
  const newest = halfOf(frames.at(-1) ?? "");
  if (newest === undefined) return undefined;
  const shown = before.filter(({ picture }) => picture);
  const shifts = shown.flatMap(({ frame = "" }, i) => {
    const [named, read] = [halfOf(frame), halfOf(frames[i] ?? "")];
    return named === undefined || read === undefined ? [] : [named - read];
  });
  if (shifts.length === 0) return shown.length === 0 ? frameOfHalf(newest) : undefined;
  const shift = shifts.toSorted((a, b) => a - b)[shifts.length >> 1];
  // Frames that were named without regard to the film's numbers say nothing of the next.
  if (shifts.filter((one) => one === shift).length * 2 <= shifts.length) return undefined;
  return newest + shift < 0 ? undefined : frameOfHalf(newest + shift);
}

function codedOf({ codes, found, reading }: MeasuredPicture): CodedPicture {
  const { width, height } = reading.info;
  return { codes, width: 1, height: height / width, ...(found ? { area: found.area } : {}) };
}
