// Installs the packages that cannot be bundled, for any platform, away from the project's own node_modules.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { targets } from "./targets.mjs";

/**
 * What goes into node_modules: sharp finds its binaries beside itself; all else is bundled.
 * @param project the parsed package.json
 * @returns name → exact version
 */
export function packagesOf(project, target) {
  const { sharp } = project.dependencies;
  return targets[target].wasm ? { sharp, "@img/sharp-wasm32": sharp } : { sharp };
}

/**
 * Installs them for a target, or finds them installed by an earlier run.
 * @param from the project's folder, whose lock file says which versions sharp's own dependencies have
 * @returns the node_modules folder
 * @throws Error when npm cannot install them
 */
export function installPackages(from, target, dependencies) {
  const { os, cpu, libc } = targets[target];
  const folder = join(from, ".cache/vsix", `packages-${target}`);
  const overrides = lockedVersions(from);
  const manifest = JSON.stringify({ name: "packages", version: "1.0.0", private: true, dependencies, overrides });
  const record = join(folder, "installed.json"); // written last
  if (existsSync(record) && readFileSync(record, "utf8") === manifest) return join(folder, "node_modules");

  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), manifest);
  const platform = os ? [`--os=${os}`, `--cpu=${cpu}`, ...(libc ? [`--libc=${libc}`] : [])] : ["--omit=optional"];
  const args = [
    "install",
    "--omit=dev",
    "--ignore-scripts",
    "--no-audit",
    "--no-fund",
    "--prefer-offline",
    "--loglevel=error",
  ];
  const run = spawnSync("npm", [...args, ...platform], {
    cwd: folder,
    encoding: "utf8",
    shell: process.platform === "win32",
  });
  if (run.status !== 0) throw new Error(`npm could not install the packages to ship:\n${run.error ?? ""}${run.stderr}`);
  writeFileSync(record, manifest);
  return join(folder, "node_modules");
}

/** The versions of sharp's own dependencies: from the project's lock file; those of its WebAssembly build from here. */
function lockedVersions(from) {
  const versions = { "@emnapi/runtime": "1.11.3", tslib: "2.9.1" };
  const lock = join(from, "package-lock.json");
  if (!existsSync(lock)) return versions;
  const { packages } = JSON.parse(readFileSync(lock, "utf8"));
  for (const name of ["@img/colour", "detect-libc", "semver"]) {
    const found = packages[`node_modules/${name}`];
    if (found) versions[name] = found.version;
  }
  return versions;
}
