/** Attacks by way of paths, for reading and for writing; docs/security.md has the table. */
import { execFileSync } from "node:child_process";
import {
  appendFileSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { fingerprint } from "../../extension/scans/files/fingerprint.ts";
import { framePath } from "../../extension/work/frame/frame-path.ts";
import { openJournal } from "../../extension/work/render/journal.ts";
import { planPictures } from "../../extension/work/render/picture-plan.ts";
import type { Pool } from "../../extension/work/pool/pool.ts";
import { sourcesOf } from "../../extension/work/files/sources.ts";
import { existingFile } from "../../extension/work/render/overwrite-guard.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";

let home = "";
let root = "";
let secret = "";
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "attack-"));
  root = join(home, "workspace");
  secret = join(home, "secret.dng");
  mkdirSync(join(root, "scans"), { recursive: true });
  writeFileSync(secret, "a private thing");
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

/** Paths that lead somewhere else, or to nothing that is a file, on one system or another. */
const bad: readonly [name: string, path: string][] = [
  ["the folder above", "../../secret.dng"],
  ["the folder above, by way of one that is there", "scans/../../../secret.dng"],
  ["the folder above, with the other stroke", "..\\\\..\\\\secret.dng"],
  ["absolute", "/etc/passwd"],
  ["absolute on another drive", "C:\\\\Windows\\\\win.ini"],
  ["relative to another drive", "C:secret.dng"],
  ["a network share", "\\\\\\\\server\\\\share\\\\a.dng"],
  ["a network share with strokes", "//server/share/a.dng"],
  ["a device path", "\\\\\\\\.\\\\PhysicalDrive0"],
  ["a long device path", "\\\\\\\\?\\\\C:\\\\a.dng"],
  ["a file address", "file:///etc/passwd"],
  ["a web address", "https://host.example/a.dng"],
  ["an editor's command address", "command:workbench.action.quit"],
  ["a character zero", "a.dng\\0.txt"],
  ["an escape sequence", "a\\e[2J.dng"],
  ["a C1 control character", "a\\x9b2J.dng"],
  ["a device's name", "NUL"],
  ["a device's name with an ending", "scans/com1.dng"],
  ["another stream of a file", "a.dng:hidden"],
  ["a part that ends in a dot", "scans./a.dng"],
  ["a part that ends in a blank", "scans /a.dng"],
  ["very long", "a/".repeat(2000) + "a.dng"],
];

const keys: readonly [key: string, recipe: (path: string) => string][] = [
  ["scan", (path) => `version: 1\nframes:\n  "01": { scan: "${path}" }\n`],
  ["blank", (path) => `version: 1\nlight: { blank: "${path}" }\nframes:\n  "01": { scan: a.dng }\n`],
  ["scans", (path) => `version: 1\nscans: "${path}"\nframes:\n  "01": { scan: a.dng }\n`],
  ["stock", (path) => `version: 1\nstock: "${path}"\nframes:\n  "01": { scan: a.dng }\n`],
  [
    "the scan of the base",
    (path) =>
      `version: 1\nnegative: { base: { density: [0.3, 0.6, 0.8], read: { scan: "${path}", area: [0.1, 0.1, 0.1, 0.1] } } }\nframes:\n  "01": { scan: a.dng }\n`,
  ],
];

describe.each(keys)("a path under %s", (_, recipe) => {
  test.each(bad)("that is %s is an error of the recipe, and nothing is read", async (_name, path) => {
    writeFileSync(join(root, "a.roll.yaml"), recipe(path));
    const asked: string[] = [];
    const workspace = openWorkspace(root);
    const files = {
      ...workspace,
      read: (at: string) => (asked.push(at), workspace.read(at)),
    };
    const loaded = await loadRoll("a.roll.yaml", files);
    const errors = loaded?.problems.filter((p) => p.severity === "error").map((p) => p.code) ?? [];
    expect(errors.length).toBeGreaterThan(0);
    for (const code of errors) expect(["unsafe-path", "yaml-syntax"]).toContain(code);
    expect(asked).toEqual(["a.roll.yaml"]);
  });
});

const ROLL = `version: 1
scans: scans
output: [{ name: web, type: png }]
frames: { "01": { scan: a.dng } }
`;

