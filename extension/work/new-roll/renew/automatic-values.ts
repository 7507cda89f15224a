/** Which values of a roll are found automatically, and the digests by which a recipe tells those that nobody changed. */
import { createHash } from "node:crypto";
import { applyEdits } from "../../../recipe/edit/model.ts";
import type { CommentInsert } from "../../../recipe/edit/compose.ts";
import type { RecipePath, ValueEdit } from "../../../recipe/path.ts";
import type { Value } from "../../../recipe/yaml/values.ts";

/** What can be renewed by itself. */
export const GROUPS = ["base", "filtration", "exposure", "area"] as const;
export type Group = (typeof GROUPS)[number];

/** Values that are found, kept or changed together. */
export interface AutomaticUnit {
  /** Its key among the digests. */
  readonly name: string;
  readonly group: Group;
  /** Below the roll, or below a frame. */
  readonly paths: readonly RecipePath[];
  /** Whether it stays as it is where nothing is found any more; else it is removed. */
  readonly stays?: boolean;
}

export const ROLL_UNITS: readonly AutomaticUnit[] = [
  { name: "blank", group: "base", paths: [["light", "blank"]], stays: true },
  { name: "flare", group: "base", paths: [["light", "flare"]], stays: true },
  { name: "times", group: "base", paths: [["light", "times"]], stays: true },
  { name: "base", group: "base", paths: [["negative", "base"]], stays: true },
  // One fit: each of them holds for the others only.
  {
    name: "curve",
    group: "filtration",
    paths: ["curve", "gamma", "unmix", "colour"].map((key) => ["negative", key]),
    stays: true,
  },
  { name: "filtration", group: "filtration", paths: [["positive", "filtration"]] },
  ...["contrast", "toe", "shoulder"].map((name): AutomaticUnit => ({
    name,
    group: "exposure",
    paths: [["positive", name]],
    stays: true,
  })),
];

export const FRAME_UNITS: readonly AutomaticUnit[] = [
  { name: "area", group: "area", paths: [["area"]], stays: true },
  { name: "exposure", group: "exposure", paths: [["positive", "exposure"]] },
  { name: "contrast", group: "exposure", paths: [["positive", "contrast"]] },
];

/** What a recipe is to state: values, and the comments above them. */
export interface RollContent {
  readonly values: readonly ValueEdit[];
  readonly comments: readonly CommentInsert[];
}

/** The value at a path; undefined where there is none. */
export function valueAt(value: unknown, path: RecipePath): Value | undefined {
  let at = value;
  for (const key of path)
    at =
      typeof at === "object" && at !== null && Object.hasOwn(at, key)
        ? (at as Record<string | number, unknown>)[key]
        : undefined;
  return at as Value | undefined;
}

/** The values of a unit below `at`, in the order of its paths. */
export const unitValues = (recipe: unknown, at: RecipePath, unit: AutomaticUnit): (Value | undefined)[] =>
  unit.paths.map((path) => valueAt(recipe, [...at, ...path]));

/** Consonants alone: a digest reads as no word, no number and no keyword of YAML. */
const LETTERS = "bcdfghjklmnpqrstvwxz";

function digestOf(text: string, length: number): string {
  const bytes = createHash("sha256").update(text).digest();
  return Array.from(bytes.subarray(0, length), (byte) => LETTERS[byte % LETTERS.length]).join("");
}

/** Keys in order and numbers as numbers: layout does not count. */
function canonical(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(canonical);
  if (typeof value !== "object" || value === null) return value === undefined ? null : Object.is(value, -0) ? 0 : value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, own]) => [key, canonical(own)]),
  );
}

/** Digest of a unit's values; undefined where it states none. */
export function valueDigest(values: readonly (Value | undefined)[]): string | undefined {
  if (values.every((value) => value === undefined)) return undefined;
  return digestOf(JSON.stringify(canonical(values)), 8);
}

/** Digest of a comment, however its lines are broken. */
export const commentDigest = (text: string): string => digestOf(text.split(/\s+/).filter(Boolean).join(" "), 4);

/** A unit's entry: its digest and those of the comments above its values. */
export function unitDigest(
  recipe: unknown,
  at: RecipePath,
  unit: AutomaticUnit,
  comments: readonly CommentInsert[],
): string | undefined {
  const value = valueDigest(unitValues(recipe, at, unit));
  if (value === undefined) return undefined;
  const paths = new Set(unit.paths.map((path) => JSON.stringify([...at, ...path])));
  const own = comments.filter(({ path }) => paths.has(JSON.stringify(path)));
  return [value, ...own.map(({ text }) => commentDigest(text))].join("-");
}

/** The values of a new recipe with the digests of those that were found. */
export function withDigests({ values, comments }: RollContent): RollContent {
  const recipe = applyEdits("roll", {}, values);
  const digests = (at: RecipePath, units: readonly AutomaticUnit[]): ValueEdit["value"] => {
    const own = units.flatMap((unit) => {
      const digest = unitDigest(recipe, at, unit, comments);
      return digest === undefined ? [] : [[unit.name, digest] as const];
    });
    return own.length === 0 ? undefined : Object.fromEntries(own);
  };
  const frames = Object.keys((valueAt(recipe, ["frames"]) ?? {}) as object);
  const edits: ValueEdit[] = [
    { path: ["automatic", "roll"], value: digests([], ROLL_UNITS) },
    ...frames.map((id) => ({
      path: ["automatic", "scans", digestKey(recipe, id) ?? ""],
      value: digests(["frames", id], FRAME_UNITS),
    })),
  ];
  return { values: [...values, ...edits.filter(({ value }) => value !== undefined)], comments };
}

/**
 * What a frame's digests are filed under: the name of its first scan, for frames may be renamed. Of several frames on one
 * scan the first has the scan's name, the others their own behind it.
 */
export function digestKey(recipe: unknown, id: string): string | undefined {
  const scan = firstScan(recipe, id);
  if (scan === undefined) return undefined;
  const own = `${scan} ${id}`;
  if (valueAt(recipe, ["automatic", "scans", own]) !== undefined) return own;
  const frames = Object.keys((valueAt(recipe, ["frames"]) ?? {}) as object);
  const first = frames.find((other) => firstScan(recipe, other) === scan);
  return first === id ? scan : own;
}

/** Name of a frame's first scan. */
export function firstScan(recipe: unknown, id: string): string | undefined {
  const stated = [["scan"], ["scans", 0], ["exposures", 0]].map((path) => valueAt(recipe, ["frames", id, ...path]));
  const name = stated.find((value) => value !== undefined);
  return typeof name === "string" ? name : undefined;
}
