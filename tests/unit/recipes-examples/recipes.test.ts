import { readFile, readdir } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { formatRecipe } from "../../../extension/recipe/edit/layout/format.ts";
import { loadRoll, type RecipeFiles } from "../../../extension/recipe/resolve/workspace.ts";
import { parseRecipe } from "../../../extension/recipe/problems/document.ts";
import { PICTURE_WIDTH, ROLLS } from "../../../recipes-examples/roll-plan.ts";

const root = dirname(dirname(dirname(dirname(fileURLToPath(import.meta.url)))));
const examples = join(root, "recipes-examples");

async function recipes(): Promise<string[]> {
  const all = await readdir(examples, { recursive: true });
  return all.filter((f) => f.endsWith(".yaml")).map((f) => `recipes-examples/${f.replaceAll("\\", "/")}`);
}

/** The examples' folder with every scan of the plan in place. */
const files: RecipeFiles = {
  read: (path) => readFile(join(root, path), "utf8").catch(() => undefined),
  exists: () => Promise.resolve(true),
  list: () => Promise.resolve(ROLLS.flatMap((r) => [r.blank, r.leader, ...r.shots.map((s) => s.scan)])),
};

describe("the example recipes", () => {
  it("are valid, without a warning, and in canonical layout", async () => {
    const found = await recipes();
    expect(found.length).toBeGreaterThanOrEqual(4);
    for (const file of found) {
      const text = await readFile(join(root, file), "utf8");
      expect({ file, problems: parseRecipe(text, { file }).problems }).toEqual({ file, problems: [] });
      expect({ file, text: formatRecipe(text, { file }) }).toEqual({ file, text });
    }
  });

  for (const roll of ROLLS) {
    const path = `recipes-examples/${roll.folder}/${roll.folder}.roll.yaml`;

    it(`${roll.folder}: resolves with its stock and nothing is missing`, async () => {
      const loaded = await loadRoll(path, files);
      expect(loaded?.problems).toEqual([]);
      expect(loaded?.resolved?.frames.map((f) => f.id)).toEqual(roll.shots.map((s) => s.frame));
      for (const frame of loaded?.resolved?.frames ?? []) expect(frame.look.film).toBe(roll.stock.film);
    });

    it(`${roll.folder}: areas lie inside the pictures that the demo photographs, and lose little of them`, async () => {
      const loaded = await loadRoll(path, files);
      for (const shot of roll.shots) {
        const frame = loaded?.resolved?.frames.find((f) => f.id === shot.frame);
        expect(frame?.scans.map((s) => s.name)).toEqual([shot.scan]);
        const area = frame?.area;
        if (!area) throw new Error(`Frame ${shot.frame} has no area.`);
        // Scans and pictures are both 3:2, so the picture covers the same part of the width as of the height.
        const room = [
          area.left - (shot.centre[0] - PICTURE_WIDTH / 2),
          area.top - (shot.centre[1] - PICTURE_WIDTH / 2),
          shot.centre[0] + PICTURE_WIDTH / 2 - area.left - area.width,
          shot.centre[1] + PICTURE_WIDTH / 2 - area.top - area.height,
        ];
        for (const r of room) {
          expect(r).toBeGreaterThan(0.001);
          expect(r).toBeLessThan(0.005);
        }
        expect(area.tilt).toBe(shot.tilt);
      }
    });
  }
});
