// Bundles every program of the project into dist/. One script, so that what runs is always what was built.
// Usage: node extension/build.mjs [--quiet] [--watch]
import { build, context } from "esbuild";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const quiet = process.argv.includes("--quiet");
const watch = process.argv.includes("--watch");
const out = join(root, "dist");
/** Made by extension/packaging/prepack.mjs. */
const spared = [join(out, "types"), join(out, "rollbook.1")];

const shared = {
  absWorkingDir: root,
  bundle: true,
  target: "node20",
  platform: "node",
  sourcemap: true,
  logLevel: "warning",
  // sharp finds its native binary beside itself, so it cannot be bundled.
  external: ["sharp", "vscode"],
  define: {
    ROLLBOOK_VERSION: JSON.stringify((await import("../package.json", { with: { type: "json" } })).default.version),
  },
};
// A bundled CommonJS package may still call require(); ES modules have none of their own.
const withRequire = {
  js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
};
const esm = { ...shared, format: "esm", banner: withRequire, outExtension: { ".js": ".mjs" } };

/** Programs that lie beside the one that loads them when it needs them; see extension/work/contact/pdf/pdf-library.ts. */
const besideWorker = {
  name: "beside-worker",
  setup: (build) =>
    build.onResolve({ filter: /\/pdf-library\.ts$/ }, ({ kind }) =>
      kind === "dynamic-import" ? { path: "./pdf-library.mjs", external: true } : undefined,
    ),
};

const targets = [
  {
    ...esm,
    entryPoints: { rollbook: "extension/cli/main.ts" },
    banner: { js: `#!/usr/bin/env node\n${withRequire.js}` },
  },
  { ...esm, entryPoints: { pool: "extension/work/pool/process-main.ts" } },
  { ...esm, entryPoints: { worker: "extension/work/worker-main.ts" }, plugins: [besideWorker] },
  { ...esm, entryPoints: { "pdf-library": "extension/work/contact/pdf/pdf-library.ts" }, minify: true },
  // Modules of the npm package; `extension/packaging/prepack.mjs` makes their types.
  { ...esm, entryPoints: { engine: "extension/engine/index.ts" }, platform: "neutral", banner: {} },
  { ...esm, entryPoints: { recipe: "extension/recipe/index.ts" }, platform: "neutral", banner: {} },
  { ...esm, entryPoints: { demo: "recipes-examples/make-demo.ts" } },
  { ...esm, entryPoints: { "demo-worker": "recipes-examples/make-worker.ts" }, plugins: [besideWorker] },
  { ...esm, entryPoints: { bench: "tests/bench/main.ts" } },
  {
    ...shared,
    format: "cjs",
    outExtension: { ".js": ".cjs" },
    entryPoints: { extension: "extension/editor/extension.ts" },
  },
  {
    // The editor's worker host loads it as CommonJS, by a name that ends in .js.
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "cjs",
    entryPoints: { "extension-web": "extension/editor/web/web.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "esm",
    entryPoints: { preview: "webview/preview/preview.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "esm",
    entryPoints: { sheet: "webview/sheet/main.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "iife",
    entryPoints: { "tile-worker": "webview/sheet/tiles/tile-worker.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "iife",
    minify: true,
    entryPoints: { review: "webview/review/report.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "esm",
    entryPoints: { "review-panel": "webview/review/panel.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "esm",
    entryPoints: { "survey-panel": "webview/survey/panel.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "esm",
    entryPoints: { "copy-stand": "webview/copy-stand/main.ts" },
  },
  {
    ...shared,
    platform: "browser",
    target: "es2022",
    format: "iife",
    entryPoints: { "preview-worker": "webview/preview/preview-worker.ts" },
  },
];

mkdirSync(out, { recursive: true });
const written = new Set();

/** A file comes whole or not at all: a program of the last build may be running, or starting, meanwhile. */
function put(path, bytes) {
  written.add(path);
  mkdirSync(dirname(path), { recursive: true });
  if (existsSync(path) && readFileSync(path).equals(bytes)) return;
  const beside = `${path}.${process.pid}`;
  writeFileSync(beside, bytes);
  renameSync(beside, path);
}

/** Takes away what an earlier build left and this one no longer makes. */
function sweep(dir) {
  for (const e of readdirSync(dir, { withFileTypes: true })) {
    const path = join(dir, e.name);
    if (spared.includes(path)) continue;
    if (e.isDirectory()) sweep(path);
    // Another build may be writing beside its file at this moment.
    else if (!written.has(path) && !/\.\d+$/.test(e.name)) rmSync(path, { force: true });
  }
}

// LibRaw's WebAssembly is data beside the bundle; its loader is an ES module with import.meta, copied whole.
const libraw = dirname(createRequire(import.meta.url).resolve("libraw-wasm"));
for (const name of ["libraw.js", "libraw.wasm"]) put(join(out, name), readFileSync(join(libraw, name)));

// The colour engine: its loader is an ES module with import.meta too.
const lcms = dirname(createRequire(import.meta.url).resolve("lcms-wasm"));
for (const name of ["lcms.js", "lcms.wasm"]) put(join(out, name), readFileSync(join(lcms, name)));

// The barcode reader's WebAssembly, and the table of edge codes: data under a licence of its own, never in a bundle.
const requireHere = createRequire(import.meta.url);
put(join(out, "zxing_reader.wasm"), readFileSync(requireHere.resolve("zxing-wasm/reader/zxing_reader.wasm")));
for (const name of ["film-names.csv", "README.md"])
  put(join(out, "edge-codes", name), readFileSync(join(root, "extension/scans/edge-codes", name)));

if (watch) {
  for (const t of targets) await (await context({ ...t, outdir: out })).watch();
} else {
  const built = await Promise.all(targets.map((t) => build({ ...t, outdir: out, write: false })));
  for (const file of built.flatMap((b) => b.outputFiles)) put(file.path, Buffer.from(file.contents));
  sweep(out);
  if (!quiet)
    for (const name of readdirSync(out).filter((n) => !n.endsWith(".map")))
      console.log(`${(statSync(join(out, name)).size / 1024).toFixed(0).padStart(7)} kB  dist/${name}`);
}
