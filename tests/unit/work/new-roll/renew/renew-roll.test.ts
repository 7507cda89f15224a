/** Renewing the automatic values of a roll: what nobody touched is found again, what a person changed stays. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { applyChanges, editRecipe, type Edit } from "../../../../../extension/recipe/edit/edit.ts";
import { formatRecipe } from "../../../../../extension/recipe/edit/layout/format.ts";
import { loadRoll } from "../../../../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../../../../extension/work/files/workspace.ts";
import {
  FRAME_UNITS,
  GROUPS,
  ROLL_UNITS,
  valueDigest,
} from "../../../../../extension/work/new-roll/renew/automatic-values.ts";
import { type Renewal, renewRoll } from "../../../../../extension/work/new-roll/renew/renew-roll.ts";
import type { RenewalRequest } from "../../../../../extension/work/new-roll/renew/renewal-plan.ts";
import { renewalChanges } from "../../../../../extension/work/new-roll/renew/renewal-text.ts";
import { unitName, valueText } from "../../../../../extension/work/new-roll/renew/value-text.ts";
import { poolHere, startIn, writeRoll } from "../rolls.ts";

const folders: string[] = [];
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

const ROLL = "r.roll.yaml";
const textOf = (folder: string): string => readFileSync(join(folder, ROLL), "utf8");
const edit = (folder: string, edits: readonly Edit[]): void => {
  const text = textOf(folder);
  writeFileSync(join(folder, ROLL), applyChanges(text, editRecipe(text, edits, { kind: "roll" })));
};
const ALL: RenewalRequest = { groups: GROUPS, overwrite: false };

async function renewIn(folder: string, request: RenewalRequest = ALL): Promise<Renewal> {
  const workspace = openWorkspace(folder);
  const renewal = await renewRoll((await loadRoll(ROLL, workspace))!, request, workspace, poolHere);
  const text = textOf(folder);
  writeFileSync(join(folder, ROLL), applyChanges(text, renewalChanges(text, renewal, renewal.renewed)));
  return renewal;
}

const shown = (items: Renewal["renewed"]): string[] =>
  items.map((item) => `${unitName(item)}: ${valueText(item.before)} → ${valueText(item.after)}`);

/** What an earlier version would have found: other values, with their digests. */
function found(path: string[], value: unknown, at: { digest: string[]; unit: string }): Edit[] {
  const unit = [...ROLL_UNITS, ...FRAME_UNITS].find(({ name }) => name === at.unit)!;
  const digest = valueDigest(
    unit.paths.map((own) => (path.slice(-own.length).join() === own.join() ? value : undefined)) as never,
  );
  return [
    { path, value },
    { path: ["automatic", ...at.digest, at.unit], value: digest },
  ];
}

