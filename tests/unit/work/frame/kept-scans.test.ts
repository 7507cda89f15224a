import { mkdtempSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { decodeAndKeep, takeOrDecode } from "../../../../extension/work/frame/kept-scans.ts";
import { bytesToKeep } from "../../../../extension/work/new-roll/scans/bytes-to-keep.ts";
import { writeDng } from "../../../witness/raw/dng.ts";

const [WIDTH, HEIGHT] = [64, 48];
/** Half width, half height, three channels of two bytes. */
const BYTES = 32 * 24 * 3 * 2;
let folder = "";
const scan = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "kept-"));
  for (const [k, name] of ["a.dng", "b.dng"].entries())
    writeFileSync(
      scan(name),
      writeDng({
        width: WIDTH,
        height: HEIGHT,
        data: Uint16Array.from({ length: WIDTH * HEIGHT }, (_, i) => 1000 + 7 * ((i * (k + 3)) % 1500)),
        black: 600,
        white: 15_871,
      }),
    );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("gives the scan that was kept once, and decodes it the next time", async () => {
  const first = await decodeAndKeep(scan("a.dng"), BYTES);
  expect(first.scan.data.byteLength).toBe(BYTES);
  expect(await takeOrDecode(scan("a.dng"))).toBe(first);
  const again = await takeOrDecode(scan("a.dng"));
  expect(again).not.toBe(first);
  expect(again).toEqual(first);
});

it("keeps no more than it may", async () => {
  const first = await decodeAndKeep(scan("a.dng"), BYTES);
  const second = await decodeAndKeep(scan("b.dng"), 2 * BYTES - 1);
  expect(await takeOrDecode(scan("b.dng"))).not.toBe(second);
  expect(await takeOrDecode(scan("a.dng"))).toBe(first);
});

it("decodes a file again that has changed since", async () => {
  const first = await decodeAndKeep(scan("a.dng"), BYTES);
  const { atime, mtimeMs } = statSync(scan("a.dng"));
  utimesSync(scan("a.dng"), atime, mtimeMs / 1000 + 5);
  expect(await takeOrDecode(scan("a.dng"))).not.toBe(first);
  // What was kept of it is let go.
  const other = await decodeAndKeep(scan("b.dng"), BYTES);
  expect(await takeOrDecode(scan("b.dng"))).toBe(other);
});

it("shares the limit among workers", () => {
  expect(bytesToKeep(4)).toBeLessThanOrEqual(0.75 * 2 ** 30);
  expect(bytesToKeep(1)).toBeGreaterThan(0);
});
