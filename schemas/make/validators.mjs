// ajv's validators as standalone code: no eval, no imports, so that they run in the editor, a worker and a webview.
import Ajv from "ajv";
import standalone from "ajv/dist/standalone/index.js";
import { build } from "esbuild";

/** The text of validate.js and validate.d.ts for definitions by name, which share what they have in common. */
export async function validators(definitions, names, folder) {
  const ajv = new Ajv({
    allErrors: true,
    allowUnionTypes: true,
    strictTuples: false,
    inlineRefs: false,
    messages: false,
    code: { source: true, esm: true, lines: true, optimize: 2 },
  });
  ajv.addSchema({ $id: "recipe", definitions });
  const ids = Object.fromEntries(names.map((name) => [name, `recipe#/definitions/${name}`]));
  const code = standalone.default(ajv, ids);
  const bundle = await build({
    stdin: { contents: code, resolveDir: process.cwd(), loader: "js" },
    bundle: true,
    write: false,
    format: "esm",
    platform: "neutral",
    mainFields: ["main"],
    target: "es2022",
    treeShaking: true,
    minify: true,
    lineLimit: 160,
    logLevel: "error",
  });
  // ajv's runtime helpers carry their own source as a label for code generation; nothing reads it here.
  const text = bundle.outputFiles[0].text.replaceAll(/(['"`])require\(.*?\)\.default\1/g, '""');
  if (/\brequire\(|^import |\beval\(|new Function/m.test(text))
    throw new Error("the validators still need something from outside");
  return {
    [`${folder}/validate.js`]: `// Made by schemas/generate.mjs with ajv; do not edit.\n${text}`,
    [`${folder}/validate.d.ts`]: `// Made by schemas/generate.mjs; do not edit.

/** One complaint of the validator, as ajv words it. \`instancePath\` is a JSON pointer (RFC 6901). */
export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/** True when the value keeps the schema; otherwise \`errors\` holds every complaint until the next call. */
export interface Validator {
  (value: unknown): boolean;
  errors?: readonly SchemaError[] | null;
}

${names.map((name) => `export declare const ${name}: Validator;`).join("\n")}
`,
  };
}
