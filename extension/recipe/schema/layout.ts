/** How the canonical format lays out each mapping and list. */
import { describeKey, patternOf } from "./describe.ts";
import type { RecipeKind, RecipePath } from "../path.ts";

/**
 * How a mapping or list is laid out in the canonical format: "flow" in brackets on one line, "rows" so too up to four
 * items and beyond that one item a line, "block" one key a line, "as-written" either.
 */
export type Layout = "flow" | "rows" | "block" | "as-written";

/** Lists laid out as rows stay on one line up to this many items. */
export const maximumRow = 4;

/** What a frame overrides is mostly one value: it may stand on the frame's own line. */
const overrides = /^frames\.\*\.(light|negative|positive)$/;

export function layoutOf(kind: RecipeKind, path: RecipePath): Layout {
  const about = describeKey(kind, path);
  if (!about) return "as-written";
  if (overrides.test(patternOf(kind, path))) return "as-written";
  return about.layout ?? "block";
}

/** Whether keys at `path` are free (frame ids, names of scans), so that their order is the text's. */
export const hasFreeKeys = (kind: RecipeKind, path: RecipePath): boolean => {
  const about = describeKey(kind, path);
  return about?.type === "object" && about.keys === undefined;
};

/** The place of a key in the canonical order; unknown keys come last. */
export function rankOf(kind: RecipeKind, path: RecipePath, name: string): number {
  const at = describeKey(kind, path)?.keys?.indexOf(name) ?? -1;
  return at < 0 ? Number.MAX_SAFE_INTEGER : at;
}

/** Whether `path` leads to a frame: frame ids are always written in double quotes. */
export const isFrameId = (kind: RecipeKind, path: RecipePath): boolean =>
  kind === "roll" && path.length === 2 && path[0] === "frames";

/** Order of free keys: numbers within them count as numbers, so that "2" comes before "10" and "12" before "12A". */
export function compareIds(a: string, b: string): number {
  const [, numberA = "", restA = a] = /^(\d*)(.*)$/s.exec(a) ?? [];
  const [, numberB = "", restB = b] = /^(\d*)(.*)$/s.exec(b) ?? [];
  if (numberA !== "" && numberB !== "" && Number(numberA) !== Number(numberB)) return Number(numberA) - Number(numberB);
  return restA < restB ? -1 : restA > restB ? 1 : a < b ? -1 : a > b ? 1 : 0;
}
