// Runs the end-to-end tests: builds and packs the extension, installs the editor if it is not there, runs the tests.
// Usage: npm run e2e [-- [--keep-pictures] [--no-package] [vitest's own arguments, such as a file name]]
//   --keep-pictures  put the tests' pictures into docs/pictures/ where they changed
//   --no-package     test the VSIX files that the last run packed
// Environment: CHROMIUM (default /usr/bin/chromium), E2E_HOST_DIR, E2E_VSIX_DIR (VSIX files; default .cache/vsix)
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const own = ["--keep-pictures", "--no-package"];
const args = process.argv.slice(2);

const chromium = process.env.CHROMIUM || "/usr/bin/chromium";
if (!existsSync(chromium))
  fail(`There is no Chromium at ${chromium}. Install it (Debian: apt-get install chromium) or name it in CHROMIUM.`);
if (args.includes("--keep-pictures")) process.env.E2E_KEEP_PICTURES = "1";

if (!args.includes("--no-package")) {
  await run("extension/build.mjs", "--quiet");
  await run("extension/package.mjs");
}
await run("tests/e2e/host/editor/install.mjs");
const forVitest = args.filter((argument) => !own.includes(argument));
await run("node_modules/vitest/vitest.mjs", "run", "--config", "tests/e2e/vitest.config.ts", ...forVitest);

/** Runs one of our programs; a signal to this one goes on to it. Leaves when it fails. */
async function run(script, ...rest) {
  const child = spawn(process.execPath, [join(root, script), ...rest], { cwd: root, stdio: "inherit" });
  const signals = ["SIGINT", "SIGTERM", "SIGHUP"].map((signal) => [signal, () => child.kill(signal)]);
  for (const [signal, forward] of signals) process.on(signal, forward);
  const code = await new Promise((done) => child.once("exit", (exit) => done(exit ?? 1)));
  for (const [signal, forward] of signals) process.off(signal, forward);
  if (code !== 0) process.exit(code);
}

function fail(message) {
  console.error(message);
  process.exit(1);
}
