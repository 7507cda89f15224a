/** Whether a folder's scans are of two rolls: another film's edge code, or another base, from one scan on. */
import type { Rgb } from "../../../engine/types.ts";
import type { EdgeCode } from "../../../scans/edge-codes/read-edge-codes.ts";

/** One picture in the order of the film. */
export interface RollPicture {
  readonly name: string;
  readonly codes: readonly Pick<EdgeCode, "film">[];
  readonly base?: Rgb;
}

/** Where the second roll begins. */
export interface SecondRoll {
  readonly first: readonly [from: string, to: string];
  readonly second: readonly [from: string, to: string];
  readonly reason: "edge code" | "base";
}

/** Bases of one roll agree within `SAME_ROLL_TOLERANCE`; two rolls differ by at least `MIN_BASE_DIFFERENCE`, D in any channel. */
const SAME_ROLL_TOLERANCE = 0.03;
const MIN_BASE_DIFFERENCE = 0.08;
/** Pictures on either side that must agree. */
const MIN_PICTURES = 2;

/** @returns undefined where nothing tells two rolls apart */
export function secondRoll(pictures: readonly RollPicture[]): SecondRoll | undefined {
  const splitAt = (at: number, reason: SecondRoll["reason"]): SecondRoll => ({
    first: [pictures[0].name, pictures[at - 1].name],
    second: [pictures[at].name, pictures[pictures.length - 1].name],
    reason,
  });
  for (let at = MIN_PICTURES; at <= pictures.length - MIN_PICTURES; at++) {
    const [before, after] = [pictures.slice(0, at), pictures.slice(at)];
    const [one, other] = [onlyCode(before), onlyCode(after)];
    if (one !== undefined && other !== undefined && one !== other && pictures[at].codes.length > 0)
      return splitAt(at, "edge code");
    const [a, b] = [onlyBase(before), onlyBase(after)];
    if (a && b && pictures[at].base && a.some((d, c) => Math.abs(d - b[c]) > MIN_BASE_DIFFERENCE))
      return splitAt(at, "base");
  }
  return undefined;
}

/** The one code of all codes on some pictures, where two pictures at least show it. */
function onlyCode(pictures: readonly RollPicture[]): string | undefined {
  const shown = pictures.filter(({ codes }) => codes.length > 0);
  const all = new Set(shown.flatMap(({ codes }) => codes.map((c) => c.film)));
  return shown.length >= MIN_PICTURES && all.size === 1 ? [...all][0] : undefined;
}

/** The base that all pictures with one agree on. */
function onlyBase(pictures: readonly RollPicture[]): Rgb | undefined {
  const known = pictures.flatMap(({ base }) => (base ? [base] : []));
  if (known.length < MIN_PICTURES) return undefined;
  const middle = [0, 1, 2].map((c) => known.map((b) => b[c]).toSorted((x, y) => x - y)[known.length >> 1]);
  const differs = known.some((b) => b.some((d, c) => Math.abs(d - middle[c]) > SAME_ROLL_TOLERANCE));
  return differs ? undefined : [middle[0], middle[1], middle[2]];
}
