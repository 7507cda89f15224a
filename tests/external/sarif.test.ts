/**
 * Problems and findings in SARIF, against the published JSON Schema of SARIF 2.1.0 (OASIS; the file of SchemaStore as
 * carried by @microsoft/jest-sarif 1.0.0-beta.0).
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv } from "ajv";
import type { Log } from "sarif";
import { afterAll, beforeAll, expect, test } from "vitest";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { rollbook } from "../unit/cli/command.ts";

const published = readFileSync(new URL("../reference/sarif/sarif-2.1.0-rtm.5.json", import.meta.url), "utf8");
/** The schema is of draft 04, of which it uses nothing that later drafts read otherwise but the name of its own id. */
const { $schema: _, id, ...rest } = JSON.parse(published) as { $schema: string; id: string };
const validate = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile({ $id: id, ...rest });

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "sarif-"));
  makeRoll(folder, "harbour", { width: 192, height: 128, frames: 2 });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const written = (): Log => JSON.parse(readFileSync(join(folder, "log.sarif"), "utf8")) as Log;
function expectValid(log: Log): void {
  validate(log);
  expect(validate.errors).toBe(null);
}

test("the schema refuses what is no log", () => {
  expect(published).not.toContain("exclusiveM"); // the other difference between the drafts
  for (const wrong of [{}, { version: "2.0.0", runs: [] }, { version: "2.1.0", runs: [{ results: [] }] }])
    expect(validate(wrong)).toBe(false);
});

test("check --sarif, with problems of every severity and a name that a URI must escape", async () => {
  const name = "näss & quay.roll.yaml";
  const text =
    "version: 1\nlight: { blank: LIGHT.dng }\nscans: scans\nnegative: { base: { density: [0.7, 0.6, 0.3] } }\n" +
    'frames:\n  "01": { scan: none.dng }\n  "02": { scann: F02.dng }\n';
  writeFileSync(join(folder, name), text);
  const { code } = await rollbook(["check", name, "harbour.roll.yaml", "--sarif", "log.sarif"], { cwd: folder });
  expect(code).toBe(1);
  const log = written();
  expectValid(log);
  expect(new Set(log.runs[0].results?.map(({ level }) => level))).toEqual(new Set(["error", "warning", "note"]));
  expect(log.runs[0].results?.[0].locations?.[0].physicalLocation?.artifactLocation?.uri).toBe(
    "n%C3%A4ss%20&%20quay.roll.yaml",
  );
});

test("check --sarif without a problem", async () => {
  expect((await rollbook(["check", "harbour.roll.yaml", "--sarif", "log.sarif"], { cwd: folder })).code).toBe(0);
  expectValid(written());
  expect(written().runs[0].results).toEqual([]);
});

test("survey --sarif, each finding at its frame's line or at the recipe", { timeout: 600_000 }, async () => {
  const { out, err } = await rollbook(["survey", "harbour.roll.yaml", "--sarif", "log.sarif"], { cwd: folder });
  expect(err).toBe("");
  const log = written();
  expectValid(log);
  const results = log.runs[0].results ?? [];
  expect(results.map(({ ruleId }) => `[${ruleId}]`)).toEqual(out.match(/\[[a-z-]+\]/g));
  const lines = readFileSync(join(folder, "harbour.roll.yaml"), "utf8").split("\n");
  const placed = results.filter(({ locations }) => locations?.[0].physicalLocation?.region !== undefined);
  expect(placed.length).toBeGreaterThan(0);
  for (const { locations } of placed) {
    const { startLine, startColumn, endColumn } = locations![0].physicalLocation!.region!;
    expect(lines[startLine! - 1].slice(startColumn! - 1, endColumn! - 1)).toMatch(/^"0[12]"$/);
  }
});
