// Makes the manifest that VS Code reads from the project's package.json, which also serves npm and the command.
import { existsSync } from "node:fs";
import { join } from "node:path";

/** What of package.json an installed extension needs; the rest (scripts, development tools, `type`) stays behind. */
const MANIFEST_KEYS = [
  "name",
  "displayName",
  "description",
  "version",
  "publisher",
  "license",
  "icon",
  "galleryBanner",
  "categories",
  "keywords",
  "homepage",
  "repository",
  "bugs",
  "qna",
  "pricing",
  "preview",
  "main",
  "browser",
  "activationEvents",
  "contributes",
  "capabilities",
  "extensionKind",
  "extensionDependencies",
  "extensionPack",
  "l10n",
];

/**
 * @param project the parsed package.json
 * @param dependencies the packages that go into node_modules, name → exact version
 * @throws Error when a key without which VS Code cannot load the extension is missing
 */
export function makeManifest(project, dependencies) {
  for (const key of ["name", "version", "publisher", "main"])
    if (!project[key]) throw new Error(`package.json has no "${key}", which an extension needs.`);
  if (!project.engines?.vscode) throw new Error('package.json has no "engines.vscode", which an extension needs.');
  const manifest = Object.fromEntries(MANIFEST_KEYS.filter((key) => key in project).map((key) => [key, project[key]]));
  return {
    ...manifest,
    activationEvents: project.activationEvents ?? [],
    engines: { vscode: project.engines.vscode },
    dependencies,
  };
}

/**
 * Looks whether every file that the manifest points to ("./…") is in the folder.
 * @throws Error that names all that are missing
 */
export function checkPaths(manifest, folder) {
  const missing = new Set();
  const visit = (value, at) => {
    if (typeof value === "string" && (value.startsWith("./") || at === "icon")) {
      if (!existsSync(join(folder, value))) missing.add(`${value} (${at})`);
    } else if (value && typeof value === "object") {
      for (const [key, inner] of Object.entries(value)) visit(inner, at ? `${at}.${key}` : key);
    }
  };
  visit(
    {
      icon: manifest.icon,
      main: manifest.main,
      browser: manifest.browser,
      l10n: manifest.l10n,
      contributes: manifest.contributes,
    },
    "",
  );
  if (missing.size) throw new Error(`package.json points to files that are not shipped: ${[...missing].join(", ")}`);
}
