/** Defaults of keys, those that depend on the film included. */
import type { Film } from "../../engine/types.ts";
import { describeKey } from "./describe.ts";
import type { RecipePath } from "../path.ts";

/** Defaults that depend on the film; all others stand in the schema. */
const byFilm: Readonly<Record<string, Partial<Record<Film, number>>>> = {
  "negative.gamma": { "black-and-white-negative": 0.62 },
  "positive.contrast": { slide: 1 },
};

/**
 * The default at `path`, counted from the root of a roll (or of a frame). A path into a list, or into a number that
 * stands for three, finds its part. Mappings have no default of their own, their keys have.
 */
export function defaultOf(film: Film, path: RecipePath, isFrame = false): unknown {
  for (let length = path.length; length > 0; length--) {
    const way = path.slice(0, length);
    const about = describeKey("roll", isFrame ? ["frames", "1", ...way] : way);
    const value = byFilm[way.join(".")]?.[film] ?? about?.default;
    if (value === undefined) continue;
    let inner: unknown = value;
    for (const part of path.slice(length))
      inner =
        Array.isArray(inner) && typeof part === "number" ? inner[part] : typeof part === "number" ? inner : undefined;
    return inner;
  }
  return undefined;
}
