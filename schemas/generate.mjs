// Makes everything that follows from recipe.parts.json. `--check` writes nothing and fails when a file is stale.
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { format } from "oxfmt";
import { reference } from "./make/reference.mjs";
import { keyTable } from "./make/table.mjs";
import { types } from "./make/types.mjs";
import { validators } from "./make/validators.mjs";
import { plainDefinitions, wholeSchema } from "./make/whole.mjs";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const { definitions } = JSON.parse(readFileSync(join(root, "schemas/recipe.parts.json"), "utf8"));
const roll = wholeSchema(definitions, "roll");
const stock = wholeSchema(definitions, "stock");
const generated = "extension/recipe/generated";

const json = async (name, schema) => (await format(name, JSON.stringify(schema), { printWidth: 120 })).code;
const files = {
  "schemas/roll.schema.json": await json("roll.schema.json", roll),
  "schemas/stock.schema.json": await json("stock.schema.json", stock),
  [`${generated}/types.ts`]: types(definitions),
  [`${generated}/describe.ts`]: keyTable(definitions, ["roll", "stock"]),
  ...(await validators(plainDefinitions(definitions), ["roll", "stock"], generated)),
  "docs/recipe-reference.md": reference(definitions),
};

const read = (path) => {
  try {
    return readFileSync(join(root, path), "utf8");
  } catch {
    return undefined;
  }
};
const stale = Object.keys(files).filter((path) => read(path) !== files[path]);
if (process.argv.includes("--check")) {
  for (const path of stale) console.error(`${path} is stale: run \`npm run generate\` and commit what it writes.`);
  process.exit(stale.length ? 1 : 0);
}
for (const path of stale) writeFileSync(join(root, path), files[path]);
console.log(stale.length ? `wrote ${stale.join(", ")}` : "everything generated is up to date");