describe("a roll of a stock", () => {
  const folder = writeRoll({ shots: [{ of: "portrait" }, { of: "street", stops: 0.4 }, { of: "table", stops: 0.6 }] });
  folders.push(folder);

  it("has nothing to renew right after it was created, and its text stays as it is", async () => {
    const { text } = await startIn(folder);
    expect(text).toMatch(/^automatic:\n {2}roll: \{ blank: [a-z]{8}, flare: /m);
    expect(formatRecipe(text, { kind: "roll" })).toBe(text);
    const { renewed, kept, same } = await renewIn(folder);
    expect([shown(renewed), shown(kept), same]).toEqual([[], [], []]);
    expect(textOf(folder)).toBe(text);
  });

  it("renews what an earlier version found, and keeps and names what a person changed, comments and all", async () => {
    const { text } = await startIn(folder);
    const base = /density: (\[.*?\])/.exec(text)![1];
    edit(folder, [
      ...found(["negative", "base"], { density: [0.2, 0.5, 0.7] }, { digest: ["roll"], unit: "base" }),
      ...found(["frames", "03", "positive", "exposure"], 1.25, { digest: ["scans", "S0012.dng"], unit: "exposure" }),
      // By hand, or by a slider of the preview: the digest stays as it was.
      { path: ["frames", "02", "positive", "exposure"], value: -0.8 },
      { path: ["frames", "01", "area"], value: undefined },
      { path: ["frames", "02", "note"], value: "hold the sky" },
      // Renamed after its number on the film.
      { path: ["frames", "03"], rename: "12A" },
    ]);
    writeFileSync(join(folder, ROLL), textOf(folder).replace("    note:", "    # as printed in 2026\n    note:"));
    const { renewed, kept } = await renewIn(folder);
    expect(renewed.map(unitName)).toEqual(["base", "frame 12A exposure"]);
    expect(kept.map((item) => [unitName(item), item.reason])).toEqual([
      ["frame 01 area", "changed"],
      ["frame 02 exposure", "changed"],
    ]);
    const after = textOf(folder);
    expect(after).toContain(`density: ${base}`);
    expect(after).toContain("exposure: -0.8");
    expect(after).toContain("    # as printed in 2026\n    note: hold the sky");
    expect(formatRecipe(after, { kind: "roll" })).toBe(after);
    const { resolved, problems } = (await loadRoll(ROLL, openWorkspace(folder)))!;
    expect(problems).toEqual([]);
    const [one, , three] = resolved!.frames;
    expect(one.area.width).toBe(1);
    expect(three.id).toBe("12A");
    expect(text).toContain(`exposure: ${three.look.exposure}`);
    // A second time there is nothing left to do, and the person's values are still known.
    const again = await renewIn(folder);
    expect([again.renewed, again.kept.length]).toEqual([[], 2]);
    expect(textOf(folder)).toBe(after);
  });

  it("measures the rest against what is kept, renews the groups alone that are asked for, and all when told to", async () => {
    const { text, frames } = await startIn(folder);
    // A person holds the base for half a stop denser in all colours: pictures measured against it come out darker.
    const [r, g, b] = /density: \[(.*?)\]/.exec(text)![1].split(", ").map(Number);
    edit(folder, [{ path: ["negative", "base", "density"], value: [r + 0.1, g + 0.1, b + 0.1] }]);
    const only = await renewIn(folder, { groups: ["exposure"], overwrite: false });
    expect(only.kept).toEqual([]);
    expect(only.renewed.map(unitName)).toEqual(frames.map(({ id }) => `frame ${id} exposure`));
    for (const { before, after } of only.renewed)
      expect(Number(after[0] ?? 0)).toBeGreaterThan(Number(before[0] ?? 0) + 0.2);
    const all = await renewIn(folder, { groups: GROUPS, overwrite: true });
    expect(all.renewed.map(unitName)).toContain("base");
    expect(textOf(folder)).toBe(text);
  });

  it("keeps all values of a recipe without digests, but those that are found alike", async () => {
    await startIn(folder);
    edit(folder, [
      { path: ["automatic"], value: undefined },
      { path: ["frames", "02", "positive", "exposure"], value: -0.8 },
    ]);
    const { renewed, kept, same } = await renewIn(folder);
    expect(renewed).toEqual([]);
    expect(kept.map(unitName)).toEqual(expect.arrayContaining(["base", "frame 01 area", "frame 02 exposure"]));
    expect(new Set(kept.map(({ reason }) => reason))).toEqual(new Set(["unrecorded"]));
    expect(same.map(unitName)).toEqual(["frame 03 exposure"]);
    expect(textOf(folder)).toMatch(/^automatic:\n {2}scans:\n {4}S0012\.dng: \{ exposure: /m);
  });
});

describe("a roll without a stock", () => {
  const folder = writeRoll({ shots: [{ of: "portrait" }, { of: "street", stops: 0.4 }] });
  folders.push(folder);
  const options = { stock: undefined, format: "135" } as const;

  it("renews curve and comment, and leaves what it is told to leave", async () => {
    const { text } = await startIn(folder, options);
    expect((await renewIn(folder)).renewed).toEqual([]);
    expect(textOf(folder)).toBe(text);
    const curve = { logH: [-2, -1, 0, 1], red: [0, 0.4, 1, 1.6], green: [0, 0.4, 1, 1.6], blue: [0, 0.5, 1.1, 1.7] };
    const { resolved } = (await loadRoll(ROLL, openWorkspace(folder)))!;
    const { unmix, colour } = resolved!.shared.look;
    const digest = /^automatic:.*?curve: ([a-z-]+)/ms.exec(text)![1].split("-").slice(1);
    edit(folder, [{ path: ["negative", "curve"], value: curve }]);
    const state = valueDigest([curve, undefined, unmix as never, colour as never])!;
    edit(folder, [{ path: ["automatic", "roll", "curve"], value: [state, ...digest].join("-") }]);
    const spoilt = textOf(folder);
    const exposure = await renewIn(folder, { groups: ["exposure"], overwrite: false });
    expect(exposure.renewed.some(({ state: { unit } }) => unit.name === "curve")).toBe(false);
    expect(exposure.renewed.length).toBeGreaterThan(0);
    writeFileSync(join(folder, ROLL), spoilt);
    const { renewed, kept } = await renewIn(folder, { groups: ["filtration"], overwrite: false });
    expect([renewed.map(unitName), kept]).toEqual([["curve"], []]);
    const digits = (value: string): string => value.replaceAll(/curve: [a-z]+|\d+\.\d+/g, "");
    expect(digits(textOf(folder))).toBe(digits(text));
    const again = (await loadRoll(ROLL, openWorkspace(folder)))!.resolved!.shared.look.curve!;
    // Kept areas lie a hair inside those that were found.
    const first = resolved!.shared.look.curve!;
    again.red.forEach((d, i) => expect(Math.abs(d - first.red[i])).toBeLessThan(0.001));
    expect((await renewIn(folder)).renewed).toEqual([]);
  });
});
