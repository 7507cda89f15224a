/** The schemas as the command gives them, and problems in SARIF. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv } from "ajv";
import type { Log } from "sarif";
import { parse } from "yaml";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { asJson, rollbook } from "./command.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "schema-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("schema", () => {
  it.each(["roll", "stock"])("of a %s has a stable name, and judges recipes by itself", async (kind) => {
    const { code, out } = await rollbook(["schema", kind]);
    expect(code).toBe(0);
    const schema = JSON.parse(out) as { $id: string };
    expect(schema.$id).toBe(`urn:rollbook:${kind}:1`);
    const judge = new Ajv({ strict: false }).compile(schema);
    const recipe =
      kind === "roll" ? { version: 1, frames: { "01": { scan: "a.dng" } } } : { version: 1, film: "slide" };
    expect([judge(recipe), judge({ version: 1, framse: {} })]).toEqual([true, false]);
  });

  it("is written to a file, and never over another unasked", async () => {
    mkdirSync(join(folder, "schemas"));
    const write = ["schema", "roll", "-o", "schemas/roll.schema.json"];
    expect((await rollbook(write, { cwd: folder })).code).toBe(0);
    expect(JSON.parse(readFileSync(join(folder, "schemas/roll.schema.json"), "utf8"))).toMatchObject({
      $id: "urn:rollbook:roll:1",
    });
    const again = await rollbook(write, { cwd: folder });
    expect([again.code, again.err]).toEqual([2, expect.stringContaining("was not touched") as string]);
    expect((await rollbook(["schema", "frame"])).err).toContain("Schemas are roll and stock");
  });

  it("has catalogue entries whose file match fits recipes", async () => {
    const { json } = await asJson<{ fileMatch: string[]; url: string }[]>(["schema", "--catalogue"]);
    expect(json.map(({ url, fileMatch }) => [url, ...fileMatch])).toEqual([
      ["urn:rollbook:roll:1", "*.roll.yaml", "*.roll.yml"],
      ["urn:rollbook:stock:1", "*.stock.yaml", "*.stock.yml"],
    ]);
  });

  it("new refuses to name a schema that is not there, before it looks at a scan", async () => {
    mkdirSync(join(folder, "scans"));
    const call = ["new", "scans", "-o", "new.roll.yaml", "--schema", "nowhere.json"];
    const { code, err } = await rollbook(call, { cwd: folder });
    expect([code, err]).toEqual([2, expect.stringContaining("There is no schema nowhere.json.") as string]);
  });
});

describe("new --schema", () => {
  it("writes the line that editors find the schema by, by its path from the recipe", { timeout: 600_000 }, async () => {
    const home = join(folder, "home");
    mkdirSync(home);
    makeRoll(join(home, "rolls"), "other", { width: 192, height: 128, frames: 2 });
    expect((await rollbook(["schema", "roll", "-o", "roll.schema.json"], { cwd: home })).code).toBe(0);
    const call = ["new", "rolls/scans", "-o", "rolls/quay.roll.yaml", "--schema", "roll.schema.json", "--root", "."];
    const made = await rollbook([...call, "--film", "colour-negative"], { cwd: home });
    expect([made.code, made.out]).toEqual([0, expect.stringMatching(/frame 02/) as string]);
    const text = readFileSync(join(home, "rolls/quay.roll.yaml"), "utf8");
    expect(text.split("\n")[0]).toBe("# yaml-language-server: $schema=../roll.schema.json");
    // The schema that the line names takes the whole recipe, and formatting leaves the line where it is.
    const judge = new Ajv({ strict: false }).compile(
      JSON.parse(readFileSync(join(home, "roll.schema.json"), "utf8")) as object,
    );
    judge(parse(text));
    expect(judge.errors).toBe(null);
    for (const verb of [["check"], ["format", "--check"]])
      expect((await rollbook([...verb, "rolls/quay.roll.yaml", "--root", "."], { cwd: home })).code).toBe(0);
    const renewed = ["new", "--update", "rolls/quay.roll.yaml", "--root", "."];
    expect((await rollbook(renewed, { cwd: home })).code).toBe(0);
    expect(readFileSync(join(home, "rolls/quay.roll.yaml"), "utf8").split("\n")[0]).toBe(text.split("\n")[0]);
  });
});

describe("check --sarif", () => {
  it("gives every problem with its place, rule and level", async () => {
    const text = 'version: 1\nframes:\n  "01":\n    scan: none.dng\n    tilt: 3\n';
    writeFileSync(join(folder, "a.roll.yaml"), text);
    const ran = await rollbook(["check", "a.roll.yaml", "--sarif", "check.sarif"], { cwd: folder });
    expect(ran.code).toBe(1);
    const log = JSON.parse(readFileSync(join(folder, "check.sarif"), "utf8")) as Log;
    expect(log.version).toBe("2.1.0");
    const [run] = log.runs;
    expect(run.tool.driver.rules?.map(({ id }) => id)).toEqual(["missing-scan", "unknown-key"]);
    const rows = run.results?.map(({ ruleId, level, locations }) => {
      const at = locations?.[0].physicalLocation;
      return [ruleId, level, at?.artifactLocation?.uri, at?.region?.startLine, at?.region?.startColumn];
    });
    expect(rows).toEqual([
      ["missing-scan", "warning", "a.roll.yaml", 4, 11],
      ["unknown-key", "error", "a.roll.yaml", 5, 5],
    ]);
    // The matcher of docs/ci reads what is printed.
    const { problemMatcher } = JSON.parse(
      readFileSync(new URL("../../../docs/ci/problem-matcher.json", import.meta.url), "utf8"),
    ) as { problemMatcher: { pattern: { regexp: string }[] }[] };
    const matcher = new RegExp(problemMatcher[0].pattern[0].regexp);
    const matched = ran.out.split("\n").flatMap((line) => matcher.exec(line)?.slice(1, 5).join(" ") ?? []);
    expect(matched).toEqual(["a.roll.yaml 4 11 warning", "a.roll.yaml 5 5 error"]);
  });
});
