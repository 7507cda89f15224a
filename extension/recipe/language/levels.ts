/** The levels of a recipe's values (stock, roll, frame), and what applies at one of them. */
import type { Origin } from "../resolve/cascade.ts";
import { defaultOf } from "../schema/defaults.ts";
import { describeKey } from "../schema/describe.ts";
import type { RecipePath } from "../path.ts";
import { resolveRoll, type ResolvedRoll } from "../resolve/resolve.ts";
import type { Value } from "../yaml/values.ts";
import type { Reading } from "./document-cache.ts";

/** A place in a recipe, split into the frame it is in and the path below that. */
export interface Placed {
  readonly frame?: string;
  readonly own: RecipePath;
}

/** Splits a path of a roll's or stock's text. */
export function placed(path: RecipePath): Placed {
  if (path[0] !== "frames") return { own: path };
  return path.length > 1 ? { frame: String(path[1]), own: path.slice(2) } : { own: path };
}

/** A path cut to the value that is inherited as one: not inside lists, nor inside mappings that are inherited whole. */
export function inheritedUnit({ document }: Reading, path: RecipePath): RecipePath {
  for (let length = 1; length < path.length; length++) {
    if (typeof path[length] === "number") return path.slice(0, length);
    if (describeKey(document.kind, path.slice(0, length))?.whole) return path.slice(0, length);
  }
  return path;
}

/** A value with where it comes from. */
export interface Inherited {
  readonly value: Value;
  readonly origin: Origin;
}

/** What applies at a place of the text: stated there, or inherited. */
export function applying({ resolved }: Reading, { frame, own }: Placed): Inherited | undefined {
  return lookUp(resolved, frame, own);
}

const alone = new WeakMap<Reading, ResolvedRoll>();

/**
 * What would apply if the text did not state the value here: for a frame what the roll or stock says, for a roll what
 * the stock says, and where none says anything the default. Undefined for what is not inherited at all.
 */
export function behind(reading: Reading, { frame, own }: Placed): Inherited | undefined {
  if (own.length === 0) return undefined;
  if (frame !== undefined) {
    // A frame shares these keys' names with its roll, not their values.
    return isShared(own) ? lookUp(reading.resolved, undefined, own) : undefined;
  }
  if (reading.document.kind === "stock" || !reading.stock || !describeKey("stock", own) || !isCascading(own)) {
    const value = defaultOf(reading.resolved.film, own, reading.resolved) as Value | undefined;
    return value === undefined ? undefined : { value, origin: { level: "default", path: own } };
  }
  let stock = alone.get(reading);
  if (!stock) alone.set(reading, (stock = resolveRoll(reading.stock)));
  return lookUp(stock, undefined, own);
}

function lookUp(resolved: ResolvedRoll, frame: string | undefined, own: RecipePath): Inherited | undefined {
  const value = resolved.valueAt(frame, own);
  const origin = resolved.originOf(frame, own);
  return value === undefined || !origin ? undefined : { value, origin };
}

/** Keys that a frame inherits from its roll. */
export const isShared = (own: RecipePath): boolean =>
  own.length > 0 && ["light", "negative", "positive"].includes(String(own[0]));

/** Keys that a roll inherits from its stock. */
export const isCascading = (own: RecipePath): boolean =>
  own.length > 0 && ["film", "format", "negative", "positive", "output"].includes(String(own[0]));
