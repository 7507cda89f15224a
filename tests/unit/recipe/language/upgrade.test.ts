import { expect, test } from "vitest";
import { upgradeFix } from "../../../../extension/recipe/language/upgrade.ts";
import { english } from "../../../../extension/recipe/language/types.ts";
import { open } from "./memory.ts";

const STOCK = { "n.stock.yaml": "version: 1\npositive: { toe: 0.6 }\n" };

test("the fix at the version upgrades the recipe and tells the largest difference", async () => {
  const { reading, offset } = await open("ver|sion: 1\npositive: { toe: 0.6 } # gentle\n", {});
  const fix = upgradeFix(reading, [offset, offset], english)!;
  expect(fix.title).toMatch(/^Upgrade to version 2: ΔE00 [12]\.\d at most, mid-grey stays$/);
  expect(fix.edits.edits).toHaveLength(1);
  expect(fix.edits.edits[0]!.text).toBe("version: 2\npositive: { toe: 0.05 } # gentle\n");
});

test("where only the stock states a toe, the roll's text gets another version and nothing else", async () => {
  const { reading } = await open('version: 1\nstock: n.stock.yaml|\nframes: { "01": { scan: a.dng } }\n', STOCK);
  const fix = upgradeFix(reading, [0, 0], english)!;
  expect(fix.title).toContain("ΔE00");
  expect(fix.edits.edits[0]!.text).toBe("version: 2\n");
});

test("nothing is offered elsewhere, nor where the version is the current one", async () => {
  const { reading, offset } = await open("version: 1\npositive: { toe: |0.6 }\n", {});
  expect(upgradeFix(reading, [offset, offset], english)).toBeUndefined();
  const current = await open("version: 2|\n", {});
  expect(upgradeFix(current.reading, [0, 0], english)).toBeUndefined();
});
