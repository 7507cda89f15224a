// Collects every message of the editor's part and of its panels that can be translated into bundle.l10n.json, the file that translators copy.
// Usage: node extension/editor/l10n/extract.mjs
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const messages = new Set();
const inProject = (path) => join(here, "../../..", path);
const FOLDERS = [
  "extension/editor",
  "extension/recipe/language",
  "extension/engine/survey",
  "extension/engine/verdict",
  "extension/work",
  "webview",
];
for (const folder of FOLDERS.map(inProject))
  for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) =>
    file.endsWith(".ts"),
  )) {
    const text = readFileSync(join(folder, name), "utf8");
    // A literal as the first argument, and what the survey says of every finding of a kind: anything else cannot be translated.
    for (const [, double, single] of text.matchAll(
      /(?:\b(?:t|msg|l10n\.t)\(|^ {2}(?:unit|cause|remedy):)\s*(?:"((?:[^"\\]|\\.)*)"|'((?:[^'\\]|\\.)*)')/gm,
    ))
      messages.add(double === undefined ? single.replaceAll("\\'", "'") : JSON.parse(`"${double}"`));
  }
const sorted = [...messages].sort((a, b) => (a < b ? -1 : 1));
const bundle = Object.fromEntries(sorted.map((message) => [message, message]));
writeFileSync(join(here, "bundle.l10n.json"), `${JSON.stringify(bundle, null, 2)}\n`);
console.log(`${sorted.length} messages`);
