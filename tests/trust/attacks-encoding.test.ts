/** Recipes that are not UTF-8: refused by every verb, and not a byte of them changed; docs/security.md has the row. */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { editRecipe, RecipeEditError } from "../../extension/recipe/edit/edit.ts";
import { tryFormat } from "../../extension/recipe/edit/layout/format.ts";
import { parseRecipe } from "../../extension/recipe/problems/document.ts";
import { decodeRecipe, withBadBytes } from "../../extension/recipe/yaml/encoding.ts";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { rollbook } from "../unit/cli/command.ts";

let folder = "";
let file = "";
let bytes = Buffer.alloc(0);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "encoding-"));
  file = makeRoll(folder, "harbour", { width: 192, height: 128, frames: 2 });
  const [first = "", ...rest] = readFileSync(file, "utf8").split("\n");
  const lines = [first, "title: Café Müller", ...rest.filter((line) => !line.startsWith("title:"))];
  bytes = Buffer.from(lines.join("\n"), "latin1");
  writeFileSync(file, bytes);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  ["check", []],
  ["format", []],
  ["lock", []],
  ["base", ["--write"]],
  ["survey", []],
  ["render", ["-o", "out"]],
  ["contact", ["-o", "sheet.jpg"]],
  ["join", []],
  ["stock", ["-o", "kept.stock.yaml"]],
] as const)("%s refuses it with the place and a fix, and leaves it alone", async (verb, options) => {
  const { code, out, err } = await rollbook([verb, file, ...options], { cwd: folder });
  expect(code).not.toBe(0);
  expect(out + err).toMatch(/The byte E9 here is not UTF-8\. Reopen the file with its own encoding/);
  expect(out + err).not.toContain("broke down");
  expect(readFileSync(file).equals(bytes)).toBe(true);
});

test("check says where", async () => {
  const { out } = await rollbook(["check", file], { cwd: folder });
  expect(out).toMatch(/:2:11 error/);
});

test("textconv passes the bytes through, so that git can compare them", () => {
  const program = fileURLToPath(new URL("../../dist/rollbook.mjs", import.meta.url));
  const { status, stdout } = spawnSync(process.execPath, [program, "textconv", file], { cwd: folder });
  expect(status).toBe(0);
  expect(stdout.equals(bytes)).toBe(true);
});

test("the merge driver leaves a conflict with all bytes of both sides", async () => {
  const paths = ["base", "ours", "theirs"].map((name) => join(folder, `${name}.yaml`)) as [string, string, string];
  const version = (title: string): Buffer => Buffer.from(`version: 1\ntitle: ${title}\nnote: ü\n`, "latin1");
  for (const [i, title] of ["a", "Café", "Zoë"].entries()) writeFileSync(paths[i]!, version(title));
  const { code, err } = await rollbook(["merge-driver", ...paths, "--path", "a.roll.yaml"], { cwd: folder });
  expect(code).toBe(1);
  expect(err).toContain("left as a conflict: one of its versions is not UTF-8");
  expect(readFileSync(paths[1], "latin1")).toBe(
    "version: 1\n<<<<<<< ours\ntitle: Café\n=======\ntitle: Zoë\n>>>>>>> theirs\nnote: ü\n",
  );
});

test("git merges, compares and shows such files with the drivers set up", () => {
  const repository = mkdtempSync(join(tmpdir(), "encoding-git-"));
  const git = (...args: string[]): string =>
    execFileSync("git", ["-c", "user.name=a", "-c", "user.email=a@example.org", ...args], {
      cwd: repository,
      encoding: "latin1",
      stdio: ["ignore", "pipe", "pipe"],
    });
  const program = fileURLToPath(new URL("../../dist/rollbook.mjs", import.meta.url));
  try {
    git("init", "-q", "-b", "main");
    execFileSync(process.execPath, [program, "git-setup"], { cwd: repository });
    const roll = join(repository, "a.roll.yaml");
    writeFileSync(roll, Buffer.from("version: 1\ntitle: Müller\n", "latin1"));
    git("add", "-A");
    git("commit", "-qm", "one");
    writeFileSync(roll, Buffer.from("version: 1\ntitle: Möller\n", "latin1"));
    expect(git("diff")).toContain("+title: Möller");
  } finally {
    rmSync(repository, { recursive: true, force: true });
  }
});

test("the editor's reading of it, with � in place of the letters, is not edited or laid out", () => {
  const shown = withBadBytes("version: 1\ntitle: Caf\ufffd\n");
  expect(parseRecipe(shown, { file: "a.roll.yaml" }).problems).toMatchObject([{ code: "not-utf8", range: [21, 22] }]);
  expect(() => editRecipe(shown, [{ path: ["note"], value: "x" }])).toThrow(RecipeEditError);
  expect(tryFormat(shown)).toMatchObject({ text: shown, left: expect.stringContaining("could not be read as UTF-8") });
});

test("valid UTF-8 is read as it is, with its byte order mark and every letter", () => {
  for (const text of ["\ufeffversion: 1\n", "é 朝 😀 \u0000 \ufffd \uffff", ""])
    expect(decodeRecipe(Buffer.from(text))).toBe(text);
  // An overlong form, a surrogate half, a cut sequence, a byte beyond the last (RFC 3629, section 3).
  for (const bad of [
    [0xc0, 0xaf],
    [0xed, 0xa0, 0x80],
    [0x61, 0xe6, 0x9c],
    [0xf5, 0x80, 0x80, 0x80],
  ])
    expect(decodeRecipe(Uint8Array.from(bad))).toMatch(/[\udc80-\udcff]/);
});
