import { describe, expect, it } from "vitest";
import { copyEdits, groupsOf } from "../../../../extension/editor/preview/copying.ts";
import {
  cascadesOf,
  frameAt,
  isValid,
  placeOf,
  rollState,
  type ValidRoll,
} from "../../../../extension/editor/preview/roll-state.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { applyChanges, editRecipe } from "../../../../extension/recipe/edit/edit.ts";
import { type LoadedRoll, loadDocument } from "../../../../extension/recipe/resolve/workspace.ts";

const STOCK = `version: 1
title: Northlight 400
negative:
  base: { density: [0.28, 0.58, 0.73] }
positive:
  contrast: 1.5
  exposure: 0.1
`;
const ROLL = `version: 1
stock: ../stocks/a.stock.yaml
light: { blank: LIGHT.dng }
positive:
  exposure: 0.2 # thin
frames:
  "01":
    scan: H1.dng
    positive: { exposure: 0.33, filtration: { magenta: 4 } }
    area: { left: 0.1, width: 0.8 }
    mirror: true
  "02":
    scan: H2.dng
  "12A":
    scan: GONE.dng
    note: missing
`;

async function load(text: string): Promise<LoadedRoll> {
  return await loadDocument(parseRecipe(text, { file: "rolls/h.roll.yaml", roots: [""] }), {
    roots: [""],
    read: async (path) => (path === "stocks/a.stock.yaml" ? STOCK : undefined),
    exists: async () => true,
    list: async () => ["H1.dng", "H2.dng", "LIGHT.dng"],
  });
}
const options = { version: 7, trusted: true, stamp: (path: string) => `@${path}` };
async function sound(text = ROLL): Promise<ValidRoll> {
  const loaded = await load(text);
  if (!isValid(loaded)) throw new Error(JSON.stringify(loaded.problems));
  return loaded;
}

describe("the panel's state", () => {
  it("has every frame with its look, and names warnings at their frame", async () => {
    const roll = await sound();
    const state = rollState(roll, roll, options);
    expect(state).toMatchObject({ version: 7, file: "h.roll.yaml", stale: false, trusted: true });
    expect(state.frames.map((f) => [f.id, f.scans[0], f.look.exposure, f.mirror])).toEqual([
      ["01", "H1.dng", 0.33, true],
      ["02", "H2.dng", 0.2, false],
      ["12A", "GONE.dng", 0.2, false],
    ]);
    expect(state.shared?.exposure).toBe(0.2);
    expect(state.problems).toContainEqual(
      expect.objectContaining({ severity: "warning", frame: "12A", line: 15, file: "h.roll.yaml" }),
    );
  });

  it("asks for another proxy when the scan, the light or the spots change, and for none when the look does", async () => {
    const sourceOf = async (text: string, stamp = options.stamp) =>
      rollState(await sound(text), await sound(text), { ...options, stamp }).frames[0].source;
    const first = await sourceOf(ROLL);
    expect(await sourceOf(ROLL.replace("0.33", "0.5"))).toBe(first);
    expect(await sourceOf(ROLL.replace("LIGHT.dng }", "LIGHT.dng, flare: 0.004 }"))).not.toBe(first);
    expect(await sourceOf(ROLL.replace("mirror: true", "spots: [[0.1, 0.1, 0.01]]"))).not.toBe(first);
    expect(await sourceOf(ROLL, (path) => (path.endsWith("LIGHT.dng") ? "new" : options.stamp(path)))).not.toBe(first);
  });

  it("keeps the last sound frames while the text has errors, and says so", async () => {
    const before = await sound();
    const broken = await load(ROLL.replace("exposure: 0.33", "exposure: wide"));
    expect(isValid(broken)).toBe(false);
    const state = rollState(broken, before, options);
    expect(state.stale).toBe(true);
    expect(state.frames[0].look.exposure).toBe(0.33);
    expect(state.problems.find((p) => p.severity === "error")).toMatchObject({ line: 9, frame: "01" });
    // Nothing was ever sound: no frames, no guess.
    expect(rollState(broken, undefined, options).frames).toEqual([]);
    expect(rollState(await load("[1, 2"), before, options)).toMatchObject({
      stale: true,
      frames: [{ id: "01" }, { id: "02" }, { id: "12A" }],
    });
  });
});

describe("cascades", () => {
  it("tell every level's value with file and line", async () => {
    const [exposure, contrast, magenta, toe] = cascadesOf(await sound(), "01", [
      ["positive", "exposure"],
      ["positive", "contrast"],
      ["positive", "filtration", "magenta"],
      ["positive", "toe"],
    ]);
    expect(exposure).toEqual({
      frame: { value: 0.33, file: "h.roll.yaml", line: 9 },
      roll: { value: 0.2, file: "h.roll.yaml", line: 5 },
      stock: { value: 0.1, file: "a.stock.yaml", line: 7 },
      fallback: 0,
    });
    expect(contrast).toEqual({ stock: { value: 1.5, file: "a.stock.yaml", line: 6 }, fallback: 1.35 });
    expect(magenta).toMatchObject({ frame: { value: 4 }, fallback: 0 });
    expect(toe).toEqual({ fallback: 0.3 });
  });

  it("find the frame under the cursor, and the place of a value", async () => {
    const { roll } = await sound();
    expect(frameAt(roll, ROLL.indexOf("0.33"))).toBe("01");
    expect(frameAt(roll, ROLL.indexOf("0.2 #"))).toBeUndefined();
    const [start, end] = placeOf(roll, "01", ["positive", "exposure"]) ?? [0, 0];
    expect(ROLL.slice(start, end)).toBe("0.33");
    const [key] = placeOf(roll, "12A", undefined) ?? [0];
    expect(ROLL.slice(key, key + 5)).toBe('"12A"');
    const [own] = placeOf(roll, undefined, ["positive", "exposure"]) ?? [0];
    expect(ROLL.slice(own, own + 3)).toBe("0.2");
  });
});

describe("copying a frame's own values", () => {
  const own = {
    scan: "H1.dng",
    positive: { exposure: 0.33, filtration: { magenta: 4 } },
    area: { left: 0.1 },
    mirror: true,
  };

  it("offers what the frame states itself", () => {
    expect(groupsOf(own).map((g) => [g.label, g.usual])).toEqual([
      ["Exposure", false],
      ["Filtration", true],
      ["Crop and tilt", false],
      ["Turn and mirror", false],
    ]);
    expect(groupsOf({ scan: "a" })).toEqual([]);
    expect(groupsOf(undefined)).toEqual([]);
  });

  it("writes them to the others, and nothing else", async () => {
    const edits = copyEdits(
      own,
      groupsOf(own).filter((g) => g.usual),
      ["02", "12A"],
    );
    const text = applyChanges(
      ROLL,
      editRecipe(
        ROLL,
        edits.map((e) => ({ path: e.path, value: e.value as never })),
        { file: "h.roll.yaml" },
      ),
    );
    const roll = await sound(text);
    expect(roll.resolved.frames.map((f) => f.look.filtration.magenta)).toEqual([4, 4, 4]);
    expect(roll.resolved.frames.map((f) => f.look.exposure)).toEqual([0.33, 0.2, 0.2]);
    expect(text).toContain("# thin");
  });
});