async function roll(text = ROLL) {
  writeFileSync(join(root, "a.roll.yaml"), text);
  const workspace = openWorkspace(root);
  const loaded = await loadRoll("a.roll.yaml", workspace);
  if (!loaded?.resolved) throw new Error("The test's own recipe cannot be read.");
  return { workspace, resolved: loaded.resolved, loaded };
}

describe("links inside the workspace that lead out", () => {
  test("a scan", async () => {
    symlinkSync(secret, join(root, "scans", "a.dng"));
    const { resolved, workspace } = await roll();
    expect(() => framePath(resolved.frames[0], workspace)).toThrow("leads out of the workspace");
  });

  test("the scans folder", async () => {
    rmSync(join(root, "scans"), { recursive: true });
    symlinkSync(home, join(root, "scans"));
    const { resolved, workspace, loaded } = await roll(ROLL.replace("a.dng", "secret.dng"));
    expect(() => framePath(resolved.frames[0], workspace)).toThrow("leads out of the workspace");
    // Not even whether the file is there is told.
    expect(loaded.problems.map((p) => p.code)).toContain("missing-scan");
  });

  test("a stock and a chain of links", async () => {
    writeFileSync(join(home, "s.stock.yaml"), "version: 1\ntitle: Secret\n");
    symlinkSync(join(home, "s.stock.yaml"), join(root, "one.stock.yaml"));
    symlinkSync("one.stock.yaml", join(root, "two.stock.yaml"));
    symlinkSync("loop.stock.yaml", join(root, "loop.stock.yaml"));
    for (const name of ["one", "two", "loop"]) {
      const { resolved } = await roll(`stock: ${name}.stock.yaml\n${ROLL}`);
      expect(resolved.stock?.title).toBeUndefined();
    }
  });

  test("a link that stays inside is followed", async () => {
    writeFileSync(join(root, "scans", "b.dng"), "scan");
    symlinkSync("b.dng", join(root, "scans", "a.dng"));
    const { resolved, workspace } = await roll();
    expect(readFileSync(framePath(resolved.frames[0], workspace), "utf8")).toBe("scan");
  });
});

describe.skipIf(process.platform === "win32")("what is no file", () => {
  test("a pipe by the name of a scan, a stock or a recipe is refused at once", async () => {
    const pipe = join(root, "scans", "a.dng");
    execFileSync("mkfifo", [pipe, join(root, "s.stock.yaml")]);
    await expect(decodeScan(pipe)).rejects.toMatchObject({ code: "not-a-file" });
    await expect(fingerprint(pipe)).rejects.toMatchObject({ code: "not-a-file" });
    const { loaded } = await roll(`stock: s.stock.yaml\n${ROLL}`);
    expect(loaded.problems.map((p) => p.code)).toContain("missing-stock");
  }, 5000);

  test("a device is refused, however it is called", async () => {
    for (const device of ["/dev/zero", "/dev/null"]) {
      await expect(decodeScan(device)).rejects.toMatchObject({ code: "not-a-file" });
      await expect(fingerprint(device)).rejects.toMatchObject({ code: "not-a-file" });
    }
  });
});

