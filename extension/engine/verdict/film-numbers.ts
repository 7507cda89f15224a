/** The numbers on the film's edge: which frame a scan is, and which were left out before it. */
import type { NumberMatch } from "../survey/lettering.ts";
import type { JudgedScan } from "./types.ts";

/** Agreement from which a number counts as read, and by how much it has to exceed its neighbours'. */
const [READ, MIN_LEAD] = [0.58, 0.12];
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

/** Numbers between the frame before, whose number was read too, and this one. */
export function missedNumbers(scan: JudgedScan, before: readonly JudgedScan[]): string[] {
  const number = Number(scan.frame);
  if (numberRead(scan.numbers) !== String(number)) return [];
  const taken = new Set(before.map(({ frame }) => Number(frame)));
  const lower = before.filter(
    ({ frame, numbers }) => Number(frame) < number && numberRead(numbers) === String(Number(frame)),
  );
  if (lower.length === 0) return [];
  const from = Math.max(...lower.map(({ frame }) => Number(frame)));
  return Array.from({ length: Math.max(0, number - from - 1) }, (_, k) => from + 1 + k)
    .filter((one) => !taken.has(one))
    .map((one) => String(one).padStart(scan.frame.length, "0"));
}
