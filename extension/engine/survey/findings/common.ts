/** What several findings share: numbers for people, and sources. */
import { msg, type Message } from "../../messages.ts";
import type { Box, Place, ScanReading } from "../types.ts";

export const PRACTICE = msg("common practice, no source").text;

export const percent = (part: number, digits = 1): string => `${(100 * part).toFixed(digits)} %`;

/** The largest of some numbers, and which it is. */
export function largest(values: readonly number[]): { value: number; index: number } {
  const value = Math.max(...values);
  return { value, index: values.indexOf(value) };
}

export const CHANNEL = [msg("red"), msg("green"), msg("blue")] as const;

/** A place in a scan. */
export function at(scan: Pick<ScanReading, "name" | "frame">, area?: Box): Place {
  const { name, frame } = scan;
  return { scan: name, ...(frame === undefined ? {} : { frame }), ...(area ? { area } : {}) };
}

/** Where in the field a point lies, in words. */
export function where(x: number, y: number): Message {
  const third = (at: number): 0 | 1 | 2 => (at < 0.36 ? 0 : at > 0.64 ? 2 : 1);
  return PLACES[third(y)][third(x)];
}

const PLACES = [
  [msg("top left"), msg("top"), msg("top right")],
  [msg("left"), msg("middle"), msg("right")],
  [msg("bottom left"), msg("bottom"), msg("bottom right")],
] as const;

/** The value that most scans have, by how often; the first of equals. */
export function usual<T>(values: readonly T[]): T | undefined {
  let best: T | undefined;
  let max = 0;
  for (const value of values) {
    const count = values.filter((v) => v === value).length;
    if (count > max) [best, max] = [value, count];
  }
  return best;
}

/** Scans by name, shortened: a long roll has many. */
export function names(scans: readonly { readonly name: string }[]): string | Message {
  const shown = scans
    .slice(0, 4)
    .map((s) => s.name)
    .join(", ");
  return scans.length > 4 ? msg("{0} and {1} more", shown, scans.length - 4) : shown;
}
