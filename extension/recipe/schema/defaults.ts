/** Defaults of keys, those that depend on the film included. */
import type { Film } from "../../engine/types.ts";
import { describeKey } from "./describe.ts";
import type { RecipePath } from "../path.ts";
import type { RecipeVersion } from "../version.ts";

/** Defaults that depend on the film; all others stand in the schema. */
const byFilm: Readonly<Record<string, Partial<Record<Film, number>>>> = {
  "negative.gamma": { "black-and-white-negative": 0.62 },
  "positive.contrast": { slide: 1 },
};

/** Defaults of version 1 that are others than today's. */
const ofVersion1: Readonly<Record<string, number>> = { "positive.toe": 0.3, "positive.shoulder": 0.4 };

export interface DefaultOptions {
  /** Whether the path is counted from a frame. */
  readonly isFrame?: boolean;
  /** Version of the recipe; the current one where absent. */
  readonly version?: RecipeVersion;
}

/**
 * The default at `path`, counted from the root of a roll (or of a frame). A path into a list, or into a number that
 * stands for three, finds its part. Mappings have no default of their own, their keys have.
 */
export function defaultOf(film: Film, path: RecipePath, { isFrame = false, version }: DefaultOptions = {}): unknown {
  for (let length = path.length; length > 0; length--) {
    const way = path.slice(0, length);
    const about = describeKey("roll", isFrame ? ["frames", "1", ...way] : way);
    const name = way.join(".");
    const value = byFilm[name]?.[film] ?? (version === 1 ? ofVersion1[name] : undefined) ?? about?.default;
    if (value === undefined) continue;
    let inner: unknown = value;
    for (const part of path.slice(length))
      inner =
        Array.isArray(inner) && typeof part === "number" ? inner[part] : typeof part === "number" ? inner : undefined;
    return inner;
  }
  return undefined;
}
