/** What is shipped and installed: exact, known, under terms that allow it, and without programs that run on installing. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
const json = (path: string): unknown => JSON.parse(readFileSync(root + path, "utf8"));

interface Locked {
  readonly version?: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly dev?: boolean;
  readonly license?: string;
  readonly hasInstallScript?: boolean;
}
const { packages } = json("package-lock.json") as { packages: Record<string, Locked> };
const locked = Object.entries(packages).filter(([path]) => path !== "");
const project = json("package.json") as Record<string, Record<string, string>>;

/** Terms under which everything shipped is; texts are in docs/licences and docs/third-party-notices.md. */
const ALLOWED = new Set([
  "MIT",
  "(MIT OR CC0-1.0)",
  "ISC",
  "0BSD",
  "BSD-2-Clause",
  "BSD-3-Clause",
  "Apache-2.0",
  "Apache-2.0 AND LGPL-3.0-or-later AND MIT",
  "Apache-2.0 AND LGPL-3.0-or-later",
  "LGPL-3.0-or-later",
]);

describe("the lock file", () => {
  test("holds every package to one version by its hash, and names no registry", () => {
    expect(locked.length).toBeGreaterThan(100);
    for (const [path, { version, integrity, resolved }] of locked) {
      expect([path, version]).toEqual([path, expect.stringMatching(/^\d+\.\d+\.\d+/)]);
      expect([path, integrity]).toEqual([path, expect.stringMatching(/^sha512-/)]);
      expect([path, resolved]).toEqual([path, undefined]);
    }
  });

  test("fits the manifest, which names exact versions", () => {
    for (const group of ["dependencies", "devDependencies", "optionalDependencies"])
      for (const [name, version] of Object.entries(project[group] ?? {})) {
        expect([name, version]).toEqual([name, expect.stringMatching(/^\d+\.\d+\.\d+$/)]);
        expect([name, packages[`node_modules/${name}`]?.version]).toEqual([name, version]);
      }
  });

  test("no package that is shipped runs anything when it is installed", () => {
    const running = locked.filter(([, { hasInstallScript }]) => hasInstallScript);
    expect(running.filter(([, { dev }]) => !dev).map(([path]) => path)).toEqual([]);
    // Those of the tools may be left out (npm ci --ignore-scripts): what they do is only to check.
    const known = /node_modules\/(esbuild|fsevents|keytar|@vscode\/vsce-sign)$/;
    for (const [path] of running) expect(path).toMatch(known);
  });
});

describe("licences", () => {
  // What is bundled is a tool's dependency for npm; the notices, which are made from the bundles, name it.
  const notices = readFileSync(`${root}docs/third-party-notices.md`, "utf8");
  const named = new Set([...notices.matchAll(/^\| ([@\w/.-]+) \| \d/gm)].map(([, name]) => `node_modules/${name}`));
  const shipped = locked.filter(([path, { dev }]) => !dev || named.has(path));

  test("of everything shipped allow it", () => {
    for (const name of ["sharp", "yaml", "lcms-wasm", "libraw-wasm", "zxing-wasm", "chokidar"])
      expect(shipped.map(([path]) => path)).toContain(`node_modules/${name}`);
    for (const [path, { license }] of shipped) expect([path, ALLOWED.has(license ?? "")]).toEqual([path, true]);
  });

  test("are in the notices, with the version", () => {
    for (const name of ["yaml", "sharp", "lcms-wasm", "libraw-wasm", "zxing-wasm"])
      expect(notices).toContain(`| ${name} | ${packages[`node_modules/${name}`]?.version} |`);
    expect(notices).toContain("Creative Commons Attribution-ShareAlike 4.0 International");
    for (const inner of ["LibRaw", "libvips", "zxing-cpp"]) expect(notices).toContain(inner);
  });
});
