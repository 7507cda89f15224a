// describe.ts: what is known of each key, by path pattern. `*` stands for a list's index or a free key.

const own = ["unit", "layout", "whole", "path"];

/** What the table says of one schema, in a fixed order of keys. */
function entryOf(schema, required) {
  const entry = { type: schema.const !== undefined ? "number" : (schema.type ?? typeof schema.enum[0]) };
  const item = Array.isArray(schema.items) ? {} : (schema.items ?? {});
  const put = (key, value) => {
    if (value !== undefined) entry[key] = value;
  };
  put("description", schema.description);
  for (const key of own) put(key === "path" ? "isPath" : key, schema[`x-${key}`]);
  put("minimum", schema.minimum ?? item.minimum);
  put("maximum", schema.maximum ?? item.maximum);
  put("enum", schema.enum ?? (schema.const === undefined ? undefined : [schema.const]));
  put("default", schema.default);
  put("defaultText", schema["x-default"]);
  put("examples", schema.examples);
  put("minItems", schema.minItems);
  put("maxItems", schema.maxItems);
  put("keys", schema.properties && Object.keys(schema.properties));
  put("requiredKeys", schema.required);
  put("keyPattern", schema.patternProperties && Object.keys(schema.patternProperties)[0]);
  put("required", required || undefined);
  return entry;
}

function collect(definitions, name) {
  const table = {};
  const visit = (node, path, required) => {
    const schema = node.$ref ? definitions[node.$ref.replace("#/definitions/", "")] : node;
    table[path.join(".")] = entryOf(schema, required);
    for (const [key, child] of Object.entries(schema.properties ?? {}))
      visit(child, [...path, key], schema.required?.includes(key));
    const free = schema.patternProperties ? Object.values(schema.patternProperties)[0] : schema.additionalProperties;
    if (free) visit(free, [...path, "*"], false);
    if (Array.isArray(schema.items)) schema.items.forEach((child, i) => visit(child, [...path, String(i)], false));
    else if (schema.items) visit(schema.items, [...path, "*"], false);
  };
  visit(definitions[name], [], false);
  return table;
}

/** The text of describe.ts: equal entries are written once. */
export function keyTable(definitions, kinds) {
  const shared = new Map();
  const tables = kinds.map((kind) => {
    const rows = Object.entries(collect(definitions, kind)).map(([path, entry]) => {
      const text = JSON.stringify(entry);
      if (!shared.has(text)) shared.set(text, `k${shared.size}`);
      return `    ${JSON.stringify(path)}: ${shared.get(text)},\n`;
    });
    return `  ${kind}: {\n${rows.join("")}  },\n`;
  });
  const constants = [...shared].map(([text, name]) => `const ${name}: KeyDescription = ${text};\n`).join("");
  return `// Made by schemas/generate.mjs from schemas/recipe.parts.json; do not edit.
import type { KeyDescription } from "../schema/key-description.ts";

${constants}
/** By kind of recipe and path pattern ("frames.*.positive.exposure"; the root is ""): what is known of the key. */
export const keyTable: Readonly<Record<"${kinds.join('" | "')}", Readonly<Record<string, KeyDescription>>>> = {
${tables.join("")}};
`;
}
