// Lays out one VSIX's content in a clean folder: only what an installed extension needs.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, sep } from "node:path";
import { checkPaths, makeManifest } from "./manifest.mjs";
import { installPackages, packagesOf } from "./packages.mjs";
import { withoutRelativeLinks } from "./readme.mjs";

/** Where a file of the project goes. Everything else keeps its path, so that package.json's paths hold in both places. */
const RENAMED = {
  "docs/third-party-notices.md": "NOTICES.md",
  "docs/licences": "licences",
  "docs/diagnostics.md": "diagnostics.md",
  "docs/findings.md": "findings.md",
  "docs/support.md": "SUPPORT.md",
};
const REQUIRED = ["README.md", "LICENSE", "CHANGELOG.md", "dist", ...Object.keys(RENAMED)];
const OPTIONAL = ["schemas", "extension/editor/media", "extension/editor/l10n", "extension/editor/snippets"];

/** Programs of the project's own use, the npm package's modules, source maps, generators, and drawings that a picture was made from. */
const LEFT_OUT =
  /(^|\/)(demo|demo-worker|bench|engine|recipe)\.mjs$|(^|\/)rollbook\.1$|(^|\/)dist\/types$|\.map$|\.ts$|(^|\/)schemas\/[^/]*\.mjs$|\/icon\.(svg|mjs)$/;

/** Parts of packages that only builders and readers of their code need. Licences and notices stay. */
const PACKAGES_LEAVE_OUT = `node_modules/**/*.map
node_modules/**/*.{ts,mts,cts}
node_modules/sharp/{src,install}/**
node_modules/semver/bin/**
node_modules/tslib/{tslib.es6*,tslib.html,tslib.es6.html,modules/**}
node_modules/@img/sharp-libvips-*/lib/glib-2.0/**
`;

/**
 * Fills .cache/vsix/stage-TARGET with the extension as it will be installed.
 * @param from the project's folder
 * @param project its parsed package.json
 * @param target a key of `targets`
 * @param linked whether relative links of its pages will be given an address
 * @returns the staged folder
 * @throws Error when a file is missing or npm cannot install the packages
 */
export function stage(from, project, target, linked) {
  const folder = join(from, ".cache/vsix", `stage-${target}`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });

  const manifest = makeManifest(project, packagesOf(project, target));
  writeFileSync(join(folder, "package.json"), `${JSON.stringify(manifest, null, 2)}\n`);
  writeFileSync(join(folder, ".vscodeignore"), PACKAGES_LEAVE_OUT);

  const translations = readdirSync(from).filter((name) => /^package\.nls(\.[\w-]+)?\.json$/.test(name));
  for (const path of [...REQUIRED, ...OPTIONAL, ...translations]) {
    const source = join(from, path);
    if (existsSync(source)) {
      const kept = (file) => !LEFT_OUT.test(file.split(sep).join("/"));
      cpSync(source, join(folder, RENAMED[path] ?? path), { recursive: true, filter: kept });
    } else if (REQUIRED.includes(path)) throw new Error(`${path} is missing, and every VSIX needs it.`);
  }
  if (!linked)
    for (const page of ["README.md", "CHANGELOG.md"]) {
      const path = join(folder, page);
      writeFileSync(path, withoutRelativeLinks(readFileSync(path, "utf8")));
    }
  checkPaths(manifest, folder);
  cpSync(installPackages(from, target, manifest.dependencies), join(folder, "node_modules"), { recursive: true });
  return folder;
}
