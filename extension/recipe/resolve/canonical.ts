/** Canonical JSON, and what of a frame decides its picture. */
import type { ResolvedFrame, ResolvedOutput } from "./resolve.ts";

/**
 * JSON that is the same for the same data: keys sorted by code unit, no blanks, numbers as ECMAScript prints them with
 * −0 as 0, undefined values left out (after RFC 8785). Throws for what JSON cannot hold.
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === "boolean" || typeof value === "string") return JSON.stringify(value);
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new TypeError(`${value} has no canonical form: only finite numbers have.`);
    return JSON.stringify(value === 0 ? 0 : value);
  }
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item ?? null)).join(",")}]`;
  if (typeof value !== "object") throw new TypeError(`A ${typeof value} has no canonical form.`);
  const parts = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .toSorted(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .map(([key, inner]) => `${JSON.stringify(key)}:${canonicalJson(inner)}`);
  return `{${parts.join(",")}}`;
}

/**
 * Everything that decides a frame's pixels, and nothing else: two frames with the same facts and the same scans give
 * the same picture. Titles, notes and folders are left out; scans count by name.
 */
export function pictureFacts(frame: ResolvedFrame, output?: ResolvedOutput): object {
  const { look, area, turn, mirror, spots, join, merged, channels } = frame;
  const { blank, blanks, flare, times, lens, falloff } = frame.light;
  return {
    version: 1,
    look,
    area,
    turn,
    mirror,
    spots,
    join,
    merged,
    channels,
    scans: frame.scans.map((scan) => scan.name),
    light: {
      blank: blank?.name,
      blanks: blanks?.map(({ name }) => name),
      flare,
      spots: frame.light.spots,
      times,
      lens,
      falloff,
    },
    output: output && { ...output, name: undefined },
  };
}
