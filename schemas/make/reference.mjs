// docs/recipe-reference.md: every key with unit, range, default and an example.
import { defaultOf, rangeOf, unitOf } from "./words.mjs";

const code = (text) => "`" + String(text).replaceAll("|", "\\|") + "`";
/** A block of YAML: a line of the cell for each of its lines. */
const block = (text) => String(text).split("\n").map(code).join("<br>");
const cell = (text) => String(text ?? "").replaceAll("|", "\\|");

const kindOf = (schema) => {
  if (schema.const !== undefined) return code(schema.const);
  const type = [schema.type].flat();
  if (schema.enum) {
    const names = schema.enum.map((value) => code(value)).join(", ");
    return type.includes("array") ? `${names}, or a list` : names;
  }
  if (type.includes("array") && type.includes("number")) return "number or 3 numbers";
  if (type.includes("string") && type.includes("object")) return "text or mapping";
  if (type[0] === "array") return "list";
  return { object: "mapping", string: "text", integer: "whole number", boolean: "true or false" }[type[0]] ?? type[0];
};

function row(key, schema, required) {
  const value = [kindOf(schema), unitOf(schema), rangeOf(schema)].filter(Boolean).join("; ");
  const fallback = required ? "**required**" : defaultOf(schema) === undefined ? "" : defaultOf(schema);
  const example = schema.examples?.[0];
  return `| ${code(key)} | ${cell(schema.description)} | ${cell(value)} | ${cell(fallback)} | ${example === undefined ? "" : block(example)} |\n`;
}

/** Keys of a mapping as a table, then each mapping below it under a heading of its own. */
function section(definitions, path, schema, level, seen) {
  const deref = (node) => (node.$ref ? definitions[node.$ref.replace("#/definitions/", "")] : node);
  let out = `| key | meaning | value | default | example |\n| --- | --- | --- | --- | --- |\n`;
  const below = [];
  for (const [key, node] of Object.entries(schema.properties)) {
    const child = deref(node);
    out += row(key, child, schema.required?.includes(key));
    const inner = innerOf(child, deref);
    if (inner) below.push([[...path, key + inner.suffix], inner.schema]);
  }
  for (const [where, child] of below) {
    const name = where.join(".");
    out += `\n${"#".repeat(level)} ${name}\n\n`;
    const first = seen.get(child);
    if (first) out += `The same keys as [${first}](#${anchor(first)}); what is stated here goes before.\n`;
    else {
      seen.set(child, name);
      out += `${child.description}\n\n${section(definitions, where, child, level, seen)}`;
    }
  }
  return out;
}

const anchor = (name) => name.toLowerCase().replaceAll(/[^a-z0-9-]/g, "");

/** The mapping that a key holds: itself, the items of its list, or the values under its free keys. */
function innerOf(schema, deref) {
  if (schema.properties) return { suffix: "", schema };
  if (schema.patternProperties) return { suffix: ".ID", schema: deref(Object.values(schema.patternProperties)[0]) };
  if (schema.additionalProperties) return { suffix: ".SCAN", schema: deref(schema.additionalProperties) };
  const item = schema.items && !Array.isArray(schema.items) ? deref(schema.items) : undefined;
  return item?.properties ? { suffix: "[]", schema: item } : undefined;
}

/** The text of docs/recipe-reference.md. */
export function reference(definitions) {
  const seen = new Map();
  return `# Recipe reference

Made by \`npm run generate\` from \`schemas/recipe.parts.json\`; do not edit.

A recipe is YAML 1.2. Every value has one unit. A key that is not stated takes its value from further out: the frame
first, then the roll, then the stock, then the default. Mappings are merged key by key; lists and single values
replace what lies further out. \`gamma\` and \`curve\` exclude each other, and the nearest choice of the two wins.
Keys that are not listed here are errors.

## Roll (\`*.roll.yaml\`)

${definitions.roll.description}

${section(definitions, [], definitions.roll, 3, seen)}
## Stock (\`*.stock.yaml\`)

${definitions.stock.description}

${section(definitions, [], definitions.stock, 3, seen)}`;
}
