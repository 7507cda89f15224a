import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { AUTOMATIC_DIGESTS, migrateRecipe, type Step } from "../../../../extension/recipe/edit/versions.ts";
import { upgradeRecipe } from "../../../../extension/recipe/edit/upgrade.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { CURRENT_VERSION } from "../../../../extension/recipe/version.ts";
import { GENTLE } from "../../../../extension/engine/auto/exposure/start-tone.ts";
import { toneEndIn } from "../../../../extension/engine/film/tone-versions.ts";
import { valueDigest } from "../../../../extension/work/new-roll/renew/automatic-values.ts";

const file = "a.roll.yaml";

describe("versions of the recipe format", () => {
  test("every valid recipe becomes a valid one of the current version, and upgrading again changes nothing", () => {
    const folder = new URL("../../../corpus/valid/", import.meta.url);
    const names = readdirSync(folder);
    expect(names.length).toBeGreaterThan(5);
    for (const name of names) {
      const text = readFileSync(new URL(name, folder), "utf8");
      const now = migrateRecipe(text, { file: name });
      const { value, problems } = parseRecipe(now, { file: `rolls/${name}` });
      expect(value).toMatchObject({ version: CURRENT_VERSION });
      expect(problems.filter((p) => p.severity === "error")).toEqual([]);
      expect(migrateRecipe(now, { file: name })).toBe(now);
    }
  });

  test("an older one is led from version to version, and its comments, order and other values stay", () => {
    // Two steps that a format might once have had: a key that was renamed, and one whose unit changed.
    const steps = new Map<number, Step>([
      [
        -1,
        ({ name }) => [
          { path: ["title"], value: name ?? null },
          { path: ["name"], value: undefined },
        ],
      ],
      [
        0,
        ({ positive }) => [
          { path: ["positive", "exposure"], value: Number((positive as { exposure: number }).exposure) / 3 },
        ],
      ],
    ]);
    const old = `# kept\nversion: -1\nname: Pier # also kept\npositive:\n  contrast: 1.4\n  exposure: 3 # thirds\nframes:\n  "01": { scan: a.dng }\n`;
    const now = migrateRecipe(old, { file }, steps);
    expect(parseRecipe(now, { file }).problems.filter((p) => p.severity === "error")).toEqual([]);
    expect(parseRecipe(now, { file }).value).toMatchObject({
      version: 1,
      title: "Pier",
      positive: { contrast: 1.4, exposure: 1 },
    });
    expect(now).toContain("# kept\n");
    expect(now).toContain("# thirds");
    expect(migrateRecipe(now, { file }, steps)).toBe(now);
  });

  test("what has no step, or is no YAML, is left alone", () => {
    const steps = new Map<number, Step>([[0, () => []]]);
    for (const text of ["version: 7\n", "version: [\n", "version: one\n", "- 1\n", ""])
      expect(migrateRecipe(text, { file }, steps)).toBe(text);
  });
});

describe("version 2", () => {
  const ROLL = `version: 1
stock: a.stock.yaml
positive:
  toe: 0.6 # gentle
  shoulder: 0.7
frames:
  "01": { scan: a.dng }
  "02": { scan: b.dng, positive: { toe: 1 } }
automatic:
  roll: { toe: ${AUTOMATIC_DIGESTS.toe[1]}-zzzz, shoulder: ${AUTOMATIC_DIGESTS.shoulder[1]} }
`;
  const roll = (text: string) => parseRecipe(text, { file });
  const stock = (text: string) => parseRecipe(text, { file: "a.stock.yaml", kind: "stock" });

  test("has the nearest toe and shoulder, at the roll and at each frame, and keeps comments", () => {
    const upgrade = upgradeRecipe(roll(ROLL))!;
    const { value } = roll(upgrade.text);
    expect(value).toMatchObject({ version: 2, positive: GENTLE[2], frames: { "02": { positive: { toe: 0.34 } } } });
    expect(upgrade.text).toContain("# gentle");
    // Largest over greys and saturated colours; a difference of 1 is just seen side by side.
    expect(upgrade.difference).toBeGreaterThan(1);
    expect(upgrade.difference).toBeLessThan(3);
    expect(upgradeRecipe(roll(upgrade.text))).toBeUndefined();
  });

  test("leaves recipes that state neither as they print", () => {
    const plain = 'version: 1\npositive: { contrast: 2 }\nframes: { "01": { scan: a.dng } }\n';
    const upgrade = upgradeRecipe(roll(plain))!;
    expect(upgrade.text).toBe(plain.replace("version: 1", "version: 2"));
    expect(upgrade.difference).toBe(0);
  });

  test("goes on counting automatic values as automatic", () => {
    for (const end of ["toe", "shoulder"] as const)
      for (const version of [1, 2] as const)
        expect(AUTOMATIC_DIGESTS[end][version]).toBe(valueDigest([GENTLE[version][end]]));
    for (const end of ["toe", "shoulder"] as const) expect(toneEndIn(2, end, GENTLE[1][end], 1)).toBe(GENTLE[2][end]);
    const { value } = roll(upgradeRecipe(roll(ROLL))!.text);
    expect(value).toMatchObject({
      automatic: { roll: { toe: `${AUTOMATIC_DIGESTS.toe[2]}-zzzz`, shoulder: AUTOMATIC_DIGESTS.shoulder[2] } },
    });
  });

  test("is a file's own: a stock of the other version counts by its nearest values", () => {
    const own = 'version: 2\nstock: a.stock.yaml\nframes: { "01": { scan: a.dng } }\n';
    const old = stock("version: 1\npositive: { toe: 0.6, shoulder: 0.7 }\n");
    const upgraded = stock(upgradeRecipe(old)!.text);
    const look = resolveRoll(roll(own), old).frames[0]!.look;
    expect(look.tone).toMatchObject({ version: 2, ...GENTLE[2] });
    expect(look).toEqual(resolveRoll(roll(own), upgraded).frames[0]!.look);
    const first = resolveRoll(roll(own.replace("version: 2", "version: 1")), old).frames[0]!.look.tone;
    expect(first).toEqual({ contrast: 1.35, toe: 0.6, shoulder: 0.7, black: 0.5, points: [] });
  });
});
