// The rooms of the house, each with what it may import: other rooms (`own`, by the beginning of their paths), Node's
// modules, packages from outside. A file belongs to the room with the longest path around it; a room may always import
// itself. A room with `importers` is imported by those rooms only, whatever others may import. Read by imports.mjs.

/**
 * @param {string} path @param {string[]} own
 * @param {{ node?: boolean, packages?: string[] | "any", computed?: boolean, importers?: string[] }} [outside]
 */
const room = (path, own, { node = false, packages = [], computed = false, importers } = {}) => ({
  path,
  own,
  node,
  packages,
  computed,
  importers,
});

const e = (...names) => names.map((name) => `extension/engine/${name}`);
const engine = [
  room("extension/engine/types.ts", []),
  room("extension/engine/messages.ts", []),
  room("extension/engine/index.ts", ["extension/engine"], { importers: [] }),
  room("extension/engine/wasm", e("types.ts")),
  room("extension/engine/math", e("types.ts")),
  room("extension/engine/colour", e("math", "types.ts")),
  room("extension/engine/flat-field", e("math", "wasm", "types.ts")),
  room("extension/engine/film", e("colour", "math", "types.ts")),
  room("extension/engine/image", e("flat-field", "math", "wasm", "types.ts")),
  room("extension/engine/merge", e("image", "math", "types.ts")),
  room("extension/engine/lens", e("image", "flat-field", "math", "wasm", "types.ts")),
  room("extension/engine/local", e("image", "math", "types.ts")),
  room("extension/engine/plan", e("local", "film", "flat-field", "colour", "math", "wasm", "types.ts")),
  room("extension/engine/detect", e("film", "flat-field", "colour", "math", "types.ts")),
  room("extension/engine/dust", e("image", "flat-field", "math", "wasm", "types.ts")),
  room("extension/engine/auto", e("detect", "film", "image", "flat-field", "colour", "math", "types.ts")),
  room("extension/engine/calibrate", e("auto", "detect", "film", "flat-field", "colour", "math", "types.ts")),
  room(
    "extension/engine/survey",
    e("detect", "dust", "lens", "image", "flat-field", "math", "messages.ts", "types.ts"),
  ),
  room("extension/engine/verdict", e("survey", "detect", "flat-field", "math", "messages.ts", "types.ts")),
];

// What every room of recipe may import: where a value stands, a file's path, and the problems' names.
const base = ["scan-names.ts", "path.ts", "paths.ts", "plain-text.ts", "problems.ts", "version.ts"].map(
  (name) => `extension/recipe/${name}`,
);
const r = (...names) => [...base, ...names.map((name) => `extension/recipe/${name}`)];
const recipe = [
  room("extension/recipe/path.ts", []),
  room("extension/recipe/index.ts", ["extension/recipe", "extension/engine"], { importers: [] }),
  room("extension/recipe/paths.ts", []),
  room("extension/recipe/version.ts", []),
  room("extension/recipe/plain-text.ts", []),
  room("extension/recipe/curve-table.ts", []),
  room("extension/recipe/scan-names.ts", []),
  room("extension/recipe/problems.ts", ["extension/recipe/path.ts", ...e("types.ts")]),
  room("extension/recipe/yaml", r(), { packages: ["yaml"] }),
  // The generated tables are typed by schema/key-description.ts and read by the rest of schema/.
  room("extension/recipe/generated/describe.ts", ["extension/recipe/schema/key-description.ts"]),
  room("extension/recipe/generated", []),
  room("extension/recipe/schema/key-description.ts", []),
  room("extension/recipe/schema", [...r("generated", "schema/key-description.ts"), ...e("types.ts")]),
  room("extension/recipe/problems", [...r("schema", "generated", "yaml"), ...e("image", "local", "math", "types.ts")]),
  room("extension/recipe/resolve", [
    ...r("problems", "schema", "generated", "yaml"),
    ...e("film", "image", "local", "types.ts"),
  ]),
  room("extension/recipe/edit", [...r("resolve", "problems", "schema", "yaml"), ...e("film", "types.ts")]),
  room("extension/recipe/diff", [...r("edit", "resolve", "problems", "schema", "yaml"), ...e("film", "image")]),
  room("extension/recipe/merge", r("diff", "edit", "problems", "schema", "yaml")),
  room("extension/recipe/notes", r("edit", "resolve", "problems", "yaml")),
  room("extension/recipe/survey", [...r("edit", "resolve", "problems"), ...e("image", "survey", "types.ts")]),
  room("extension/recipe/language", [
    ...r("survey", "edit", "resolve", "problems", "schema", "yaml"),
    ...e("image", "lens", "survey", "messages.ts", "types.ts"),
  ]),
];

