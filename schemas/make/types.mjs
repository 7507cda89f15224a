// TypeScript types from the definitions, with the descriptions as doc comments.
import { fullDescription } from "./words.mjs";

const title = (name) => name[0].toUpperCase() + name.slice(1);
const names = { roll: "RollRecipe", stock: "StockRecipe", film: "FilmKind", format: "FilmFormat" };
const typeName = (name) => names[name] ?? title(name);

function comment(schema, indent) {
  const text = fullDescription(schema);
  if (!text) return "";
  const room = 112 - indent.length;
  if (text.length <= room) return `${indent}/** ${text} */\n`;
  const lines = [""];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last && last.length + word.length + 1 > room) lines.push(word);
    else lines[lines.length - 1] = last ? `${last} ${word}` : word;
  }
  return `${indent}/**\n${lines.map((line) => `${indent} * ${line}\n`).join("")}${indent} */\n`;
}

/** The type of a value. A list of fixed length up to four becomes a tuple. */
function typeOf(schema) {
  if (schema.$ref) return typeName(schema.$ref.replace("#/definitions/", ""));
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (schema.enum) {
    const names = schema.enum.map((value) => JSON.stringify(value)).join(" | ");
    return [schema.type].flat().includes("array") ? `${names} | ${listType(schema)}` : names;
  }
  return [schema.type]
    .flat()
    .map((type) => typeOfKind(schema, type))
    .join(" | ");
}

function typeOfKind(schema, type) {
  if (type === "integer") return "number";
  if (type === "array") return listType(schema);
  if (type !== "object") return type;
  const value = schema.patternProperties ? Object.values(schema.patternProperties)[0] : schema.additionalProperties;
  if (value) return `Readonly<Record<string, ${typeOf(value)}>>`;
  if (!schema.properties) throw new Error("an object without a word on its keys");
  const keys = Object.entries(schema.properties).map(
    ([key, child]) => `readonly ${key}${schema.required?.includes(key) ? "" : "?"}: ${typeOf(child)}`,
  );
  return `{ ${keys.join("; ")} }`;
}

function listType({ items, minItems, maxItems }) {
  if (Array.isArray(items))
    return `readonly [${items.map((item, i) => (i < minItems ? typeOf(item) : `(${typeOf(item)})?`)).join(", ")}]`;
  const item = typeOf(items);
  if (minItems === maxItems && minItems <= 4) return `readonly [${Array(minItems).fill(item).join(", ")}]`;
  return `readonly ${item.includes(" ") ? `(${item})` : item}[]`;
}

function declaration(name, schema) {
  if (schema.type !== "object" || !schema.properties)
    return `${comment(schema, "")}export type ${typeName(name)} = ${typeOf(schema)};\n`;
  const keys = Object.entries(schema.properties).map(([key, child]) => {
    const optional = schema.required?.includes(key) ? "" : "?";
    return `${comment(child, "  ")}  readonly ${key}${optional}: ${typeOf(child)};\n`;
  });
  return `${comment(schema, "")}export interface ${typeName(name)} {\n${keys.join("")}}\n`;
}

/** The text of types.ts. */
export function types(definitions) {
  const head = "// Made by schemas/generate.mjs from schemas/recipe.parts.json; do not edit.\n\n";
  return (
    head +
    Object.entries(definitions)
      .map(([name, schema]) => declaration(name, schema))
      .join("\n")
  );
}
