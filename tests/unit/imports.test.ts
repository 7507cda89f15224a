/** The check of imports finds what is planted: a forbidden import, a ring of types, a stray file, an empty tree. */
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const project = fileURLToPath(new URL("../..", import.meta.url));
let root = "";

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), "imports-"));
  for (const top of ["extension/engine", "extension/failure.ts", "extension/rpc.ts", "extension/build.mjs"])
    cpSync(join(project, top), join(root, top), { recursive: true });
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

function check(at: string): { status: number | null; output: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(project, ".ci/imports.mjs"), "--root", at], {
    encoding: "utf8",
  });
  return { status, output: stdout + stderr };
}

/** Runs the check with files added, and takes them away again. */
function planted(files: Record<string, string>): { status: number | null; output: string } {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(root, name, ".."), { recursive: true });
    writeFileSync(join(root, name), text);
  }
  try {
    return check(root);
  } finally {
    for (const name of Object.keys(files)) rmSync(join(root, name));
  }
}

describe("the check of imports", () => {
  test("passes on the tree as it is", () => {
    const { status, output } = check(root);
    expect(output).toMatch(/^imports: \d+ imports in \d+ files keep the house rules/);
    expect(status).toBe(0);
  });

  test("fails on a lower room that imports a higher one, by a type alone", () => {
    const { status, output } = planted({
      "extension/engine/math/planted.ts":
        'import type { Finding } from "../survey/types.ts";\nexport type X = Finding;\n',
    });
    expect(output).toContain("extension/engine/math may not import extension/engine/survey");
    expect(status).toBe(1);
  });

  test("fails on a caller of jobs that imports their registry", () => {
    const { status, output } = planted({
      "extension/work/jobs.ts": "export const jobs = 1;\n",
      "extension/cli/planted.ts": 'export { jobs } from "../work/jobs.ts";\n',
    });
    expect(output).toContain("extension/cli may not import extension/work/jobs.ts");
    expect(status).toBe(1);
  });

  test("fails on a ring of files, types included", () => {
    const { status, output } = planted({
      "extension/engine/math/one.ts": 'import type { B } from "./two.ts";\nexport type A = B | 1;\n',
      "extension/engine/math/two.ts": 'export type B = import("./one.ts").A | 2;\n',
    });
    expect(output).toContain("A ring of imports: extension/engine/math/one.ts, extension/engine/math/two.ts.");
    expect(status).toBe(1);
  });

  test.each([
    ["a Node module in engine", "extension/engine/math/planted.ts", 'import "node:fs";\n', "may not import node:fs"],
    ["a package in engine", "extension/engine/math/planted.ts", 'import "yaml";\n', "may not import the package yaml"],
    ["a script", "extension/engine/math/planted.ts", 'import "../../build.mjs";\n', "may not import scripts"],
    ["a test", "extension/build-more.mjs", 'import "../tests/properties.ts";\n', "does not import tests"],
    ["a file in no room", "extension/stray.ts", "export const x = 1;\n", "lies in no room"],
  ])("fails on %s", (_, name, text, message) => {
    const { status, output } = planted({ [name]: text });
    expect(output).toContain(message);
    expect(status).toBe(1);
  });

  test("fails where it found nothing to check", () => {
    const empty = mkdtempSync(join(tmpdir(), "imports-"));
    try {
      const { status, output } = check(empty);
      expect(output).toContain("the check itself is broken");
      expect(status).toBe(1);
    } finally {
      rmSync(empty, { recursive: true });
    }
  });
});
