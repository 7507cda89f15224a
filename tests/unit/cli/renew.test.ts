/** `new --update`, as a user runs it: automatic values renewed, a person's kept and named. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { applyChanges, editRecipe, type Edit } from "../../../extension/recipe/edit/edit.ts";
import { ROLL_UNITS, valueDigest } from "../../../extension/work/new-roll/renew/automatic-values.ts";
import { writeRoll } from "../work/new-roll/rolls.ts";
import { asJson, rollbook } from "./command.ts";

let folder = "";
const ROLL = "r.roll.yaml";
const inFolder = () => ({ cwd: folder });
const recipe = (): string => readFileSync(join(folder, ROLL), "utf8");
const edit = (edits: readonly Edit[]): void =>
  writeFileSync(join(folder, ROLL), applyChanges(recipe(), editRecipe(recipe(), edits, { kind: "roll" })));

interface Renewed {
  ok: boolean;
  written: boolean;
  renewed: { group: string; value: string; stated: object; found: Record<string, unknown> }[];
  kept: { value: string; frame?: string; reason: string; stated: object; found: object }[];
}

beforeAll(async () => {
  folder = writeRoll({ shots: [{ of: "portrait" }, { of: "street", stops: 0.4 }] });
  await rollbook(["new", "scans", "--stock", "film.stock.yaml", "-o", ROLL], inFolder());
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("new --update", () => {
  it("reports first, then renews what nobody touched, and names what a person changed", async () => {
    const flare = { path: ["light", "flare"], value: [0.001, 0.001, 0.001] };
    const unit = ROLL_UNITS.find(({ name }) => name === "flare")!;
    edit([
      flare,
      { path: ["automatic", "roll", "flare"], value: valueDigest([flare.value])! },
      { path: ["frames", "02", "positive", "exposure"], value: 0.95 },
    ]);
    expect(unit.paths).toEqual([flare.path]);
    const before = recipe();
    const dry = await asJson<Renewed>(["new", "--update", ROLL, "--dry-run"], inFolder());
    expect([dry.code, dry.json.written, recipe()]).toEqual([0, false, before]);
    const only = ["new", "scans", "--update", ROLL, "--only", "base,filtration,exposure,area"];
    const { code, json } = await asJson<Renewed>(only, inFolder());
    expect([code, json.ok, json.written]).toEqual([0, true, true]);
    expect(json.renewed).toEqual(dry.json.renewed);
    expect(json.renewed[0]).toMatchObject({ group: "base", value: "flare", stated: { "light.flare": flare.value } });
    expect(json.kept).toEqual([
      {
        group: "exposure",
        value: "exposure",
        frame: "02",
        reason: "changed",
        stated: { "frames.02.positive.exposure": 0.95 },
        found: expect.anything() as unknown,
      },
    ]);
    expect(recipe()).toContain("exposure: 0.95");
    expect(recipe()).not.toContain("flare: [0.001, 0.001");
    expect((await rollbook(["format", "--check", ROLL], inFolder())).code).toBe(0);
    const plain = await rollbook(["new", "--update", ROLL, "--only", "exposure"], inFolder());
    expect(plain.out).toMatch(/^kept {5}frame 02 exposure {6}0\.95, changed since; found \S+$/m);
    expect(plain.out).toContain(`${ROLL} was not changed: 0 renewed, 1 kept.`);
  }, 180_000);

  it("renews a person's values too when it is told to", async () => {
    const { json } = await asJson<Renewed>(["new", "--update", ROLL, "--only", "exposure", "--overwrite"], inFolder());
    expect(json.renewed.map(({ value }) => value)).toEqual(["exposure"]);
    expect(json.kept).toEqual([]);
    expect(recipe()).not.toContain("0.95");
  });

  it("refuses what makes no sense with exit code 2, and touches nothing", async () => {
    const before = recipe();
    const calls = [
      [["--update", ROLL, "--only", "colour"], "--only takes some of base, filtration, exposure, area, not"],
      [["--update", ROLL, "-o", "other.roll.yaml"], "--out is for a new roll"],
      [["--update", ROLL, "--stock", "film.stock.yaml"], "--stock is for a new roll"],
      [["--update", "no.roll.yaml"], "There is no recipe no.roll.yaml"],
      [["--update", "film.stock.yaml"], "does not end in .roll.yaml"],
      [["elsewhere", "--update", ROLL], "Leave the folder out"],
      [["scans", "-o", "n.roll.yaml", "--only", "base"], "--only goes with --update"],
      [["-o", "n.roll.yaml"], "needs the folder of the scans"],
    ] as const;
    for (const [args, said] of calls) {
      const { code, err } = await rollbook(["new", ...args], inFolder());
      expect(err).toContain(said);
      expect(code).toBe(2);
    }
    expect(recipe()).toBe(before);
  });
});
