/** The check of words finds what is planted: a retired identifier, a retired phrase, an empty tree; not ordinary words. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const check = fileURLToPath(new URL("../../.ci/words.mjs", import.meta.url));
let root = "";

beforeAll(() => (root = mkdtempSync(join(tmpdir(), "words-"))));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Runs the check over one planted file. */
function planted(name: string, text: string): { status: number | null; output: string } {
  mkdirSync(join(root, "docs"), { recursive: true });
  mkdirSync(join(root, "extension"), { recursive: true });
  const path = join(root, name);
  writeFileSync(path, text);
  const { status, stdout, stderr } = spawnSync(process.execPath, [check, "--root", root], { encoding: "utf8" });
  rmSync(path);
  return { status, output: stdout + stderr };
}

describe("the check of words", () => {
  test.each([
    ["extension/a.ts", "// one\nexport interface RenderWish {}\n", 'extension/a.ts:2: "RenderWish" is retired'],
    ["extension/a.ts", 'const text = said("x");\n', 'extension/a.ts:1: "said(" is retired'],
    ["docs/a.md", "Mend it first.\n", 'docs/a.md:1: "Mend it" is retired: write fix'],
    ["docs/a.md", "The frame was passed over.\n", 'docs/a.md:1: "passed over" is retired'],
  ])("finds what is planted in %s: %j", (name, text, message) => {
    const { status, output } = planted(name, text);
    expect(output).toContain(message);
    expect(status).toBe(1);
  });

  test("leaves ordinary words alone", () => {
    const { status, output } = planted("extension/a.ts", "// Keeps near rows; one pass over the scan. He said so.\n");
    expect(output).toContain("1 files hold no retired word");
    expect(status).toBe(0);
  });

  test("fails where it finds nothing to check", () => {
    const { status, output } = planted("docs/a.png", "passed over");
    expect(output).toContain("found no files");
    expect(status).toBe(1);
  });
});
