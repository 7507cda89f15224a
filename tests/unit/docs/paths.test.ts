/** Every file and folder that the glossary and DEVELOPERS.md name exists: both are the map by which newcomers find the code. */
import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../..", import.meta.url));
/** What is made by a command and is not kept. */
const MADE = /^(dist|\.cache)\//;
const SKIPPED = new Set(["node_modules", "dist", ".cache", ".git"]);

/** Every file and folder of the project, by its path from the top. */
const known = readdirSync(root, { withFileTypes: true })
  .filter(({ name }) => !SKIPPED.has(name))
  .flatMap((entry) => [
    entry.name,
    ...(entry.isDirectory()
      ? readdirSync(join(root, entry.name), { recursive: true, encoding: "utf8" }).map((path) =>
          [entry.name, ...path.split(sep)].join("/"),
        )
      : []),
  ]);

/** Paths in backticks: with a slash or a file's ending, and without anything that only a command or a pattern has. */
const pathsIn = (text: string): string[] =>
  [...text.matchAll(/`([\w.-]+(?:\/[\w.-]+)*\/?)`/g)]
    .map(([, path]) => path)
    .filter((path) => /\/|\.(ts|mjs|md|json)$/.test(path) && !MADE.test(path));

/** Paths that nothing ends in: both documents leave out the folders that their rows and sentences have named. */
function missingIn(text: string): string[] {
  return pathsIn(text).filter((written) => {
    const path = written.replace(/\/$/, "");
    return !known.some((one) => one === path || one.endsWith(`/${path}`));
  });
}

describe.each(["docs/glossary.md", "DEVELOPERS.md"])("the paths in %s", (file) => {
  const text = readFileSync(join(root, file), "utf8");

  it("are many", () => expect(pathsIn(text).length).toBeGreaterThan(30));
  it("exist", () => expect(missingIn(text)).toEqual([]));
});

it("is not satisfied by a path that does not exist", () => {
  expect(missingIn("see `engine/film/formats.ts`, `curve-of-nothing.ts`")).toEqual(["curve-of-nothing.ts"]);
});
