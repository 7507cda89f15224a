/** A roll that was photographed in strips: a frame for each picture, numbered along the film. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { loadRoll } from "../../../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../../../extension/work/files/workspace.ts";
import { startRoll } from "../../../../extension/work/new-roll/new-roll.ts";
import { renewRoll } from "../../../../extension/work/new-roll/renew/renew-roll.ts";
import type { StartedRoll } from "../../../../extension/work/new-roll/started-roll.ts";
import { poolHere } from "./rolls.ts";
import { stripOf, writeStrips } from "./strip-rolls.ts";

const folder = mkdtempSync(join(tmpdir(), "strips-"));
afterAll(() => rmSync(folder, { recursive: true }));
let started: StartedRoll;

beforeAll(async () => {
  writeStrips(folder, [
    { name: "A.dng", strip: stripOf(["portrait", "street", "meadow", "forest"], 0), tilt: 0.4 },
    // The view cuts off the fourth picture.
    { name: "B.dng", strip: stripOf(["snow", "portrait", "table", "meadow"], 4), centre: [0.62, 0.5], width: 1.1 },
    { name: "C.dng", strip: stripOf(["street", "night", "snow"], 8), tilt: -0.3 },
  ]);
  const options = { folder: join(folder, "scans"), roll: join(folder, "strips.roll.yaml") };
  started = await startRoll(options, openWorkspace(folder), poolHere);
  writeFileSync(options.roll, started.text);
});

describe("a roll in strips", () => {
  it("has a frame for each picture, once, in order", () => {
    expect(started.frames.map(({ scans, part }) => [scans[0], part?.[0]])).toEqual([
      ["A.dng", 1],
      ["A.dng", 2],
      ["A.dng", 3],
      ["A.dng", 4],
      ["B.dng", 1],
      ["B.dng", 2],
      ["B.dng", 3],
      ["C.dng", 1],
      ["C.dng", 2],
      ["C.dng", 3],
    ]);
  });

  it("counts on from scan to scan where the codes on the edge are too small to read", () => {
    expect(started.frames.map(({ id }) => id)).toEqual(["01", "02", "03", "04", "05", "06", "07", "08", "09", "10"]);
  });

  it("names a picture that is cut off", () => {
    expect(started.warnings.filter((warning) => warning.includes("cut off"))).toEqual([
      "B.dng: a picture is cut off at the right and makes no frame.",
    ]);
  });

  it("is a recipe without problems whose comments tell which picture of a scan each is", () => {
    const { problems } = parseRecipe(started.text, { file: "strips.roll.yaml", kind: "roll" });
    expect(problems).toEqual([]);
    expect(started.text).toContain("# Picture 2 of 4 on this scan.");
    expect(started.text).toMatch(/A\.dng 02: \{ area: \w+/);
  });

  it("is found as it was when its rectangles are renewed, each frame by itself", async () => {
    const workspace = openWorkspace(folder);
    const request = { groups: ["area"] as const, overwrite: false };
    const renewal = await renewRoll((await loadRoll("strips.roll.yaml", workspace))!, request, workspace, poolHere);
    expect(renewal.renewed.map(({ state }) => [state.frame, state.unit.name])).toEqual([]);
    expect(renewal.kept).toEqual([]);
  });

  it("keeps a rectangle that a person changed, and renews its neighbour's", async () => {
    const workspace = openWorkspace(folder);
    const areas = [...started.text.matchAll(/area: \{ left: ([\d.]+)/g)].map(([, left]) => left);
    const changed = started.text.replace(`left: ${areas[1]}`, `left: ${(Number(areas[1]) + 0.004).toFixed(4)}`);
    writeFileSync(join(folder, "changed.roll.yaml"), changed);
    const request = { groups: ["area"] as const, overwrite: true };
    const renewal = await renewRoll((await loadRoll("changed.roll.yaml", workspace))!, request, workspace, poolHere);
    expect(renewal.renewed.map(({ state }) => [state.frame, state.unit.name])).toEqual([["02", "area"]]);
    const kept = await renewRoll(
      (await loadRoll("changed.roll.yaml", workspace))!,
      { ...request, overwrite: false },
      workspace,
      poolHere,
    );
    expect(kept.renewed).toEqual([]);
    expect(kept.kept.map(({ state }) => state.frame)).toEqual(["02"]);
  });
});
