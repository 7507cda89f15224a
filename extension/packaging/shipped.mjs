// Finds every package of others that a VSIX carries: as files in node_modules, and bundled into dist/.
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { installPackages, packagesOf } from "./packages.mjs";

/** Targets that between them ship every kind of package: other platforms' differ in nothing but the platform's name. */
const EVERY_KIND = ["universal", "linux-x64", "win32-x64"];

/**
 * @typedef {{ name: string, version: string, licence: string, folder: string }} ShippedPackage
 * @param {string} from the project's folder, with dist/ and node_modules/
 * @param project its parsed package.json
 * @returns {ShippedPackage[]} the same on every machine
 */
export function shippedPackages(from, project) {
  const bundled = [...bundledNames(join(from, "dist"))].map((name) => join(from, "node_modules", name));
  const beside = EVERY_KIND.flatMap((kind) => packagesIn(installPackages(from, kind, packagesOf(project, kind))));
  const found = new Map();
  for (const path of [...bundled, ...beside]) {
    const { name, version, license } = JSON.parse(readFileSync(join(path, "package.json"), "utf8"));
    found.set(name, { name, version, licence: license, folder: path });
  }
  return [...found.values()];
}

function packagesIn(modules) {
  const names = readdirSync(modules).flatMap((name) =>
    name.startsWith("@") ? readdirSync(join(modules, name)).map((inner) => join(name, inner)) : [name],
  );
  return names.map((name) => join(modules, name)).filter((path) => existsSync(join(path, "package.json")));
}

/** Names of packages whose code is in a shipped bundle, read from the bundles' source maps. */
function bundledNames(dist) {
  const names = new Set();
  const ofOurs = /^(demo|demo-worker|bench)\.mjs\.map$/; // not shipped
  for (const file of readdirSync(dist).filter((name) => name.endsWith(".map") && !ofOurs.test(name)))
    for (const source of JSON.parse(readFileSync(join(dist, file), "utf8")).sources) {
      const name = /.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(source)?.[1];
      if (name) names.add(name);
    }
  // Copied beside the bundles, not bundled.
  if (existsSync(join(dist, "libraw.wasm"))) names.add("libraw-wasm");
  if (existsSync(join(dist, "lcms.wasm"))) names.add("lcms-wasm");
  return names;
}
