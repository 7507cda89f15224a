import { mkdtempSync, readFileSync, renameSync, rmSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import { createHash } from "node:crypto";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { afterAll, beforeAll, expect, test } from "vitest";
import { rememberedFingerprint } from "../../../../extension/scans/files/remembered-fingerprint.ts";

const home = mkdtempSync(join(tmpdir(), "remembered-"));
const at = (name: string): string => join(home, name);
const hashOf = (path: string): string => createHash("sha256").update(readFileSync(path)).digest("hex");
const SIZE = 24 << 20;
/** Long ago: only its own time tells that a file was changed. */
const LONG_AGO = 1_700_000_000;

function write(name: string, value: number): string {
  writeFileSync(at(name), Buffer.alloc(SIZE, value));
  utimesSync(at(name), LONG_AGO, LONG_AGO);
  return at(name);
}

beforeAll(async () => {
  for (const [k, name] of ["a", "b", "c", "d"].entries()) write(name, k);
  symlinkSync(at("c"), at("link"));
  await setTimeout(2500); // until they have settled
}, 20_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

test.runIf(process.platform === "linux")("a file is read once while it stays as it is", async () => {
  const bytesRead = (): number => Number(/rchar: (\d+)/.exec(readFileSync("/proc/self/io", "latin1"))?.[1]);
  const start = bytesRead();
  const first = await rememberedFingerprint(at("a"));
  const between = bytesRead();
  const second = await rememberedFingerprint(at("a"));
  expect(bytesRead() - between).toBeLessThan(SIZE / 8);
  expect(between - start).toBeGreaterThanOrEqual(SIZE);
  expect(first).toEqual({ size: SIZE, sha256: hashOf(at("a")) });
  expect(second).toEqual(first);
});

test("one that was written over, with the same size and time, is reread", async () => {
  const before = await rememberedFingerprint(at("b"));
  write("b", 77);
  const after = await rememberedFingerprint(at("b"));
  expect(after.sha256).not.toBe(before.sha256);
  expect(after.sha256).toBe(hashOf(at("b")));
});

test("another file in its place is reread, behind a link too", async () => {
  await rememberedFingerprint(at("link"));
  renameSync(at("d"), at("c"));
  expect((await rememberedFingerprint(at("link"))).sha256).toBe(hashOf(at("c")));
});

test("one that was changed a moment ago is not remembered", async () => {
  writeFileSync(at("new"), "one");
  const before = await rememberedFingerprint(at("new"));
  writeFileSync(at("new"), "two");
  expect((await rememberedFingerprint(at("new"))).sha256).not.toBe(before.sha256);
});

test("one that is missing is told as it always is", async () => {
  await expect(rememberedFingerprint(at("missing"))).rejects.toMatchObject({ code: "missing" });
});
