// A whole archive, checked, rendered roll by roll, and rendered again in shares that run side by side: both must give
// the same files, byte for byte. What spreads the work is make, with the very Makefile that docs/archive.md shows.
// Usage: node tests/scale/run.mjs [--rolls N] [--frames N] [--shares N] [--jobs N]      (after npm run build)
import { buildSync } from "esbuild";
import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const { values } = parseArgs({
  options: {
    rolls: { type: "string", default: "50" },
    frames: { type: "string", default: "40" },
    shares: { type: "string", default: "2" },
    jobs: { type: "string", default: "2" },
  },
});
const program = join(process.env.ROLLBOOK_PROGRAMS ?? join(root, "dist"), "rollbook.mjs");
const folder = mkdtempSync(join(tmpdir(), "archive-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

const maker = join(folder, "make-archive.mjs");
buildSync({
  entryPoints: [join(here, "make-archive.ts")],
  bundle: true,
  platform: "node",
  format: "esm",
  outfile: maker,
});
execFileSync(process.execPath, [maker, join(folder, "rolls"), values.rolls, values.frames], { stdio: "inherit" });
const recipes = readdirSync(join(folder, "rolls"))
  .toSorted()
  .map((name) => join("rolls", name, `${name}.roll.yaml`));

/** The Makefile of docs/archive.md, with this build in the place of the installed command. */
function makefile() {
  const text = /```make\n([\s\S]*?)```/.exec(readFileSync(join(root, "docs/archive.md"), "utf8"))?.[1];
  if (!text) throw new Error("docs/archive.md has no Makefile any more.");
  return text.replace(/^ROLLBOOK := .*$/m, `ROLLBOOK := ${process.execPath} ${program}`);
}

function timed(what, use) {
  const begun = performance.now();
  use();
  console.log(`${what.padEnd(44)} ${((performance.now() - begun) / 1000).toFixed(1).padStart(7)} s`);
}

function hashes(at) {
  const found = {};
  for (const name of readdirSync(at, { recursive: true, encoding: "utf8" }).toSorted()) {
    const path = join(at, name);
    if (name.includes(".rollbook") || !statSync(path).isFile()) continue;
    found[relative(at, path)] = createHash("sha256").update(readFileSync(path)).digest("hex");
  }
  return found;
}

const make = (shares, out) =>
  execFileSync("make", ["-s", `-j${values.jobs}`, `SHARES=${shares}`, `OUT=${out}`], {
    cwd: folder,
    stdio: ["ignore", "ignore", "inherit"],
  });

writeFileSync(join(folder, "Makefile"), makefile());
mkdirSync(join(folder, ".git"));
const frames = Number(values.rolls) * Number(values.frames);
let checked = "";
timed(`check: ${recipes.length} rolls, ${frames} frames`, () => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, "check", ...recipes], {
    cwd: folder,
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`check ended with ${status}: ${stderr}`);
  checked = stdout.trim().split("\n").at(-1);
});
console.log(checked);
timed("render: each roll in one piece", () => make(1, "whole"));
timed(`render: each roll in ${values.shares} shares`, () => make(Number(values.shares), "shared"));
const [whole, shared] = [hashes(join(folder, "whole")), hashes(join(folder, "shared"))];
const names = Object.keys(whole);
const differ = names.filter((name) => whole[name] !== shared[name]);
const good = differ.length === 0 && names.length === 2 * frames && Object.keys(shared).length === names.length;
timed("the same again with --resume", () => make(1, "whole"));
const kept = JSON.stringify(hashes(join(folder, "whole"))) === JSON.stringify(whole);
console.log(
  `${names.length} pictures; ${differ.length} differ between whole and shares; after --resume ${kept ? "the same" : "others"}`,
);
process.exitCode = good && kept ? 0 : 1;
