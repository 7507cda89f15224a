import { statSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { listArchive } from "./host/editor/archive.ts";
import { packedExtension, project } from "./host/editor/vsix.ts";

const everywhere = ["@emnapi/runtime", "@img/colour", "@img/sharp-wasm32", "detect-libc", "semver", "sharp", "tslib"];
const platform = `${process.platform}-${process.arch}`;

describe.each([
  { kind: "universal" as const, target: undefined, packages: everywhere, limit: 8 },
  {
    kind: "host" as const,
    target: platform,
    packages: [...everywhere, `@img/sharp-${platform}`, `@img/sharp-libvips-${platform}`].sort(),
    limit: 17,
  },
])("the $kind VSIX", ({ kind, target, packages, limit }) => {
  const path = packedExtension(kind);
  const files = listArchive(path);
  const names = files.map((file) => file.name.replace(/^extension\//, ""));
  const textOf = (name: string) => files.find((file) => file.name === name)?.text() ?? "";
  const manifest = JSON.parse(textOf("extension/package.json"));

  it("holds what an installed extension needs and nothing else", () => {
    for (const name of [
      "readme.md",
      "changelog.md",
      "LICENSE.txt",
      "NOTICES.md",
      "licences/LGPL-2.1.txt",
      "dist/extension.cjs",
      "dist/extension-web.js",
    ])
      expect(names).toContain(name);
    expect(names.filter((name) => /\.([mc]?tsx?|map|svg~)$|(^|\/)(tests?|\.[^/]+)\//.test(name))).toEqual([]);
    expect(
      names.filter((name) => /^dist\/(demo|demo-worker|bench|engine|recipe)\.|^dist\/(types|rollbook\.1)/.test(name)),
    ).toEqual([]);
    const places = new Set(names.filter((name) => name.includes("/")).map((name) => name.split("/")[0]));
    const allowed = ["dist", "schemas", "licences", "extension", "node_modules"];
    expect([...places].filter((place) => !allowed.includes(place))).toEqual([]);
  });

  it("carries exactly the packages that cannot be bundled", () => {
    const carried = names.map((name) => /^node_modules\/((?:@[^/]+\/)?[^/]+)\/package\.json$/.exec(name)?.[1]);
    expect(carried.filter((name) => name !== undefined).sort()).toEqual(packages);
  });

  it("says for every package who made it and on what terms", () => {
    const notices = textOf("extension/NOTICES.md");
    for (const name of packages) expect(notices).toContain(`| ${name.replace(platform, "PLATFORM")} |`);
    for (const name of ["LibRaw", "Little CMS", "libjpeg", "libvips", "yaml", "ajv"])
      expect(notices).toContain(`| ${name} |`);
    for (const [, text] of notices.matchAll(/licences\/([\w.-]+\.txt)/g)) expect(names).toContain(`licences/${text}`);
  });

  it("has a manifest for the editor alone", () => {
    expect(manifest).toMatchObject({ name: project.name, version: project.version, main: "./dist/extension.cjs" });
    expect(Object.keys(manifest.engines)).toEqual(["vscode"]);
    for (const key of ["scripts", "devDependencies", "type", "bin", "private"])
      expect(manifest).not.toHaveProperty(key);
    expect(/TargetPlatform="([^"]*)"/.exec(textOf("extension.vsixmanifest"))?.[1]).toBe(target);
  });

  it("has pages of which nothing leads to a file that is not there", () => {
    const pages = ["extension/readme.md", "extension/changelog.md"].map(textOf);
    for (const page of pages) expect(page.match(/\]\((?!https:|#)[^)]*\)/g)).toBe(null);
    expect(pages[0]).toContain("No telemetry, no accounts, no network");
    expect(names).toContain("SUPPORT.md");
  });

  it("names no folder of the machine that built it", () => {
    const root = resolve(import.meta.dirname, "../..");
    const bundles = files.filter((file) => /^extension\/(dist\/.*\.[cm]?js|package\.json)$/.test(file.name));
    expect(bundles.length).toBeGreaterThan(0);
    expect(bundles.filter((file) => file.text().includes(root)).map((file) => file.name)).toEqual([]);
  });

  it(`is no larger than ${limit} MB`, () => {
    expect(statSync(path).size / 1e6).toBeLessThan(limit);
  });
});
