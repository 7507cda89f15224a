/** Where a frame's scans are named. */
import type { RecipePath } from "../path.ts";
import type { RecipeDocument } from "../problems/document.ts";
import { CHANNEL_ORDER } from "./channels.ts";

/** Path of a frame's scan of this number, from 0, under the key that the recipe states. */
export function scanPath(document: Pick<RecipeDocument, "rangeOf">, frame: string, index: number): RecipePath {
  const at = ["frames", frame];
  if (document.rangeOf([...at, "scan"]) !== undefined) return [...at, "scan"];
  const key = ["scans", "exposures"].find((one) => document.rangeOf([...at, one]) !== undefined);
  return key === undefined ? [...at, "channels", CHANNEL_ORDER[index] ?? "green"] : [...at, key, index];
}
