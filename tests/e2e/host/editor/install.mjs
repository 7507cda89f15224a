// Installs the editor that the end-to-end tests drive: VS Code as a server (code-server) and the Node it needs, both
// from the npm registry with every install script off. Nothing is compiled and nothing else is downloaded.
// Usage: node tests/e2e/host/editor/install.mjs [--force]
//   E2E_HOST_DIR   where to install (default .cache/e2e-host, about 560 MB)
// Quick when it is there already. Prints the folder; host.json in it tells server.ts what to start.
import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const CODE_SERVER = "4.139.1"; // VS Code 1.139.1
const NODE = "24.21.0"; // this VS Code calls node:module's registerHooks, which Node 20 does not have

const here = dirname(fileURLToPath(import.meta.url));
const host = resolve(process.env.E2E_HOST_DIR ?? join(here, "../../../../.cache/e2e-host"));
const platform = `${process.platform}-${process.arch}`;
// The package `node` fetches this one in its install script; asked for by name it needs no script.
const nodePackage = `node-${platform}`;
const server = join(host, "node_modules/code-server/lib/vscode");
const standIns = { "@vscode/spdlog": "spdlog.cjs", "@vscode/native-watchdog": "native-watchdog.cjs" };
const wanted = {
  codeServer: CODE_SERVER,
  nodeVersion: NODE,
  node: join(host, "node_modules", nodePackage, "bin/node"),
  entry: join(host, "node_modules/code-server/out/node/entry.js"),
};
const record = join(host, "host.json"); // written last, so its presence means a whole installation

if (!process.argv.includes("--force") && isInstalled()) {
  putStandIns(); // they are ours and may have changed since
  console.log(`${host} (present)`);
} else {
  const start = performance.now();
  install();
  console.log(`${host} (installed in ${((performance.now() - start) / 1000).toFixed(0)} s)`);
}

function isInstalled() {
  try {
    return readFileSync(record, "utf8") === text(wanted) && existsSync(wanted.node) && existsSync(wanted.entry);
  } catch {
    return false;
  }
}

function install() {
  if (platform !== "linux-x64") fail(`The end-to-end host is made for linux-x64; this machine is ${platform}.`);
  rmSync(host, { recursive: true, force: true });
  mkdirSync(host, { recursive: true });
  const dependencies = { [nodePackage]: NODE, "code-server": CODE_SERVER };
  writeFileSync(join(host, "package.json"), text({ name: "e2e-host", version: "1.0.0", private: true, dependencies }));
  npmInstall(host);
  // Not `npm ci`: the lock file that code-server ships is out of step with its package.json.
  npmInstall(server);
  npmInstall(join(server, "extensions"));
  trim();
  putStandIns();
  writeFileSync(record, text(wanted));
}

function npmInstall(cwd) {
  const args = ["install", "--omit=dev", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"];
  const run = spawnSync("npm", args, { cwd, encoding: "utf8", maxBuffer: 1 << 26 });
  if (run.status !== 0) fail(`npm install failed in ${cwd}:\n${run.error ?? ""}${run.stdout}${run.stderr}`);
}

/** Takes away some 240 MB that no test uses: an assistant's run time, a Windows sandbox, other platforms' ripgrep. */
function trim() {
  const modules = join(server, "node_modules");
  for (const name of ["@github", "@microsoft/mxc-sdk"]) rmSync(join(modules, name), { recursive: true, force: true });
  const ripgrep = join(modules, "@vscode/ripgrep-universal/bin");
  if (!existsSync(ripgrep)) return;
  for (const name of readdirSync(ripgrep).filter((n) => n !== platform))
    rmSync(join(ripgrep, name), { recursive: true, force: true });
}

/** Puts JavaScript modules in the place of two that would have to be compiled. */
function putStandIns() {
  for (const [module, file] of Object.entries(standIns))
    copyFileSync(join(here, "stand-ins", file), join(server, "node_modules", module, "index.js"));
}

function text(value) {
  return `${JSON.stringify(value, null, 2)}\n`;
}

function fail(message) {
  console.error(message);
  process.exit(1);
}
