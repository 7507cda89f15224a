// Packs the built extension into VSIX files. Run extension/build.mjs first; `npm run package` does both.
// Usage: node extension/package.mjs [--target T]… [--from FOLDER] [--out FOLDER] [--pages URL [--pictures URL]] [--write-notices]
//   --target T        universal, linux-x64, linux-arm64, alpine-x64, darwin-arm64, win32-x64, … (default: universal and
//                     this machine's own)
//   --from FOLDER     the folder with package.json and dist/ (default: this repository)
//   --out FOLDER      where the VSIX files go (default .cache/vsix in that folder)
//   --pages URL       where this repository's files can be read in public: links of README and change log lead there.
//                     Told from package.json's "repository" where that is stated; without either, links become their text
//                     and pictures are left out
//   --pictures URL    the same for pictures, where a host has them under another address (default: that of --pages)
//   --write-notices   write docs/third-party-notices.md again from what is shipped, in place of checking it
import { createVSIX } from "@vscode/vsce";
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { checkNotices, writeNotices } from "./packaging/notices.mjs";
import { shippedPackages } from "./packaging/shipped.mjs";
import { stage } from "./packaging/stage.mjs";
import { hostTarget, targets } from "./packaging/targets.mjs";

const { values: options } = parseArgs({
  options: {
    target: { type: "string", multiple: true, default: ["universal", hostTarget()] },
    from: { type: "string", default: dirname(dirname(fileURLToPath(import.meta.url))) },
    out: { type: "string" },
    pages: { type: "string" },
    pictures: { type: "string" },
    "write-notices": { type: "boolean", default: false },
  },
});
const from = resolve(options.from);
const out = resolve(options.out ?? join(from, ".cache/vsix"));
const project = JSON.parse(readFileSync(join(from, "package.json"), "utf8"));

const linked = options.pages !== undefined || project.repository !== undefined;

for (const name of ["pages", "pictures"])
  if (options[name] !== undefined && !/^https:\/\/\S+$/.test(options[name]))
    fail(`--${name} takes an address that begins with https://, not "${options[name]}".`);
for (const target of options.target)
  if (!(target in targets)) fail(`There is no target "${target}". Targets: ${Object.keys(targets).join(", ")}.`);
if (!existsSync(join(from, "dist/extension.cjs"))) fail("dist/extension.cjs is missing. Run: node extension/build.mjs");

try {
  // One time stamp in all packed files, so that the same commit gives the same VSIX.
  process.env.SOURCE_DATE_EPOCH ??= commitTime();
  mkdirSync(out, { recursive: true });
  const shipped = shippedPackages(from, project);
  if (options["write-notices"]) writeNotices(from, shipped);
  checkNotices(from, shipped);
  for (const target of options.target) await pack(target);
} catch (error) {
  fail(error.message);
}

async function pack(target) {
  const packagePath = join(out, `${project.name}-${project.version}${target === "universal" ? "" : `-${target}`}.vsix`);
  await quietly(() =>
    createVSIX({
      cwd: stage(from, project, target, linked),
      packagePath,
      target: target === "universal" ? undefined : target,
      allowMissingRepository: true,
      rewriteRelativeLinks: linked,
      baseContentUrl: options.pages,
      baseImagesUrl: options.pictures ?? options.pages,
      skipLicense: false,
    }),
  );
  const megabytes = (statSync(packagePath).size / 1e6).toFixed(1);
  console.log(`${megabytes.padStart(6)} MB  ${relative(process.cwd(), packagePath)}`);
}

/** vsce lists every file on standard output; its warnings stay. */
async function quietly(run) {
  const { log } = console;
  console.log = () => {};
  try {
    return await run();
  } finally {
    console.log = log;
  }
}

function commitTime() {
  try {
    return execFileSync("git", ["log", "-1", "--format=%ct"], { cwd: from, encoding: "utf8", stdio: "pipe" }).trim();
  } catch {
    return "1767225600"; // not in a git repository: 2026-01-01
  }
}

function fail(message) {
  console.error(message);
  process.exit(1);
}
