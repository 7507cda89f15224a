/** Every verb that writes files can be asked what it would write, and then writes nothing. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verbs } from "../../../extension/cli/verbs.ts";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { asJson, fingerprints, rollbook } from "./command.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "dry-"));
  makeRoll(folder, "harbour", { width: 192, height: 128, frames: 1 });
  spawnSync("git", ["init", "-q"], { cwd: folder });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a verb with --dry-run in the folder, which must be the same afterwards. */
async function dry(...args: string[]) {
  const before = fingerprints(folder);
  const ran = await rollbook([...args, "--dry-run"], { cwd: folder });
  expect(fingerprints(folder)).toEqual(before);
  return ran;
}

describe("a dry run", () => {
  test("is offered by every verb that writes", () => {
    const source = (name: string): string => {
      for (const file of [`${name}.ts`, `${name}/index.ts`, `shell/${name}.ts`, `shell/${name}-page.ts`])
        try {
          return readFileSync(fileURLToPath(new URL(`../../../extension/cli/${file}`, import.meta.url)), "utf8");
        } catch {} // the next place
      throw new Error(`The file of ${name} was not found.`);
    };
    const writes =
      /\b(writeOutput|writeSarif|writeValues|changeRecipe|replaceRecipe|writeAtomic|recipeFile|unlink|switchOn|renderRoll|contactRoll)\(/;
    const shown = verbs.filter(({ internal }) => !internal);
    const writing = shown.filter(({ name }) => name === "calibrate" || writes.test(source(name)));
    const offering = shown.filter(({ options }) => "dry-run" in options);
    expect(offering.map(({ name }) => name)).toEqual(writing.map(({ name }) => name));
    expect(writing.map(({ name }) => name)).toEqual(expect.arrayContaining(["watch", "new", "git-setup", "check"]));
  });

  test("of watch prints how the roll would grow, and leaves nothing to go on from", { timeout: 600_000 }, async () => {
    const watch = ["watch", "scans", "-o", "quay.roll.yaml", "--once"];
    const { code, out } = await dry(...watch);
    expect(code).toBe(0);
    expect(out).toMatch(/^Would create quay\.roll\.yaml:\n\+ # Written at the copy stand/m);
    expect(out).toMatch(/^Would change quay\.roll\.yaml:\n(?:[+-] .*\n)*\+ {3}"01":\n\+ {5}scan: F01\.dng$/m);
    // A session that went on from it would take both for added already.
    const { out: again } = await dry(...watch);
    expect(again.match(/^\w+ +frame 0\d/gm)).toEqual(out.match(/^\w+ +frame 0\d/gm));
    expect(again).toContain("Would create quay.roll.yaml:");
  });

  test("of git-setup names what would be written, and what --undo would remove", { timeout: 300_000 }, async () => {
    const { code, out } = await dry("git-setup", "--only", "merge");
    expect(code).toBe(0);
    expect(out).toMatch(/^Would write:\n {2}In the clone's configuration: merge\.rollbook\.name = /);
    expect(out).toMatch(/info\/attributes: \*\.roll\.yaml, .* with merge=rollbook$/m);
    expect((await dry("git-setup", "--undo")).out).toBe("There is nothing to remove.\n");
    const real = await asJson<{ done: string[] }>(["git-setup", "--only", "merge"], { cwd: folder });
    const planned = out.split("\n").slice(1, -1);
    expect(planned).toEqual(real.json.done.map((line) => `  ${line}`));
    const undo = (await dry("git-setup", "--undo")).out;
    expect(undo).toMatch(/^Would remove:\n/);
    const undone = await rollbook(["git-setup", "--undo"], { cwd: folder });
    expect(undone.out.split("\n").slice(1)).toEqual(undo.split("\n").slice(1));
  });

  test("of check, base, join and schema name the file", { timeout: 600_000 }, async () => {
    const checked = await dry("check", "harbour.roll.yaml", "--sarif", "check.sarif");
    expect(checked.out).toMatch(/^Would write check\.sarif \(\d+ bytes\)\.$/m);
    const area = ["--scan", "LEADER.dng", "--area", "0.3,0.3,0.4,0.4"];
    const base = await dry("base", "harbour.roll.yaml", ...area, "--write");
    expect([base.code, base.out]).toEqual([0, expect.stringMatching(/^Would change harbour\.roll\.yaml:$/m)]);
    expect((await dry("join", "harbour.roll.yaml", "--write")).out).toBe("No frame has scans to be joined.\n");
    const schema = await dry("schema", "roll", "-o", "roll.schema.json");
    expect(schema.out).toMatch(/^Would write roll\.schema\.json \(\d+ bytes\)\.$/m);
  });
});
