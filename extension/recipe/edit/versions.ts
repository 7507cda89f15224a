/**
 * Versions of the recipe format. `version` changes only when the same text would mean something else, or nothing, to a
 * newer Rollbook; keys that are added do not change it. A recipe keeps its version and its pictures until a person
 * upgrades it: a step here then says the old meaning in the new terms. tests/golden holds the pixels.
 */
import { toneEndIn } from "../../engine/film/tone-versions.ts";
import { parseRecipe } from "../problems/document.ts";
import { applyChanges, editRecipe, type ValueEdit } from "./edit.ts";
import type { RecipeKind, RecipePath } from "../path.ts";
import { CURRENT_VERSION } from "../version.ts";
import type { Value } from "../yaml/values.ts";

type Fields = Readonly<Record<string, Value>>;

/** From a recipe's value in one version to the edits that make it one of the next; `version` itself is seen to. */
export type Step = (value: Fields) => readonly ValueEdit[];

/** By the version that they lead from. Version 1 is the first there was. */
const STEPS: ReadonlyMap<number, Step> = new Map([[1, toVersion2]]);

/** Where a recipe is, and the version that it is to have at least. */
export interface MigrateOptions {
  readonly file: string;
  readonly kind?: RecipeKind;
  readonly to?: number;
}

/**
 * The text in a later version: comments, order and layout stay where no step changes them. A text that is current,
 * is of a version without a step, or is not YAML comes back as it is; its problems say what is wrong.
 */
export function migrateRecipe(
  text: string,
  { to = CURRENT_VERSION, ...options }: MigrateOptions,
  steps: ReadonlyMap<number, Step> = STEPS,
): string {
  let now = text;
  // Each step leads to a higher version, so there are no more rounds than steps.
  for (let round = 0; round < steps.size; round++) {
    const { value, wellFormed } = parseRecipe(now, options);
    const fields = wellFormed ? fieldsOf(value) : undefined;
    const version = fields?.["version"];
    const step = typeof version === "number" && version < to ? steps.get(version) : undefined;
    if (!fields || !step || typeof version !== "number") return now;
    const edits = [...step(fields), { path: ["version"], value: version + 1 }];
    now = applyChanges(now, editRecipe(now, edits, options));
  }
  return now;
}

const fieldsOf = (value: Value | undefined): Fields | undefined =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Fields) : undefined;

/** Digests of the one toe and the one shoulder that version 1's automatic start wrote, and of what they become. */
export const AUTOMATIC_DIGESTS = {
  toe: { 1: "cwpntkrb", 2: "zsfgbcql" },
  shoulder: { 1: "plxpxrgg", 2: "vgwqlqbw" },
} as const;

/** Toe and shoulder of version 1 as the nearest ones of version 2. */
function toVersion2(recipe: Fields): ValueEdit[] {
  const places: RecipePath[] = [[], ...Object.keys(fieldsOf(recipe["frames"]) ?? {}).map((id) => ["frames", id])];
  const edits: ValueEdit[] = [];
  for (const place of places) {
    const owner = place.reduce<Fields | undefined>((at, key) => fieldsOf(at?.[String(key)]), recipe);
    const positive = fieldsOf(owner?.["positive"]);
    for (const end of ["toe", "shoulder"] as const) {
      const value = positive?.[end];
      if (typeof value !== "number" || value < 0 || value > 1) continue;
      edits.push({ path: [...place, "positive", end], value: toneEndIn(2, end, value, 1) });
    }
  }
  // What was found automatically still counts as found, so that `new --update` goes on renewing it.
  const digests = fieldsOf(fieldsOf(recipe["automatic"])?.["roll"]);
  for (const end of ["toe", "shoulder"] as const) {
    const recorded = digests?.[end];
    const [digest, ...comments] = typeof recorded === "string" ? recorded.split("-") : [];
    if (digest === AUTOMATIC_DIGESTS[end][1])
      edits.push({ path: ["automatic", "roll", end], value: [AUTOMATIC_DIGESTS[end][2], ...comments].join("-") });
  }
  return edits;
}
