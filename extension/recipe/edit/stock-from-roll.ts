/** Keeps what a roll has learned as a stock: its negative and its look, without what belongs to the roll. */
import { toneEndIn } from "../../engine/film/tone-versions.ts";
import { composeRecipe, withComments } from "./compose.ts";
import type { RecipeDocument } from "../problems/document.ts";
import { applyChanges, editRecipe, type ValueEdit } from "./edit.ts";
import { formatRecipe } from "./layout/format.ts";
import type { ResolvedRoll } from "../resolve/resolve.ts";
import { versionOf } from "../version.ts";

/** Brightness belongs to frames, and where the base was read to the roll's scans. */
const OF_THE_ROLL = new Set(["positive.exposure", "negative.base"]);

export interface StockOptions {
  readonly title?: string;
  /** Text of the stock that the roll was made from: its comments and its notes are kept. */
  readonly stock?: RecipeDocument;
}

/**
 * A stock's text with the values that apply to the roll. What the roll states itself is new; the rest stays as the old
 * stock has it. The roll's base becomes the stock's reference.
 */
export function stockFromRoll(document: RecipeDocument, roll: ResolvedRoll, options: StockOptions = {}): string {
  const values: ValueEdit[] = [];
  const own = document.value as unknown as Readonly<Record<string, unknown>>;
  for (const block of ["negative", "positive"] as const) {
    const stated = (options.stock ? own[block] : roll.valueAt(undefined, [block])) as
      | Readonly<Record<string, unknown>>
      | undefined;
    for (const [key, value] of Object.entries(stated ?? {}))
      if (!OF_THE_ROLL.has(`${block}.${key}`)) values.push({ path: [block, key], value });
  }
  // Of gamma and curve only one may stand; the roll's own choice wins.
  const conflicts = { gamma: "curve", curve: "gamma" } as const;
  const stating = values.filter(({ path }) => path[0] === "negative").map(({ path }) => path[1]);
  for (const [key, conflicting] of Object.entries(conflicts))
    if (options.stock && stating.includes(key)) values.push({ path: ["negative", conflicting], value: undefined });
  const density = roll.valueAt(undefined, ["negative", "base", "density"]);
  const stated = roll.originOf(undefined, ["negative", "base", "density"])?.level !== "default";
  if (stated) values.push({ path: ["negative", "base"], value: { density } });
  if (options.title !== undefined) values.push({ path: ["title"], value: options.title });
  const comment = {
    path: ["negative", "base"],
    text: `Reference: the base of ${roll.title ?? roll.file}. A new roll's base is compared with it.`,
  };
  if (options.stock) {
    const version = versionOf(options.stock.value);
    values.forEach(({ path, value }, i) => {
      const end = path[0] === "positive" && (path[1] === "toe" || path[1] === "shoulder") ? path[1] : undefined;
      if (end && typeof value === "number") values[i] = { path, value: toneEndIn(version, end, value, roll.version) };
    });
    const text = applyChanges(options.stock.text, editRecipe(options.stock.text, values, { kind: "stock" }));
    return formatRecipe(text, { kind: "stock" });
  }
  values.push({ path: ["title"], value: options.title ?? roll.title });
  values.push({ path: ["film"], value: roll.film }, { path: ["format"], value: roll.format });
  const text = composeRecipe({
    kind: "stock",
    version: roll.version,
    head: `Kept from ${roll.title ?? roll.file}.`,
    values,
    comments: [],
  });
  return formatRecipe(withComments(text, [comment], "stock"), { kind: "stock" });
}
