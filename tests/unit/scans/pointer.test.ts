/**
 * Pointers of large-file stores. Forms: the Git LFS specification ("The Pointer"), and git-annex's documentation of its
 * key format and pointer files.
 */
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { scanFingerprint } from "../../../extension/scans/files/scan-fingerprint.ts";

const BYTES = Buffer.from("a scan's bytes");
const SHA256 = createHash("sha256").update(BYTES).digest("hex");
const LFS = `version https://git-lfs.github.com/spec/v1\noid sha256:${SHA256}\nsize ${BYTES.length}\n`;
const KEY = `SHA256E-s${BYTES.length}--${SHA256}.dng`;

let folder = "";
const path = (name: string): string => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "pointer-"));
  writeFileSync(path("lfs.dng"), LFS);
  writeFileSync(path("annexed.dng"), `/annex/objects/${KEY}\n`);
  writeFileSync(path("kept.dng.dvc"), "outs:\n- md5: 0123\n  path: kept.dng\n");
  mkdirSync(path(".git/annex/objects"), { recursive: true });
  writeFileSync(path(`.git/annex/objects/${KEY}`), BYTES);
  symlinkSync(`.git/annex/objects/${KEY}`, path("here.dng"));
  symlinkSync(`.git/annex/objects/gone/${KEY}`, path("gone.dng"));
  symlinkSync(".git/annex/objects/gone/WORM-s14-m1--gone.dng", path("worm.dng"));
  symlinkSync("/nowhere/cache/ab/cdef", path("linked.dng"));
  writeFileSync(path("text.dng"), "version 1\nnothing of the kind\n");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const refused = async (name: string): Promise<{ code: string; message: string; remedy: string }> =>
  decodeScan(path(name)).then(
    () => ({ code: "", message: "", remedy: "" }),
    (error: unknown) => error as { code: string; message: string; remedy: string },
  );

describe("a scan that is not fetched", () => {
  test.each([
    ["lfs.dng", "lfs.dng is a Git LFS pointer", "git lfs pull --include"],
    ["annexed.dng", "is a git-annex pointer", "git annex get annexed.dng"],
    ["gone.dng", "is a git-annex pointer", "git annex get gone.dng"],
    ["linked.dng", "is a link to a file that is not there", "data store's own command"],
    ["kept.dng", "kept.dng.dvc beside it", "dvc pull kept.dng"],
  ])("%s is to be fetched first", async (name, message, remedy) => {
    const error = await refused(name);
    expect(error.code).toBe("not-fetched");
    expect(error.message).toContain(message);
    expect(error.remedy).toContain("Fetch it first: ");
    expect(error.remedy).toContain(remedy);
  });

  test("is told from a text, from a missing file, and from a link whose content is here", async () => {
    expect((await refused("text.dng")).code).toBe("unrecognised");
    expect((await refused("missing.dng")).code).toBe("missing");
    expect((await refused("here.dng")).code).toBe("unrecognised");
  });
});

describe("the fingerprint of a scan", () => {
  const expected = { size: BYTES.length, sha256: SHA256 };
  test.each(["lfs.dng", "annexed.dng", "gone.dng", "here.dng"])("%s is that of its bytes", async (name) => {
    expect(await scanFingerprint(path(name))).toEqual(expected);
  });

  test("is refused where a key states none", async () => {
    await expect(scanFingerprint(path("worm.dng"))).rejects.toMatchObject({ code: "not-fetched" });
    await expect(scanFingerprint(path("linked.dng"))).rejects.toMatchObject({ code: "not-fetched" });
  });
});
