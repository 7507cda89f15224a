/** A roll whose scans a large-file store keeps elsewhere, as the command sees it. Forms: Git LFS specification, git-annex. */
import { createHash } from "node:crypto";
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { asJson, rollbook } from "./command.ts";

let folder = "";
let recipe = "";
const scan = (name: string): string => join(folder, "scans", name);
const sha256 = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "large-"));
  recipe = makeRoll(folder, "harbour", { width: 192, height: 128, frames: 4 });
  mkdirSync(join(folder, "store"));
  mkdirSync(join(folder, ".git/annex/objects"), { recursive: true });
  for (const name of ["F01.dng", "F02.dng", "F03.dng"]) renameSync(scan(name), join(folder, "store", name));
  const stored = (name: string): Buffer => readFileSync(join(folder, "store", name));
  writeFileSync(
    scan("F01.dng"),
    `version https://git-lfs.github.com/spec/v1\noid sha256:${sha256(stored("F01.dng"))}\nsize ${stored("F01.dng").length}\n`,
  );
  const key = `SHA256E-s${stored("F02.dng").length}--${sha256(stored("F02.dng"))}.dng`;
  symlinkSync(`../.git/annex/objects/0K/1a/${key}/${key}`, scan("F02.dng"));
  writeFileSync(scan("F03.dng.dvc"), "outs:\n- md5: 0123\n  path: F03.dng\n");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("a roll of pointers", () => {
  test("is checked with a warning and a command for each scan", { timeout: 300_000 }, async () => {
    const { code, out } = await rollbook(["check", recipe]);
    expect(code).toBe(0);
    expect(out).toMatch(/:12:11 warning .*F01\.dng is a Git LFS pointer.*git lfs pull --include "\*\*\/F01\.dng"\. \[/);
    expect(out).toMatch(/:15:11 warning .*F02\.dng is a git-annex pointer.*git annex get F02\.dng, in .*scans\. \[/);
    expect(out).toMatch(/:18:11 warning .*F03\.dng beside it|:18:11 warning .*dvc pull F03\.dng, in .*scans\. \[/);
    expect(out.match(/\[scan-not-fetched\]/g)).toHaveLength(3);
  });

  test("a dry run skips what is not here, and so does rendering", { timeout: 300_000 }, async () => {
    const dry = await rollbook(["render", recipe, "-o", join(folder, "out"), "--dry-run"]);
    expect(dry.out.match(/^Would write /gm)).toHaveLength(1);
    expect(dry.err).toContain("frame 01 would be skipped: ");
    const { code, json } = await asJson<{ frames: { frame: string; status: string; failure?: { code: string } }[] }>([
      "render",
      recipe,
      "-o",
      join(folder, "out"),
    ]);
    expect(code).toBe(1);
    expect(json.frames.map(({ frame, failure }) => [frame, failure?.code])).toEqual([
      ["01", "not-fetched"],
      ["02", "not-fetched"],
      ["03", "not-fetched"],
      ["04", undefined],
    ]);
  });

  test(
    "is locked by what its pointers state, and the lock holds for the scans themselves",
    { timeout: 600_000 },
    async () => {
      const refused = await rollbook(["lock", recipe]);
      expect([refused.code, refused.err]).toEqual([
        1,
        expect.stringContaining("was not locked: 1 of 6 scans") as string,
      ]);
      expect(refused.err).toContain("dvc pull F03.dng");
      renameSync(join(folder, "store/F03.dng"), scan("F03.dng"));
      const locked = await asJson<{ fingerprints: Record<string, { size: number; sha256: string }> }>(["lock", recipe]);
      expect(locked.code).toBe(0);
      for (const name of ["F01.dng", "F02.dng"]) {
        const bytes = readFileSync(join(folder, "store", name));
        expect(locked.json.fingerprints[name]).toEqual({ size: bytes.length, sha256: sha256(bytes) });
      }
      // Fetched: the same lock is good for the bytes.
      for (const name of ["F01.dng", "F02.dng"]) {
        rmSync(scan(name));
        renameSync(join(folder, "store", name), scan(name));
      }
      expect((await rollbook(["check", recipe])).out).toMatch(/: no problems\.\n$/);
      const rendered = await rollbook(["render", recipe, "-o", join(folder, "out")]);
      expect([rendered.code, rendered.out]).toEqual([0, "4 pictures written.\n"]);
      expect(statSync(join(folder, "out")).isDirectory()).toBe(true);
      // Another scan in its place is refused.
      writeFileSync(scan("F01.dng"), readFileSync(scan("F02.dng")));
      const changed = await rollbook(["render", recipe, "-o", join(folder, "out"), "--frames", "01"]);
      expect([changed.code, changed.err]).toEqual([1, expect.stringMatching(/F01\.dng/) as string]);
    },
  );
});
