/** Every file and folder that a page of the project names exists: pages are the map by which newcomers find the code. */
import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../..", import.meta.url));
/** What is made by a command and is not kept. */
const MADE = /^(dist|\.cache)\//;
/** Folders and files; pages for photographers name folders of theirs too, so of those only sources are looked for. */
const [ANY, SOURCES] = [/\/$|\.(ts|mjs|md|json)$/, /\.(ts|mjs)$/];
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

/** Paths in backticks: with a slash at the end, or a source file's ending, and without anything that only a command or a pattern has. */
const pathsIn = (text: string, endings: RegExp = ANY): string[] =>
  [...text.matchAll(/`([\w.-]+(?:\/[\w.-]+)*\/?)`/g)]
    .map(([, path]) => path)
    .filter((path) => endings.test(path) && !MADE.test(path));

/** Paths that nothing ends in: pages leave out the folders that their rows and sentences have named. */
function missingIn(text: string, endings?: RegExp): string[] {
  return pathsIn(text, endings).filter((written) => {
    const path = written.replace(/\/$/, "");
    return !known.some((one) => one === path || one.endsWith(`/${path}`));
  });
}

/** Pages that may name files of the project. */
const PAGES = [
  "DEVELOPERS.md",
  "README.md",
  ...known.filter((path) => /^(docs\/(decisions\/)?[\w-]+|extension\/.*README)\.md$/.test(path)),
];

describe.each(PAGES)("the paths in %s", (file) => {
  const text = readFileSync(join(root, file), "utf8");

  const isMap = /^DEVELOPERS|glossary|decisions|README/.test(file);
  it("exist", () => expect(missingIn(text, isMap ? ANY : SOURCES)).toEqual([]));
});

it("are looked for in many places", () => {
  expect(PAGES.length).toBeGreaterThan(30);
  for (const page of ["DEVELOPERS.md", "docs/glossary.md"])
    expect(pathsIn(readFileSync(join(root, page), "utf8")).length).toBeGreaterThan(30);
});

it("is not satisfied by a path that does not exist", () => {
  expect(missingIn("see `engine/film/formats.ts`, `curve-of-nothing.ts`")).toEqual(["curve-of-nothing.ts"]);
});