// Plain data and channels that every side shares.
const shared = ["extension/failure.ts", "extension/rpc.ts", "extension/review-report.ts"];
const below = ["extension/scans", "extension/recipe", "extension/engine", ...shared];
const w = (...names) => [...below, ...names.map((name) => `extension/work/${name}`)];
const inNode = { node: true };
const work = [
  room("extension/work/pool", w(), inNode),
  room("extension/work/about", w("pool"), inNode),
  room("extension/work/files", w("pool"), inNode),
  room("extension/work/frame", w("pool", "files"), inNode),
  room("extension/work/render", w("frame", "pool", "files"), inNode),
  room("extension/work/notes", w("files"), { node: true, packages: ["papaparse"] }),
  room("extension/work/calibrate", w("frame", "pool", "files"), inNode),
  room("extension/work/lens", w("frame", "pool", "files"), inNode),
  room("extension/work/new-roll", w("frame", "pool", "files"), inNode),
  room("extension/work/contact", w("render", "frame", "pool", "files"), { node: true, packages: ["@cantoo/pdf-lib"] }),
  room("extension/work/review", w("render", "frame", "pool", "files"), inNode),
  room("extension/work/survey", w("render", "frame", "pool", "files"), inNode),
  room("extension/work/copy-stand", w("new-roll", "frame", "pool", "files"), { node: true, packages: ["chokidar"] }),
  room(
    "extension/work/jobs.ts",
    w(
      "about",
      "calibrate",
      "contact",
      "copy-stand",
      "files",
      "frame",
      "lens",
      "new-roll",
      "pool",
      "render",
      "review",
      "survey",
    ),
    // The registry holds the code of every job: a program that imports it takes decoders and encoders into its bundle.
    { node: true, importers: ["extension/work/worker-main.ts"] },
  ),
  room("extension/work/worker-main.ts", w("jobs.ts", "pool"), inNode),
];

const people = ["extension/work", ...below];
export const rooms = [
  ...engine,
  ...recipe,
  // A computed import is how the loaders of LibRaw and Little CMS and the two builds of sharp are chosen.
  room("extension/scans", ["extension/recipe", "extension/engine", "extension/failure.ts"], {
    node: true,
    packages: ["sharp", "zxing-wasm"],
    computed: true,
  }),
  ...work,
  room("extension/language-server", ["extension/recipe", "extension/engine/messages.ts", "extension/work/files"], {
    node: true,
    packages: ["vscode-languageserver", "vscode-languageserver-textdocument"],
  }),
  room("extension/cli", ["extension/language-server", ...people], {
    node: true,
    packages: ["cli-progress", "picocolors", "sarif"],
  }),
  room("extension/editor", [...people, "extension/messages.ts"], { node: true, packages: ["vscode"] }),
  room("extension/messages.ts", [
    "extension/engine",
    "extension/recipe/path.ts",
    "extension/failure.ts",
    "extension/rpc.ts",
  ]),
  room("extension/review-report.ts", []),
  room("extension/failure.ts", []),
  room("extension/rpc.ts", ["extension/failure.ts"]),
  room("webview/ui", [], { packages: ["@vscode/webview-ui-toolkit"] }),
  room("webview", ["webview/ui", "extension/engine", "extension/messages.ts", ...shared]),
  // Building, packaging and making tables: .mjs files, run with Node and imported by nothing that is shipped.
  room("scripts", [], { node: true, packages: "any", computed: true }),
];

/** Folders that may use everything and that nothing shipped imports. */
export const free = ["tests", "recipes-examples"];
