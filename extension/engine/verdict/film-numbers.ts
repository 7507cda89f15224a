/** The numbers on the film's edge: which frame a scan is, and which were left out before it. */
import type { NumberMatch } from "../survey/lettering.ts";
import type { JudgedScan } from "./types.ts";

/** Agreement from which a number counts as read, and by how much it has to exceed its neighbours'. */
const [READ, MIN_LEAD] = [0.65, 0.12];
/** Numbers of one figure agree with all kinds of strokes. */
const FIRST_READABLE = 10;
/** Numbers beyond the expected one that are looked for. */
export const NUMBERS_AHEAD = 2;

/** Numbers to look for on the film's edge where one is expected. */
export function numbersAround(expected: string): string[] {
  const number = Number(expected);
  if (!/^\d+$/.test(expected) || number < FIRST_READABLE) return [];
  return Array.from({ length: NUMBERS_AHEAD + 2 }, (_, k) => String(number - 1 + k));
}

/** The number that was read; undefined where none agrees clearly better than the others. */
export function numberRead(matches: readonly NumberMatch[]): string | undefined {
  const [best, second] = matches
    .map(({ name, upright, mirrored }) => ({ name, agreement: Math.max(upright, mirrored) }))
    .toSorted((a, b) => b.agreement - a.agreement);
  return best && best.agreement >= READ && best.agreement - (second?.agreement ?? 0) >= MIN_LEAD
    ? best.name
    : undefined;
}

/** A frame's place on the film in halves: 24 for "12", 25 for "12A"; undefined for other names. */
export function halfOf(frame: string): number | undefined {
  const [, number, half] = /^(\d+)(A?)$/.exec(frame) ?? [];
  return number === undefined ? undefined : 2 * Number(number) + (half ? 1 : 0);
}

/** The frame at a place in halves: "12", "12A". */
export const frameOfHalf = (half: number, width = 2): string =>
  `${String(half >> 1).padStart(width, "0")}${half % 2 === 1 ? "A" : ""}`;

/** Whether a scan shows its frame's number itself, as a code or in figures. */
const showsNumber = ({ frame, numbers, edge }: JudgedScan): boolean =>
  edge?.frame === frame || numberRead(numbers) === String(Number(frame));

/** Frames between the one before, whose number was read too, and this one, that have not been photographed. */
export function missedNumbers(scan: JudgedScan, before: readonly JudgedScan[]): string[] {
  const here = halfOf(scan.frame);
  if (here === undefined || !showsNumber(scan)) return [];
  const place = ({ frame }: JudgedScan): number => halfOf(frame) ?? Infinity;
  const taken = new Set(before.map(place));
  const read = before.filter(showsNumber).map(place);
  const lower = read.filter((half) => half < here);
  if (lower.length === 0) return [];
  const last = Math.max(...lower);
  // Pictures lie a whole number apart, in half-frame cameras half of one.
  const step = new Set([...read, here].map((half) => half % 2)).size > 1 ? 1 : 2;
  return Array.from({ length: Math.max(0, Math.floor((here - last - 1) / step)) }, (_, k) => last + step * (k + 1))
    .filter((half) => half < here && !taken.has(half))
    .map((half) => frameOfHalf(half, scan.frame.replace(/A$/, "").length));
}
