/** The examples of docs/library.md run on the built modules and print what the page says; the page names all there is. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const page = readFileSync(join(root, "docs/library.md"), "utf8");
const examples = [...page.matchAll(/^### (.+)\n[^]*?```js\n([^]*?)```/gm)].map(([, title, code]) => ({ title, code }));

let folder = "";
beforeAll(() => {
  if (!existsSync(join(root, "dist/engine.mjs")))
    throw new Error("dist/engine.mjs is missing: run npm run build first.");
  folder = mkdtempSync(join(tmpdir(), "library-"));
  mkdirSync(join(folder, "node_modules"));
  symlinkSync(root, join(folder, "node_modules/rollbook"), "junction");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What follows `console.log(…); // ` on each line. */
const expected = (code: string): string[] =>
  [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map(([, text]) => text);

describe("docs/library.md", () => {
  test("has an example for each of its parts", () => {
    expect(examples.length).toBeGreaterThan(7);
    for (const { code } of examples) expect(expected(code).length).toBeGreaterThan(0);
  });

  test.each(examples)("$title", ({ code }) => {
    const file = join(folder, "example.mjs");
    writeFileSync(file, code);
    const { status, stdout, stderr } = spawnSync(process.execPath, [file], { encoding: "utf8" });
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout.split("\n").slice(0, -1)).toEqual(expected(code));
  });

  test.each(["engine", "recipe"])(
    "names everything that rollbook/%s exports, in a table and in an example",
    async (name) => {
      const exported = Object.keys((await import(join(root, "dist", `${name}.mjs`))) as object);
      expect(exported.length).toBeGreaterThan(10);
      const tables = page.split("\n").filter((line) => line.startsWith("|"));
      const code = examples.map((example) => example.code).join("");
      for (const one of exported) {
        expect([one, tables.some((line) => new RegExp(`\`${one}\\b`).test(line))]).toEqual([one, true]);
        expect([one, new RegExp(`\\b${one}\\b`).test(code)]).toEqual([one, true]);
      }
    },
  );
});
