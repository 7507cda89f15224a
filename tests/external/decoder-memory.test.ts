// One bad scan must not harm the next: damaged files are decoded before and between valid ones, in many orders, and the
// valid ones stay as they are when each is decoded by itself. Real files are read where they are kept beside the project.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { loadLibRaw } from "../../extension/scans/raw/libraw.ts";
import { readRaw } from "../../extension/scans/raw/read-raw.ts";
import { damagedFiles, validFiles } from "../witness/raw/small-files.ts";
import { seeded, temporaryFolder } from "../unit/scans/files.ts";
import { decodeInTurn, mixed } from "./decode-in-turn.ts";

const shared = new URL("../../../shared/", import.meta.url).pathname;
const filesOf = (...folders: string[]): string[] =>
  folders.flatMap((folder) =>
    readdirSync(join(shared, folder))
      .filter((name) => !/\.(u16|md)$/.test(name))
      .map((name) => join(shared, folder, name)),
  );
const folder = temporaryFolder();

/** Each valid file first in a process of its own, then all of them in turn with the damaged ones. */
async function expectSame(valid: readonly string[], damaged: readonly string[], limit: number): Promise<void> {
  const alone = new Map<string, string>();
  for (const path of valid) {
    const [turn] = await decodeInTurn([[path]], limit);
    alone.set(path, `${turn.door} ${turn.libraw}`);
  }
  const turns = await decodeInTurn(mixed(valid, damaged, seeded(7)), limit);
  expect(turns).toHaveLength(2 * valid.length * damaged.length);
  const harmed = turns.filter(({ path, door, libraw }, i) => {
    const known = alone.get(path);
    return known !== undefined && known !== `${door} ${libraw}` && `${basename(path)} after ${turns[i - 1]?.path}`;
  });
  expect(harmed).toEqual([]);
}

test("generated files: no damaged one changes a valid one", async () => {
  const put = (files: Record<string, Uint8Array>) =>
    Object.entries(files).map(([name, bytes]) => folder.put(name, bytes));
  const [valid, damaged] = [put(validFiles()), put(damagedFiles())];
  await expectSame(valid, damaged, 300_000);
}, 400_000);

test("after any failure LibRaw's module is a new one, after a success it is the same", async () => {
  const { "plain.dng": valid } = validFiles();
  const failing = { ...damagedFiles(), "text.dng": Uint8Array.from("a text", (letter) => letter.charCodeAt(0)) };
  let failures = 0;
  for (const [name, bytes] of Object.entries(failing)) {
    const before = await loadLibRaw();
    const failed = (() => {
      try {
        return void readRaw(before, bytes, 1e8);
      } catch (error) {
        return error;
      }
    })();
    failures += failed === undefined ? 0 : 1;
    expect((await loadLibRaw()) === before, name).toBe(failed === undefined);
  }
  expect(failures).toBeGreaterThan(4);
  const before = await loadLibRaw();
  readRaw(before, valid, 1e8);
  expect(await loadLibRaw()).toBe(before);
});

const isThere = existsSync(join(shared, "real/bad"));
test.skipIf(!isThere)(
  `real files${isThere ? "" : " (not beside this project)"}: no damaged one changes a valid one`,
  async () => {
    const valid = filesOf("real/raw", "raw/samples/real", "raw/samples/synthetic");
    const damaged = filesOf("real/bad", "raw/samples/bad");
    await expectSame(valid, damaged, 1_500_000);
  },
  2_000_000,
);

test.skipIf(!isThere)("real files: samples with known numbers are theirs", async () => {
  const known = filesOf("raw/samples/synthetic");
  const turns = await decodeInTurn(mixed(known, filesOf("real/bad").slice(0, 2), seeded(3)), 300_000);
  for (const { path, libraw } of turns.filter((turn) => known.includes(turn.path))) {
    const truth = createHash("sha256").update(readFileSync(path.replace(/\.\w+$/, ".u16")));
    expect(libraw, basename(path)).toBe(truth.digest("hex"));
  }
});
