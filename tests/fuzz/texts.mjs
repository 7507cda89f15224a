// Generated recipes through format, edits or moves: weird but valid YAML, written from the grammar of YAML 1.2.2.
// Usage: node tests/fuzz/texts.mjs format|edits|moves [COUNT] [FIRST SEED] [ordinary]
// Prints how many kept everything, were left alone with a sentence, or were misread by the YAML package itself; then every
// broken promise, shortest text first. Refusals of texts without anchors, tags, ? keys and markers are printed, too.
import { buildSync } from "esbuild";
import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const cache = join(here, "../../.cache/fuzz");
const [what, count = "50000", first = "1", only] = process.argv.slice(2);
if (!["format", "edits", "moves"].includes(what))
  throw new Error("Usage: node tests/fuzz/texts.mjs format|edits|moves [COUNT] [FIRST SEED] [ordinary]");
mkdirSync(cache, { recursive: true });
const bundle = join(cache, `texts-${process.pid}.mjs`);
buildSync({
  entryPoints: [join(here, "yaml/tally.ts")],
  bundle: true,
  platform: "node",
  format: "esm",
  packages: "external",
  logLevel: "error",
  outfile: bundle,
});
const { tally } = await import(pathToFileURL(bundle).href);
const started = performance.now();
const { counts, finds } = tally(what, Number(count), Number(first), only, (done, found) =>
  process.stderr.write(`${done} texts, ${found} finds\n`),
);
for (const find of finds.slice(0, 10)) console.log(`${find}\n`);
console.log(`${what}: ${count} texts from seed ${first} in ${Math.round((performance.now() - started) / 1000)} s`);
for (const [name, n] of Object.entries(counts).toSorted(([a], [b]) => (a < b ? -1 : 1)))
  console.log(`  ${name.padEnd(20)} ${n}`);
console.log(`  finds                ${finds.length}`);
process.exitCode = finds.length > 0 ? 1 : 0;
