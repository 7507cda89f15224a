// Holds the house rules on imports: which room may import which, who may import what from outside, and that no files
// import one another in a ring, type imports included. Fails on a broken rule, on an import that cannot be read, and
// when it found nothing to check. Usage: node .ci/imports.mjs [--root FOLDER]
import { parseSync } from "oxc-parser";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { dirname, join, posix, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { free, rooms } from "./rooms.mjs";

const at = process.argv.indexOf("--root");
const root = at > 0 ? process.argv[at + 1] : dirname(dirname(fileURLToPath(import.meta.url)));
const builtin = new Set(builtinModules);
const isNode = (name) => name.startsWith("node:") || builtin.has(name);
const within = (file, path) => file === path || file.startsWith(`${path}/`);

/** The room of a file: the one with the longest path around it. Scripts (.mjs) have a room of their own. */
function roomOf(file) {
  if (file.endsWith(".mjs")) return rooms.find((r) => r.path === "scripts");
  return rooms.filter((r) => within(file, r.path)).sort((a, b) => b.path.length - a.path.length)[0];
}

/** Whether files of one room may import another's. */
const mayImport = (room, there) =>
  there.importers ? there.importers.includes(room.path) : room.own.some((own) => within(there.path, own));

const files = ["extension", "webview", "schemas", ".ci"]
  .filter((top) => existsSync(join(root, top)))
  .flatMap((top) =>
    readdirSync(join(root, top), { recursive: true, encoding: "utf8" })
      .filter((name) => /\.(m?ts|tsx|mjs)$/.test(name))
      .map((name) => posix.join(top, name.split(sep).join("/"))),
  );

const problems = [];
const graph = new Map();
let checked = 0;

/** Every name that a file imports: static, re-exported, dynamic, and inside types. */
function namesIn(file, room) {
  const text = readFileSync(join(root, file), "utf8");
  const parsed = parseSync(file, text);
  if (parsed.errors.length) problems.push(`${file}: cannot be parsed: ${parsed.errors[0].message}`);
  const names = parsed.module.staticImports.map((i) => i.moduleRequest.value);
  for (const e of parsed.module.staticExports)
    for (const x of e.entries) if (x.moduleRequest) names.push(x.moduleRequest.value);
  for (const d of parsed.module.dynamicImports) {
    const spec = text.slice(d.moduleRequest.start, d.moduleRequest.end);
    if (/^["'`][^$]*["'`]$/.test(spec)) names.push(spec.slice(1, -1));
    else if (!room.computed)
      problems.push(
        `${file}: an import whose name is computed cannot be checked; only scans/ and scripts may have one.`,
      );
  }
  if (file.endsWith(".ts")) for (const [, name] of text.matchAll(/\bimport\("([^"]+)"\)\.[A-Z]/g)) names.push(name);
  return names;
}

function checkRelative(file, room, name) {
  const target = posix.normalize(posix.join(posix.dirname(file), name));
  graph.get(file).push(target);
  if (target === "package.json" || (target.startsWith("schemas/") && !target.endsWith(".mjs"))) return;
  if (free.some((f) => within(target, f))) {
    problems.push(`${file}: imports ${target}; shipped code does not import tests or examples.`);
    return;
  }
  const there = roomOf(target);
  if (!there) problems.push(`${file}: imports ${target}, which lies in no room.`);
  else if (there !== room && !mayImport(room, there))
    problems.push(`${file}: ${room.path} may not import ${there.path} (${name}).`);
}

for (const file of files) {
  const room = roomOf(file);
  if (!room) {
    problems.push(`${file}: lies in no room of the house; move it or add its room to .ci/rooms.mjs.`);
    continue;
  }
  graph.set(file, []);
  for (const name of namesIn(file, room)) {
    checked++;
    if (name.startsWith(".")) checkRelative(file, room, name);
    else if (isNode(name)) {
      if (!room.node) problems.push(`${file}: ${room.path} runs in the browser too and may not import ${name}.`);
    } else {
      const pkg = name.startsWith("@") ? name.split("/").slice(0, 2).join("/") : name.split("/")[0];
      if (room.packages !== "any" && !room.packages.includes(pkg))
        problems.push(`${file}: ${room.path} may not import the package ${pkg}.`);
    }
  }
}

/** Rings of files that import one another (Tarjan's strongly connected components). */
function rings() {
  const found = [];
  const index = new Map();
  const low = new Map();
  const open = [];
  const visit = (v) => {
    index.set(v, index.size);
    low.set(v, index.get(v));
    open.push(v);
    for (const w of graph.get(v)) {
      if (!graph.has(w)) continue;
      if (!index.has(w)) visit(w);
      if (open.includes(w)) low.set(v, Math.min(low.get(v), low.get(w)));
    }
    if (low.get(v) !== index.get(v)) return;
    const ring = open.splice(open.indexOf(v));
    if (ring.length > 1 || graph.get(v).includes(v)) found.push(ring);
  };
  for (const v of graph.keys()) if (!index.has(v)) visit(v);
  return found;
}
for (const ring of rings()) problems.push(`A ring of imports: ${ring.sort().join(", ")}.`);

/** The rooms themselves: what each may import must leave no ring either, so that the order has a bottom. */
for (const a of rooms)
  for (const b of rooms)
    if (a.path < b.path && mayImport(a, b) && mayImport(b, a))
      problems.push(`.ci/rooms.mjs: ${a.path} and ${b.path} may import each other.`);
for (const room of rooms)
  if (at < 0 && room.path !== "scripts" && !existsSync(join(root, room.path)))
    problems.push(`.ci/rooms.mjs: ${room.path} does not exist.`);

if (files.length < 20 || checked < 20)
  problems.push(`only ${files.length} files and ${checked} imports were found: the check itself is broken.`);
for (const p of problems) console.error(p);
if (problems.length) process.exit(1);
console.log(`imports: ${checked} imports in ${files.length} files keep the house rules, and none of them form a ring`);
