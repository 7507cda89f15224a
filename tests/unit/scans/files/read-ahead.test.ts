import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { readerAhead } from "../../../../extension/scans/files/read-ahead.ts";

const home = mkdtempSync(join(tmpdir(), "read-ahead-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

function file(name: string, bytes: number): string {
  const path = join(home, name);
  writeFileSync(path, Buffer.alloc(bytes));
  return path;
}

/** Reads all of it, one after the other; how often each file was asked for, in the order of the questions. */
async function questions(
  paths: readonly string[],
  isAwaited: (asked: number) => boolean = () => true,
): Promise<number[]> {
  const readAhead = readerAhead();
  const asked: number[] = [];
  for (const [k, path] of paths.entries()) readAhead(path, () => isAwaited(asked.push(k)));
  await new Promise<void>((resolve) => readAhead(file("last", 1), () => (resolve(), false)));
  return asked;
}

test("files are read one after the other, in parts, and whether they are still awaited is asked before each part", async () => {
  const [large, small] = [file("large", 9 << 20), file("small", 5)];
  expect(await questions([large, small])).toEqual([0, 0, 0, 0, 1, 1]);
});

test("a file that is no longer awaited is left", async () => {
  expect(await questions([file("left", 9 << 20), file("next", 5)], (asked) => asked !== 2)).toEqual([0, 0, 1, 1]);
});

test.skipIf(process.platform === "win32")("what is missing, a folder or a pipe keeps nobody waiting", async () => {
  const pipe = join(home, "pipe");
  execFileSync("mkfifo", [pipe]);
  const there = file("there", 5);
  expect(await questions([join(home, "missing"), home, pipe, there])).toEqual([0, 1, 2, 3, 3]);
});
