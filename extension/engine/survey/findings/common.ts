/** What several findings share: numbers for people, and sources. */
import type { Box, Place, ScanReading } from "../types.ts";

export const PRACTICE = "common practice, no source";

export const percent = (part: number, digits = 1): string => `${(100 * part).toFixed(digits)} %`;

/** The largest of some numbers, and which it is. */
export function largest(values: readonly number[]): { value: number; index: number } {
  const value = Math.max(...values);
  return { value, index: values.indexOf(value) };
}

export const CHANNEL = ["red", "green", "blue"] as const;

/** A place in a scan. */
export function at(scan: Pick<ScanReading, "name" | "frame">, area?: Box): Place {
  const { name, frame } = scan;
  return { scan: name, ...(frame === undefined ? {} : { frame }), ...(area ? { area } : {}) };
}

/** Where in the field a point lies, in words. */
export function where(x: number, y: number): string {
  const across = x < 0.36 ? "left" : x > 0.64 ? "right" : "";
  const down = y < 0.36 ? "top" : y > 0.64 ? "bottom" : "";
  return [down, across].filter(Boolean).join(" ") || "middle";
}

/** The value that most scans have, by how often; the first of equals. */
export function usual<T>(values: readonly T[]): T | undefined {
  let best: T | undefined;
  let most = 0;
  for (const value of values) {
    const count = values.filter((v) => v === value).length;
    if (count > most) [best, most] = [value, count];
  }
  return best;
}

/** Scans by name, shortened: a long roll has many. */
export function names(scans: readonly { readonly name: string }[]): string {
  const shown = scans.slice(0, 4).map((s) => s.name);
  return scans.length > shown.length ? `${shown.join(", ")} and ${scans.length - shown.length} more` : shown.join(", ");
}
