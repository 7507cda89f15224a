/** `rollbook schema`: the JSON Schemas of recipes, for editors and catalogues. */
import rollSchema from "../../schemas/roll.schema.json";
import stockSchema from "../../schemas/stock.schema.json";
import { openOutput } from "../work/files/output-file.ts";
import { DRY_RUN_OPTION, writeOutput } from "./dry-run.ts";
import { EXIT, flag, text, UsageError, type Verb } from "./verb.ts";

const SCHEMAS = { roll: rollSchema, stock: stockSchema } as const;

/** File names that each schema is for, as a schema catalogue lists them. */
const FILE_MATCH = { roll: ["*.roll.yaml", "*.roll.yml"], stock: ["*.stock.yaml", "*.stock.yml"] } as const;

export const schema: Verb = {
  name: "schema",
  summary: "print or write the JSON Schema of recipes",
  usage: "[roll|stock] [-o FILE] [--catalogue]",
  details:
    "Prints the JSON Schema (draft-07) of rolls, or of stocks; -o writes it to a file. Its $id, such as urn:rollbook:roll:1,\n" +
    "changes with the format's version alone. A recipe names a copy in its first line, which many editors follow:\n" +
    "  # yaml-language-server: $schema=../schemas/roll.schema.json\n" +
    '"rollbook new --schema FILE" writes that line. --catalogue prints the entries for a catalogue of schemas.',
  example: "rollbook schema roll -o schemas/roll.schema.json",
  options: {
    out: { value: "FILE", short: "o", help: "file to write, NAME.json" },
    catalogue: { help: "print entries for a catalogue of schemas: name, description and file match" },
    overwrite: { help: "replace a file that is there already" },
    ...DRY_RUN_OPTION,
  },
  files: [0, 1],
  async run(call) {
    const { terminal } = call;
    const kind = call.files[0] ?? "roll";
    if (kind !== "roll" && kind !== "stock") throw new UsageError(`Schemas are roll and stock, not "${kind}".`);
    const value = flag(call, "catalogue") ? catalogue() : SCHEMAS[kind];
    const printed = `${JSON.stringify(value, null, 2)}\n`;
    const out = text(call, "out");
    if (out === undefined) {
      terminal.bytes(Buffer.from(printed));
      terminal.result(value);
      return EXIT.good;
    }
    const output = openOutput({ file: out, endings: [".json"], overwrite: flag(call, "overwrite") });
    if (await writeOutput(call, output, out, printed)) terminal.print(`Written to ${out}.`);
    terminal.result({ ok: true, file: out, id: SCHEMAS[kind].$id });
    return EXIT.good;
  },
};

const catalogue = (): object[] =>
  (["roll", "stock"] as const).map((kind) => ({
    name: SCHEMAS[kind].title,
    description: `Recipes of the program Rollbook: what a ${kind} of scanned film should look like`,
    fileMatch: FILE_MATCH[kind],
    url: SCHEMAS[kind].$id,
  }));
