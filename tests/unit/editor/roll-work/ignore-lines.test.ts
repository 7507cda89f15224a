import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { ignoreLines } from "../../../../extension/editor/roll-work/ignore-lines.ts";

const root = mkdtempSync(join(tmpdir(), "ignore-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
execFileSync("git", ["init", "-q", root]);

describe("the line for .gitignore", () => {
  it.each([
    ["pictures", ["web/a-01.jpg"]],
    ["rolls/out [new]", ["web/a-01.jpg", "web/a-02.jpg"]],
    ["!loud", ["a.jpg"]],
    ["#1", ["a.jpg"]],
    ["what? *", ["a.jpg"]],
    ["back\\slash", ["a.jpg"]],
    ["ends with a blank ", ["a.jpg"]],
    ["", ["web/a-01.jpg", "archive/a-01.tif"]],
    ["", ["a-contact.jpg"]],
  ])("hides what was written into %j from git, and nothing beside it", (folder, files) => {
    const line = ignoreLines(folder, files)!;
    writeFileSync(join(root, ".gitignore"), `${line}\n`);
    for (const file of [...files.map((name) => join(folder, name)), join(folder, "other.yaml")]) {
      mkdirSync(dirname(join(root, file)), { recursive: true });
      writeFileSync(join(root, file), "x");
    }
    const listed = execFileSync("git", ["ls-files", "--others", "--exclude-standard", "-z"], { cwd: root });
    const names = listed.toString("utf8").split("\0").filter(Boolean);
    expect(names.toSorted()).toEqual([".gitignore", join(folder, "other.yaml")].toSorted());
    for (const file of [...files, "other.yaml"]) rmSync(join(root, folder, file));
  });

  it("is none for a folder outside the repository", () => {
    expect(ignoreLines("../elsewhere", ["a.jpg"])).toBeUndefined();
  });
});
