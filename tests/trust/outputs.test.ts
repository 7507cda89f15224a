/** What the command writes over, and what it never does. */
import { execFileSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import { symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { type Ended, run, start } from "../faults/stage.ts";
import { fingerprints } from "../unit/cli/command.ts";

const home = mkdtempSync(join(tmpdir(), "outputs-"));
const model = join(home, "model");
let root = "";
let roll = "";
let count = 0;
beforeAll(() => {
  makeRoll(model, "a", { width: 96, height: 64, frames: 2 });
  execFileSync("git", ["init", "-q", model]);
}, 60_000);
beforeEach(() => {
  root = join(home, `roll-${++count}`);
  cpSync(model, root, { recursive: true });
  roll = join(root, "a.roll.yaml");
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const rollbook = (args: readonly string[]): Promise<Ended> => run(args, { cwd: root });

interface Writer {
  readonly args: (file: string) => readonly string[];
  readonly ending: string;
  /** Its own earlier output is replaced without being asked. */
  readonly again: boolean;
}
const writers: Readonly<Record<string, Writer>> = {
  "survey --html": { args: (file) => ["survey", "a.roll.yaml", "--html", file], ending: ".html", again: true },
  "review --html": { args: (file) => ["review", "--words", "--html", file], ending: ".html", again: true },
  "review --markdown": { args: (file) => ["review", "--words", "--markdown", file], ending: ".md", again: true },
  contact: { args: (file) => ["contact", "a.roll.yaml", "-o", file], ending: ".jpg", again: true },
  stock: { args: (file) => ["stock", "a.roll.yaml", "-o", file], ending: ".stock.yaml", again: false },
  new: { args: (file) => ["new", "scans", "-o", file], ending: ".roll.yaml", again: false },
};

describe.each(Object.entries(writers))("%s", (_name, { args, ending, again }) => {
  const name = `own${ending}`;

  test("replaces nobody's file unless asked to, and its own while nobody has changed it", async () => {
    writeFileSync(join(root, name), "somebody's own");
    const refused = await rollbook(args(name));
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/own\.\S+ (exists already|is there already).*--overwrite/);
    expect(readFileSync(join(root, name), "utf8")).toBe("somebody's own");
    const done = await rollbook([...args(name), "--overwrite"]);
    expect(done.code).toBeLessThan(2);
    const first = readFileSync(join(root, name));
    expect(first.toString("utf8")).not.toBe("somebody's own");
    expect((await rollbook(args(name))).code! < 2).toBe(again);
    writeFileSync(join(root, name), Buffer.concat([first, Buffer.from(" ")]));
    expect((await rollbook(args(name))).code).toBe(2);
    expect(readFileSync(join(root, name)).length).toBe(first.length + 1);
  }, 90_000);

  test("writes no scan, recipe, stock, folder, pipe or device, not even with --overwrite", async () => {
    writeFileSync(join(root, "b.stock.yaml"), "version: 1\ntitle: Kept\n");
    mkdirSync(join(root, `folder${ending}`));
    execFileSync("mkfifo", [join(root, `pipe${ending}`)]);
    const before = fingerprints(join(root, "scans"));
    const targets = ["scans/F02.dng", "a.roll.yaml", "b.stock.yaml", `folder${ending}`, `pipe${ending}`, "/dev/stdout"];
    for (const target of targets.filter((file) => !file.endsWith(ending) || /^(folder|pipe)/.test(file))) {
      const ended = await rollbook([...args(target), "--overwrite"]);
      expect(ended.code).toBe(2);
      expect(ended.err).not.toMatch(/\n\s+at |E[A-Z]{3,}:/);
    }
    expect(fingerprints(join(root, "scans"))).toEqual(before);
    expect(readFileSync(join(root, "b.stock.yaml"), "utf8")).toContain("Kept");
    expect(readFileSync(roll, "utf8")).toBe(readFileSync(join(model, "a.roll.yaml"), "utf8"));
    expect(statSync(join(root, `pipe${ending}`)).isFIFO()).toBe(true);
  }, 90_000);

  test("follows no link, and says what to do where it cannot write", async () => {
    writeFileSync(join(home, "private"), "private");
    symlinkSync(join(home, "private"), join(root, name));
    expect((await rollbook(args(name))).code).toBe(2);
    await rollbook([...args(name), "--overwrite"]);
    expect(readFileSync(join(home, "private"), "utf8")).toBe("private");
    const ended = await rollbook(args(`/proc/x/y/own${ending}`));
    expect(ended.code).toBe(2);
    expect(ended.err).toMatch(/\. [A-Z][^.]+\.\n$/); // what happened, and what to do
    expect(ended.err).not.toMatch(/\n\s+at |E[A-Z]{3,}:/);
  }, 90_000);
});

describe("contact", () => {
  test("leaves a finished picture among the scans alone, though no recipe names it", async () => {
    writeFileSync(join(root, "scans", "F09.tif"), "a scan to come");
    const ended = await rollbook(["contact", "a.roll.yaml", "-o", "scans/F09.tif", "--overwrite"]);
    expect(ended.code).toBe(2);
    expect(readFileSync(join(root, "scans", "F09.tif"), "utf8")).toBe("a scan to come");
  }, 60_000);
});

describe("verbs that change a recipe", () => {
  test("calibrate --write takes recipes of the workspace alone", async () => {
    const table = join(root, "curve.csv");
    writeFileSync(table, "logH,density\n-3,0.2\n-2.5,0.25\n-2,0.5\n-1.5,0.9\n-1,1.3\n-0.5,1.7\n0,2.0\n0.5,2.1\n");
    writeFileSync(join(root, "notes.yaml"), "version: 1\n");
    writeFileSync(join(home, "outside.stock.yaml"), "version: 1\ntitle: Outside\n");
    symlinkSync(join(home, "outside.stock.yaml"), join(root, "link.stock.yaml"));
    for (const file of ["notes.yaml", "link.stock.yaml", "scans/F01.dng", "missing.stock.yaml"])
      expect((await rollbook(["calibrate", "curve", table, "--write", file])).code).toBe(2);
    expect(readFileSync(join(home, "outside.stock.yaml"), "utf8")).toBe("version: 1\ntitle: Outside\n");
    expect(readFileSync(join(root, "notes.yaml"), "utf8")).toBe("version: 1\n");
  }, 60_000);

  test.each([["format"], ["lock"], ["base", "--write"], ["check"], ["join", "--write"]])(
    "%s refuses a link that leaves the workspace",
    async (verb, ...options) => {
      const outside = join(home, `outside-${verb}.roll.yaml`);
      writeFileSync(outside, "title:   Outside\nversion: 1\n");
      symlinkSync(outside, join(root, "link.roll.yaml"));
      const ended = await rollbook([verb, "link.roll.yaml", ...options]);
      expect(ended).toMatchObject({ code: 2, err: expect.stringContaining("leads out of the workspace") });
      expect(readFileSync(outside, "utf8")).toBe("title:   Outside\nversion: 1\n");
    },
    60_000,
  );
});

describe("render", () => {
  const big = { width: 900, height: 600, frames: 2, output: "  - { name: web, type: tiff, depth: 16 }" };

  test("does not replace a file that appears where a picture will be, now or in the next run", async () => {
    makeRoll(root, "a", big);
    const started = start(["render", "a.roll.yaml", "-o", "out", "--workers", "1"], { cwd: root });
    await until(() => existsSync(join(root, "out", "web")));
    writeFileSync(join(root, "out", "web", "a-02.tif"), "my own");
    const ended = await started.ended;
    expect(ended.code).toBe(1);
    expect(ended.err).toMatch(/frame 02 .*exists already/);
    expect((await rollbook(["render", "a.roll.yaml", "-o", "out"])).code).toBe(1);
    expect(readFileSync(join(root, "out", "web", "a-02.tif"), "utf8")).toBe("my own");
  }, 90_000);

  test.each(["out/web", "out"])(
    "notices that %s was exchanged for a link to elsewhere",
    async (folder) => {
      makeRoll(root, "a", { ...big, frames: 6 });
      const elsewhere = join(home, `elsewhere-${count}`);
      mkdirSync(join(elsewhere, "web"), { recursive: true });
      const started = start(["render", "a.roll.yaml", "-o", "out", "--workers", "1"], { cwd: root });
      // A link that was there before the first frame is the user's own, and is followed.
      await until(() => existsSync(join(root, "out", "web")) && readdirSync(join(root, "out", "web")).length > 0);
      renameSync(join(root, folder), join(root, "moved"));
      symlinkSync(folder === "out" ? elsewhere : join(elsewhere, "web"), join(root, folder));
      expect((await started.ended).code).toBe(1);
      expect(Object.keys(fingerprints(elsewhere))).toEqual([]);
    },
    90_000,
  );

  test("refuses another recipe of the same name before its first frame", async () => {
    cpSync(model, join(root, "other"), { recursive: true, filter: (from) => !from.endsWith(".git") });
    const both = await Promise.all([
      rollbook(["render", "a.roll.yaml", "-o", "out"]),
      rollbook(["render", "other/a.roll.yaml", "-o", "out"]),
    ]);
    expect(both.map(({ code }) => Number(code)).toSorted((a, b) => a - b)).toEqual([0, 2]);
    const refused = both.find(({ code }) => code === 2);
    expect(refused?.err).toMatch(/those of another recipe, .*a\.roll\.yaml\. Choose another folder/);
    expect(refused?.out).toBe("");
    const first = both[0].code === 0 ? "a.roll.yaml" : "other/a.roll.yaml";
    expect((await rollbook(["render", first, "-o", "out", "--shard", "1/2"])).code).toBe(0);
    // A recipe that is gone holds its names no longer.
    renameSync(join(root, first), join(root, "moved.roll.yaml"));
    const second = first === "a.roll.yaml" ? "other/a.roll.yaml" : "a.roll.yaml";
    expect((await rollbook(["render", second, "-o", "out"])).err).not.toContain("another recipe");
  }, 120_000);

  test("takes the same picture by another run of the roll for its own", async () => {
    const both = await Promise.all([1, 2].map(() => rollbook(["render", "a.roll.yaml", "-o", "out"])));
    expect(both.map(({ code }) => code)).toEqual([0, 0]);
  }, 60_000);

  test("never writes over a scan that is linked into the folder", async () => {
    mkdirSync(join(root, "out", "web"), { recursive: true });
    linkSync(join(root, "scans", "F01.dng"), join(root, "out", "web", "a-01.jpg"));
    const before = fingerprints(join(root, "scans"));
    expect((await rollbook(["render", "a.roll.yaml", "-o", "out", "--overwrite"])).code).toBe(1);
    expect(fingerprints(join(root, "scans"))).toEqual(before);
  }, 60_000);
});

async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 3000 && !holds(); i++) await new Promise((resolve) => setTimeout(resolve, 10));
}
