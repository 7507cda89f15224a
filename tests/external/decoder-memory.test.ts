// One bad scan must not harm the next: damaged files are decoded before and between valid ones, in many orders, and the
// valid ones stay as they are when each is decoded by itself. Real files are read where they are kept beside the project:
// in a short set of orders, or, with DECODER_ORDERS=all in the environment, every damaged one directly before every valid
// one and each valid one in a process of its own first (two minutes of processor time and more).
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { loadLibRaw } from "../../extension/scans/raw/libraw.ts";
import { readRaw } from "../../extension/scans/raw/read-raw.ts";
import { damagedFiles, validFiles } from "../witness/raw/small-files.ts";
import { seeded, temporaryFolder } from "../unit/scans/files.ts";
import { decodeInTurn, mixed, shortened } from "./decode-in-turn.ts";

const shared = new URL("../../../shared/", import.meta.url).pathname;
const filesOf = (...folders: string[]): string[] =>
  folders.flatMap((folder) =>
    readdirSync(join(shared, folder))
      .filter((name) => !/\.(u16|md)$/.test(name))
      .map((name) => join(shared, folder, name)),
  );
const folder = temporaryFolder();

/**
 * Valid files by themselves first, then in turn with the damaged ones.
 * @param alone lists of valid files; each list is decoded in a process of its own
 * @param orders valid and damaged files in turn, decoded in one thread
 * @returns the valid files that became something else, and after which one
 */
async function harmedFiles(alone: string[][], orders: string[][], limit: number): Promise<string[]> {
  const expected = new Map<string, string>();
  for (const list of alone)
    for (const { path, door, libraw } of await decodeInTurn([list], limit)) expected.set(path, `${door} ${libraw}`);
  const turns = await decodeInTurn(orders, limit);
  if (turns.length !== orders.flat().length) throw new Error(`Only ${turns.length} files were decoded.`);
  return turns.flatMap(({ path, door, libraw }, i) => {
    const known = expected.get(path);
    const isSame = known === undefined || known === `${door} ${libraw}`;
    return isSame ? [] : [`${basename(path)} after ${basename(turns[i - 1]?.path ?? "nothing")}`];
  });
}
const each = (paths: readonly string[]): string[][] => paths.map((path) => [path]);

test("generated files: no damaged one changes a valid one", async () => {
  const put = (files: Record<string, Uint8Array>) =>
    Object.entries(files).map(([name, bytes]) => folder.put(name, bytes));
  const [valid, damaged] = [put(validFiles()), put(damagedFiles())];
  expect(await harmedFiles(each(valid), mixed(valid, damaged, seeded(7)), 300_000)).toEqual([]);
}, 400_000);

test("after any failure LibRaw's module is a new one, after a success it is the same", async () => {
  const { "plain.dng": valid } = validFiles();
  const failing = { ...damagedFiles(), "text.dng": Uint8Array.from("a text", (letter) => letter.charCodeAt(0)) };
  const kinds = { failed: 0, wrong: [] as string[] };
  for (const [name, bytes] of Object.entries(failing)) {
    const before = await loadLibRaw();
    const failed = (() => {
      try {
        return void readRaw(before, bytes, 1e8);
      } catch (error) {
        return error;
      }
    })();
    if (failed !== undefined) kinds.failed++;
    if (((await loadLibRaw()) === before) !== (failed === undefined)) kinds.wrong.push(name);
  }
  expect(kinds.wrong).toEqual([]);
  expect(kinds.failed).toBeGreaterThan(4);
  const before = await loadLibRaw();
  readRaw(before, valid, 1e8);
  expect(await loadLibRaw()).toBe(before);
});

const isThere = existsSync(join(shared, "real/bad"));
const isWhole = process.env.DECODER_ORDERS === "all";
/** Above half a megabyte; and a picture of 12 megapixels of which 64 kB are left, which LibRaw decodes to zeros. */
const isHeavy = (path: string): boolean => statSync(path).size > 500_000 || path.endsWith("exiv2_IMG_1361.dng");

test.skipIf(!isThere)(
  `real files${isThere ? "" : " (not beside this project)"}: no damaged one changes a valid one`,
  async () => {
    const valid = filesOf("real/raw", "raw/samples/real", "raw/samples/synthetic");
    const damaged = filesOf("real/bad", "raw/samples/bad");
    const harmed = isWhole
      ? harmedFiles(each(valid), mixed(valid, damaged, seeded(7)), 1_500_000)
      : harmedFiles([valid], shortened(valid, damaged, seeded(7), isHeavy), 600_000);
    expect(await harmed).toEqual([]);
  },
  2_000_000,
);

test.skipIf(!isThere)("real files: samples with known numbers are theirs", async () => {
  const known = filesOf("raw/samples/synthetic");
  const turns = await decodeInTurn(mixed(known, filesOf("real/bad").slice(0, 2), seeded(3)), 300_000);
  for (const { path, libraw } of turns.filter((turn) => known.includes(turn.path))) {
    const truth = createHash("sha256").update(readFileSync(path.replace(/\.\w+$/, ".u16")));
    expect(`${basename(path)} ${libraw}`).toBe(`${basename(path)} ${truth.digest("hex")}`);
  }
});
