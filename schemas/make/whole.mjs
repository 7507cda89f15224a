// One schema, whole in one file, as editors' YAML tooling reads it: draft-07, full descriptions, no own keywords.
import { fullDescription } from "./words.mjs";

/** The version of the recipe's format that the schemas describe. */
const VERSION = 1;

/** The stable name of a schema: an address of nothing, so that nobody looks for it on a network. */
const schemaId = (name) => `urn:rollbook:${name}:${VERSION}`;

/** The definition called `name` as a schema of its own, with just the definitions that it reaches. */
export function wholeSchema(definitions, name) {
  const reached = new Set();
  const visit = (node) => {
    if (Array.isArray(node)) return node.map(visit);
    if (node === null || typeof node !== "object") return node;
    if (node.$ref) {
      const target = node.$ref.replace("#/definitions/", "");
      if (!definitions[target]) throw new Error(`recipe.parts.json: ${node.$ref} leads nowhere.`);
      if (!reached.has(target)) {
        reached.add(target);
        visit(definitions[target]);
      }
      return { $ref: node.$ref };
    }
    return plain(node, visit);
  };
  const root = visit(definitions[name]);
  const order = Object.keys(definitions).filter((key) => reached.has(key));
  return {
    $schema: "http://json-schema.org/draft-07/schema#",
    $id: schemaId(name),
    $comment: "Made by schemas/generate.mjs from recipe.parts.json; change that file.",
    title: `Rollbook ${name} recipe`,
    ...root,
    definitions: Object.fromEntries(order.map((key) => [key, visit(definitions[key])])),
  };
}

/** The definitions with plain draft-07 keywords alone. */
export function plainDefinitions(definitions) {
  const visit = (node) => {
    if (Array.isArray(node)) return node.map(visit);
    if (node === null || typeof node !== "object" || node.$ref) return node;
    const { description: _, default: __, ...rest } = plain(node, visit);
    return rest;
  };
  return visitAll(definitions, visit);
}

const visitAll = (schemas, visit) =>
  Object.fromEntries(Object.entries(schemas).map(([name, schema]) => [name, visit(schema)]));

/** `properties`, `default` and `examples` hold data or names, so only schemas inside are visited. */
function plain(schema, visit) {
  const out = {};
  for (const [key, value] of Object.entries(schema)) {
    if (key.startsWith("x-") || key === "examples") continue;
    if (key === "description") out.description = fullDescription(schema);
    else if (key === "properties" || key === "patternProperties") out[key] = visitAll(value, visit);
    else if (key === "items" || key === "additionalProperties") out[key] = visit(value);
    else out[key] = value;
  }
  return out.enum && [out.type].flat().includes("array") ? nameOrList(out) : out;
}

/**
 * A value that is one of some names, or a list. `enum` would forbid the list; a pattern holds for texts alone, with one
 * complaint about a wrong name, and editors complete from the examples.
 */
function nameOrList({ enum: names, ...rest }) {
  const pattern = `^(?:${names.map((name) => name.replaceAll(".", "\\.")).join("|")})$`;
  return { ...rest, pattern, examples: names };
}