describe("writing", () => {
  const pool = { run: (_job: unknown, { path }: { path: string }) => fingerprint(path) } as unknown as Pool;
  const out = (): string => join(root, "pictures");

  async function look(overwrite = false, text = ROLL, directory = out()) {
    const { resolved, workspace } = await roll(text);
    const [picture] = planPictures(resolved, resolved.frames[0], workspace, directory, resolved.outputs);
    const sources = sourcesOf(resolved, workspace);
    const journal = openJournal(directory, "a");
    return existingFile(
      { directory, record: picture.record, sources, scans: join(root, "scans"), overwrite },
      journal,
      pool,
    );
  }

  test.each(["..", "../x", "a/b", "/tmp", "C:", "con", "a\\0", "a\\e[2J", "x".repeat(64), "", ".rollbook", "web "])(
    "an output called %j is an error of the recipe",
    async (name) => {
      const { loaded } = await roll(ROLL.replace("web", JSON.stringify(name).replaceAll("\\\\", "\\")));
      expect(loaded.problems.filter((p) => p.severity === "error").length).toBeGreaterThan(0);
    },
  );

  test.each(["../01", "01/../../x", "01 ", "a b", "con", "1\\0"])(
    "a frame called %j is an error of the recipe",
    async (name) => {
      const { loaded } = await roll(ROLL.replace("01", name));
      expect(loaded.problems.filter((p) => p.severity === "error").length).toBeGreaterThan(0);
    },
  );

  test("somebody else's file is not replaced, nor with --overwrite a folder", async () => {
    mkdirSync(join(out(), "web"), { recursive: true });
    writeFileSync(join(out(), "web", "a-01.png"), "my own");
    await expect(look()).rejects.toMatchObject({ code: "exists" });
    expect(await look(true)).toMatchObject({ current: false });
    rmSync(join(out(), "web", "a-01.png"));
    mkdirSync(join(out(), "web", "a-01.png"));
    await expect(look(true)).rejects.toMatchObject({ code: "protected" });
  });

  test("scans and recipes are never replaced: not by name, link, hard link or another spelling", async () => {
    mkdirSync(join(out(), "web"), { recursive: true });
    const target = join(out(), "web", "a-01.png");
    writeFileSync(join(root, "scans", "a.dng"), "the scan");
    symlinkSync(join(root, "scans", "a.dng"), target);
    await expect(look(true)).rejects.toMatchObject({ code: "protected" });
    rmSync(target);
    linkSync(join(root, "scans", "a.dng"), target);
    await expect(look(true)).rejects.toMatchObject({ code: "protected" });
    rmSync(target);
    writeFileSync(join(root, "a.roll.yaml"), ROLL);
    linkSync(join(root, "a.roll.yaml"), target);
    // Written again, the recipe is a new file; the link is to the one that is read.
    const { resolved, workspace } = await roll();
    rmSync(target);
    linkSync(join(root, "a.roll.yaml"), target);
    const [picture] = planPictures(resolved, resolved.frames[0], workspace, out(), resolved.outputs);
    const sources = sourcesOf(resolved, workspace);
    const options = { directory: out(), record: picture.record, sources, scans: join(root, "scans"), overwrite: true };
    await expect(existingFile(options, openJournal(out(), "a"), pool)).rejects.toMatchObject({ code: "protected" });
  });

  test("an output's folder that is a link to another place is refused, also when that is empty", async () => {
    mkdirSync(out());
    mkdirSync(join(home, "elsewhere"));
    symlinkSync(join(home, "elsewhere"), join(out(), "web"));
    await expect(look(true)).rejects.toMatchObject({ code: "protected" });
    // The folder that the user names may be a link itself.
    rmSync(join(out(), "web"));
    symlinkSync(out(), join(home, "shelf"));
    expect(await look(false, ROLL, join(home, "shelf"))).toBeUndefined();
  });

  test("a journal that is a link is not written to", () => {
    mkdirSync(join(out(), ".rollbook"), { recursive: true });
    symlinkSync(secret, join(out(), ".rollbook", "a.jsonl"));
    expect(() => openJournal(out(), "a")).toThrow("is a link");
    // Another's, that is one, is not read either.
    expect(openJournal(out(), "b").of("x")).toBeUndefined();
    rmSync(join(out(), ".rollbook"), { recursive: true });
    symlinkSync(home, join(out(), ".rollbook"));
    expect(() => openJournal(out(), "b")).toThrow("is a link");
    expect(readFileSync(secret, "utf8")).toBe("a private thing");
  });

  test("a forged journal gives no right to another's picture", async () => {
    mkdirSync(join(out(), "web"), { recursive: true });
    mkdirSync(join(out(), ".rollbook"));
    writeFileSync(join(out(), "web", "a-01.png"), "another roll's");
    const line = { roll: "../other.roll.yaml", frame: "01", output: "web", file: "web/a-01.png", key: "k" };
    const { sha256 } = await fingerprint(join(out(), "web", "a-01.png"));
    appendFileSync(
      join(out(), ".rollbook", "z.jsonl"),
      `${JSON.stringify({ ...line, done: { bytes: 14, sha256 } })}\n`,
    );
    await expect(look()).rejects.toMatchObject({ code: "exists" });
  });
});
