/** Validates a value against the schema, and words what is wrong. */
import { describeKey } from "../schema/describe.ts";
import { roll, type SchemaError, stock } from "../generated/validate.js";
import { validationMessage } from "./messages.ts";
import type { RecipeKind, RecipePath } from "../path.ts";
import { type Problem, problem } from "../problems.ts";
import type { Subject } from "./subject.ts";
import { target } from "../yaml/ast.ts";
import type { Value } from "../yaml/values.ts";

/** Problems of the schema beyond this number are not looked at. */
const maximumProblems = 1000;

/** What the schema says against the value. Paths that `known` problems are about already are left alone. */
export function validateValue(subject: Subject, known: readonly Problem[]): Problem[] {
  if (target(subject.ast)?.kind !== "mapping") {
    const message = `A ${subject.kind} is a mapping of keys and values. Begin with: version: 2`;
    return [problem("not-a-mapping", [subject.ast.start, subject.ast.end], [], message)];
  }
  const validator = subject.kind === "roll" ? roll : stock;
  if (validator(subject.value)) return [];
  const settled = new Set(known.map((p) => JSON.stringify(p.path)));
  const problems: Problem[] = [];
  for (const error of validator.errors ?? []) {
    if (problems.length >= maximumProblems) break;
    const path = pathOf(error, subject.value);
    const about = keyOf(error);
    if (settled.has(JSON.stringify(path)) || (about && settled.has(JSON.stringify([...path, about])))) continue;
    const found = validationMessage(subject, error, path, describeKey(subject.kind, path));
    if (found) problems.push(found);
  }
  return withoutEcho(problems);
}

/** Paths of everything in the value that does not keep the schema, the recipe's own missing keys left aside. */
export function invalidPaths(kind: RecipeKind, value: Value): RecipePath[] {
  const validator = kind === "roll" ? roll : stock;
  if (validator(value)) return [];
  return (validator.errors ?? []).flatMap((error) => {
    const path = pathOf(error, value);
    const unknown = error.params.additionalProperty;
    if (typeof unknown === "string") return [[...path, unknown]];
    return path.length > 0 ? [path] : [];
  });
}

/** A value that has the wrong type, or is none of the allowed ones, needs no second complaint. */
function withoutEcho(problems: readonly Problem[]): Problem[] {
  const first = new Map<string, Problem>();
  for (const found of problems) {
    const key = JSON.stringify([found.path, found.range]);
    const other = first.get(key);
    if (!other || (other.code !== "wrong-type" && found.code === "wrong-type")) first.set(key, found);
  }
  return [...first.values()];
}

/** The JSON pointer as a path: parts of lists become numbers. */
function pathOf(error: SchemaError, root: Value): RecipePath {
  let at: unknown = root;
  return error.instancePath
    .split("/")
    .slice(1)
    .map((part) => {
      const key = part.replaceAll("~1", "/").replaceAll("~0", "~");
      const step = Array.isArray(at) ? Number(key) : key;
      at = (at as Record<string | number, unknown>)[step];
      return step;
    });
}

function keyOf(error: SchemaError): string | undefined {
  const key = error.params.missingProperty ?? error.params.additionalProperty;
  return typeof key === "string" ? key : undefined;
}
