/** The part of a recipe's value that is usable in spite of its problems. */
import { maximumProblems, type RecipeDocument } from "./document.ts";
import type { RecipePath } from "../path.ts";
import type { ProblemCode } from "../problems.ts";
import { invalidPaths } from "./validate.ts";
import type { Value } from "../yaml/values.ts";

/** Errors that leave the value they are about as good as it was. */
const tolerated = new Set<ProblemCode>(["no-scan", "unquoted-frame-id", "duplicate-key"]);

type Fields = Record<string, Value>;

/**
 * The recipe's value without what is wrong in it: each value that an error is about is left out (a list as a whole),
 * so that what is left keeps the schema and can be resolved while somebody is still typing. A text with so many
 * problems that not all of them were looked for has no sound value.
 */
export function validValue(document: RecipeDocument): Readonly<Fields> {
  if (!isMapping(document.value) || document.invalid.length >= maximumProblems) return {};
  const errors = document.invalid.filter((p) => p.severity === "error" && !tolerated.has(p.code)).map((p) => p.path);
  let value: Value = document.value;
  for (const path of errors) if (path.length > 0) value = without(value, path);
  // What went may be missed where it was: a reading without its scan goes too. Each round takes something away.
  for (
    let invalid = invalidPaths(document.kind, value);
    invalid.length > 0;
    invalid = invalidPaths(document.kind, value)
  )
    for (const path of invalid) value = without(value, path);
  return isMapping(value) ? value : {};
}

/** A copy that lacks the value at `path`; lists on the way are left out whole. */
function without(value: Value, path: RecipePath): Value {
  const [key, ...rest] = path;
  if (!isMapping(value) || key === undefined || !Object.hasOwn(value, String(key))) return value;
  const { [String(key)]: inner, ...others } = value;
  return rest.length > 0 && isMapping(inner) ? { ...others, [String(key)]: without(inner, rest) } : others;
}

const isMapping = (value: Value | undefined): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);
