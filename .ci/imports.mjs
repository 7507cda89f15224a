// Holds the house rules on imports: which folder may import which, and who may import what from outside.
// Fails on a broken rule, on an import that cannot be read, and when it found nothing to check.
import { parseSync } from "oxc-parser";
import { readdirSync, readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { dirname, join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const node = new Set(builtinModules);
const isNode = (name) => name.startsWith("node:") || node.has(name);

/** Rooms from the most to the least specific path; `own` may be imported besides itself; `packages` from outside. */
const rooms = [
  { path: "extension/engine", own: [], node: false, packages: [] },
  { path: "extension/recipe", own: ["extension/engine"], node: false, packages: ["yaml"] },
  {
    path: "extension/scans",
    own: ["extension/engine", "extension/recipe"],
    node: true,
    packages: ["sharp", "zxing-wasm"],
  },
  {
    path: "extension/work",
    own: [
      "extension/scans",
      "extension/recipe",
      "extension/engine",
      "extension/review-report.ts",
      "extension/failure.ts",
      "extension/rpc.ts",
    ],
    node: true,
    packages: [],
  },
  {
    path: "extension/cli",
    own: [
      "extension/work",
      "extension/scans",
      "extension/recipe",
      "extension/engine",
      "extension/review-report.ts",
      "extension/failure.ts",
      "extension/rpc.ts",
    ],
    node: true,
    packages: [],
  },
  {
    path: "extension/editor",
    own: [
      "extension/work",
      "extension/scans",
      "extension/recipe",
      "extension/engine",
      "extension/messages.ts",
      "extension/review-report.ts",
      "extension/failure.ts",
      "extension/rpc.ts",
    ],
    node: true,
    packages: ["vscode"],
  },
  { path: "extension/messages.ts", own: ["extension/engine"], node: false, packages: [] },
  { path: "extension/review-report.ts", own: [], node: false, packages: [] },
  { path: "extension/failure.ts", own: [], node: false, packages: [] },
  { path: "extension/rpc.ts", own: ["extension/failure.ts"], node: false, packages: [] },
  { path: "webview/ui", own: [], node: false, packages: ["@vscode/webview-ui-toolkit"] },
  {
    path: "webview",
    own: [
      "webview/ui",
      "extension/engine",
      "extension/messages.ts",
      "extension/review-report.ts",
      "extension/failure.ts",
      "extension/rpc.ts",
    ],
    node: false,
    packages: [],
  },
];
const free = ["tests", "recipes-examples"]; // may use everything

const files = [];
(function walk(dir) {
  for (const e of readdirSync(dir, { withFileTypes: true })) {
    const path = join(dir, e.name);
    if (e.isDirectory()) walk(path);
    else if (/\.(m?ts|tsx)$/.test(e.name)) files.push(path);
  }
})(join(root, "extension"));
(function walk(dir) {
  for (const e of readdirSync(dir, { withFileTypes: true })) {
    const path = join(dir, e.name);
    if (e.isDirectory()) walk(path);
    else if (/\.(m?ts|tsx)$/.test(e.name)) files.push(path);
  }
})(join(root, "webview"));

const roomOf = (file) => rooms.find((r) => file === r.path || file.startsWith(r.path + "/"));
const problems = [];
let checked = 0;

for (const path of files) {
  const file = relative(root, path).split(sep).join("/");
  const room = roomOf(file);
  if (!room) {
    problems.push(`${file}: lies in no room of the house; move it or add its room to .ci/imports.mjs.`);
    continue;
  }
  const parsed = parseSync(file, readFileSync(path, "utf8"));
  if (parsed.errors.length) problems.push(`${file}: cannot be parsed: ${parsed.errors[0].message}`);
  const names = parsed.module.staticImports.map((i) => i.moduleRequest.value);
  for (const e of parsed.module.staticExports)
    for (const x of e.entries) if (x.moduleRequest) names.push(x.moduleRequest.value);
  const text = readFileSync(path, "utf8");
  for (const d of parsed.module.dynamicImports) {
    const spec = text.slice(d.moduleRequest.start, d.moduleRequest.end);
    // A computed import is how libraw's loader and sharp's two builds are chosen: allowed in scans/ alone.
    if (/^["'`][^$]*["'`]$/.test(spec)) names.push(spec.slice(1, -1));
    else if (room.path !== "extension/scans")
      problems.push(`${file}: an import whose name is computed cannot be checked; only scans/ may have one.`);
  }
  for (const name of names) {
    checked++;
    if (name.startsWith(".")) {
      const target = relative(root, resolve(dirname(path), name))
        .split(sep)
        .join("/");
      if (free.some((f) => target.startsWith(f + "/")))
        problems.push(`${file}: imports ${target}; shipped code does not import tests or examples.`);
      else if (target === "package.json" || target.startsWith("schemas/")) continue;
      else {
        const there =
          roomOf(target.endsWith(".ts") || target.endsWith(".js") ? target : target + ".ts") ?? roomOf(target);
        if (!there) problems.push(`${file}: imports ${target}, which lies in no room.`);
        else if (there !== room && !room.own.includes(there.path))
          problems.push(`${file}: ${room.path} may not import ${there.path} (${name}).`);
      }
    } else if (isNode(name)) {
      if (!room.node) problems.push(`${file}: ${room.path} runs in the browser too and may not import ${name}.`);
    } else {
      const pkg = name.startsWith("@") ? name.split("/").slice(0, 2).join("/") : name.split("/")[0];
      if (!room.packages.includes(pkg)) problems.push(`${file}: ${room.path} may not import the package ${pkg}.`);
    }
  }
}
if (files.length < 20 || checked < 20)
  problems.push(`only ${files.length} files and ${checked} imports were found: the check itself is broken.`);
for (const p of problems) console.error(p);
if (problems.length) process.exit(1);
console.log(`imports: ${checked} imports in ${files.length} files keep the house rules`);
