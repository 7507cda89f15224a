import { appendFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "../../../properties.ts";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { parseShard, selectFrames, shardOf } from "../../../../extension/work/frame/select-frames.ts";
import { hashOf } from "../../../../extension/work/files/content-hash.ts";
import { openJournal, type PictureRecord } from "../../../../extension/work/render/journal.ts";
import { openWorkspace, workspaceOf } from "../../../../extension/work/files/workspace.ts";

let folder = "";
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), "records-"))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("choosing frames", () => {
  const ids = ["00", "01", "02", "11", "12", "12A", "13", "36"];

  it("understands numbers, letters and ranges in the film's order", () => {
    expect(selectFrames(ids, "1")).toEqual(["01"]);
    expect(selectFrames(ids, "12a")).toEqual(["12A"]);
    expect(selectFrames(ids, "1-12, 36")).toEqual(["01", "02", "11", "12", "36"]);
    expect(selectFrames(ids, "12-13")).toEqual(["12", "12A", "13"]);
    expect(selectFrames(ids, "36,00")).toEqual(["00", "36"]);
  });

  it("says what it does not understand or find", () => {
    expect(() => selectFrames(ids, "40")).toThrow("There is no frame 40 in this roll; its frames are 00 to 36.");
    expect(() => selectFrames(ids, "1-")).toThrow('"1-" is not a frame');
    expect(() => selectFrames(ids, "13-12")).toThrow("no frame 13-12");
    expect(() => selectFrames([], "1")).toThrow("its frames are none");
  });

  it("shares frames out so that every frame is in one share", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 9 }), (frames, count) => {
        const all = Array.from({ length: frames }, (_, i) => i);
        const shares = Array.from({ length: count }, (_, k) => shardOf(all, { index: k + 1, count }));
        expect(shares.flat().toSorted((a, b) => a - b)).toEqual(all);
        const sizes = shares.map((s) => s.length);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
    expect(parseShard("2/5")).toEqual({ index: 2, count: 5 });
    for (const bad of ["0/4", "5/4", "1", "a/b", "1/0", "-1/3"]) expect(() => parseShard(bad)).toThrow("not a share");
  });
});

describe("the journal", () => {
  const record: PictureRecord = { roll: "../a.roll.yaml", frame: "01", output: "web", file: "web/a-01.jpg", key: "k" };
  const done = { bytes: 3, sha256: "ab" };

  it("knows the newest record of a file, whoever wrote it", () => {
    const journal = openJournal(folder, "a");
    journal.add(record);
    expect(openJournal(folder, "b").of(record.file)).toEqual(record);
    journal.add({ ...record, done });
    expect(openJournal(folder, "a.1-of-2").of(record.file)).toEqual({ ...record, done });
    expect(journal.of("web/other.jpg")).toBeUndefined();
  });

  it("skips torn and foreign lines, and goes on after them", () => {
    openJournal(folder, "a").add(record);
    const file = join(folder, ".rollbook", "a.jsonl");
    appendFileSync(file, '{"roll":"../a.roll.ya');
    const journal = openJournal(folder, "a");
    expect(journal.of(record.file)).toEqual(record);
    journal.add({ ...record, done });
    appendFileSync(file, 'null\n[]\n{"file":5}\n{"roll":1,"frame":2,"output":3,"file":"web/a-01.jpg","key":4}\n');
    expect(openJournal(folder, "a").of(record.file)).toEqual({ ...record, done });
  });

  it("makes no folder before there is something to say", () => {
    openJournal(folder, "a");
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe("hashes of recipes", () => {
  it("follow the values, not the order of keys", () => {
    expect(hashOf({ a: 1, b: [1, { c: 2, d: undefined }] })).toBe(hashOf({ b: [1, { c: 2 }], a: 1 }));
    expect(hashOf({ a: 1 })).not.toBe(hashOf({ a: "1" }));
    expect(hashOf([1, 23])).not.toBe(hashOf([12, 3]));
    // SHA-256 of the text "null", from FIPS 180-4 by way of any other implementation.
    expect(hashOf(undefined)).toBe("74234e98afe7498fb5daf1f36ac2d78acc339464f950703b8c019892f982b90b");
  });
});

describe("the workspace", () => {
  it("is the nearest folder with .git, or the one above the recipe's", () => {
    const rolls = join(folder, "archive", "2026", "harbour");
    mkdirSync(rolls, { recursive: true });
    const recipe = join(rolls, "h.roll.yaml");
    expect(workspaceOf(recipe).root).toBe(join(folder, "archive", "2026"));
    writeFileSync(join(folder, "archive", ".git"), "gitdir: elsewhere\n");
    expect(workspaceOf(recipe).root).toBe(join(folder, "archive"));
    expect(workspaceOf(recipe).inside(recipe)).toBe("2026/harbour/h.roll.yaml");
  });

  it("lets nothing lead out of it, neither by dots nor by links", async () => {
    const root = join(folder, "work");
    mkdirSync(join(root, "scans"), { recursive: true });
    writeFileSync(join(folder, "secret.txt"), "secret");
    symlinkSync(folder, join(root, "scans", "way-out"));
    symlinkSync(join(root, "scans"), join(root, "inner"));
    const workspace = openWorkspace(root);
    for (const path of ["../secret.txt", "/etc/passwd", "scans/../../secret.txt", "scans/way-out/secret.txt"]) {
      expect(() => workspace.absolute(path)).toThrow("leads out of the workspace");
      expect(await workspace.read(path)).toBeUndefined();
      expect(await workspace.exists(path)).toBe(false);
      expect(await workspace.list(path)).toBeUndefined();
    }
    writeFileSync(join(root, "scans", "a.txt"), "fine");
    expect(await workspace.read("inner/a.txt")).toBe("fine");
    expect(workspace.absolute("scans/not-there-yet.dng")).toBe(join(root, "scans", "not-there-yet.dng"));
    expect(await workspace.list("scans")).toEqual(["a.txt", "way-out"]);
  });
});
