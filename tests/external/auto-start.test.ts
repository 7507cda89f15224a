/** The automatic start on published films that its prior does not know, as block means. */
import { describe, expect, it } from "vitest";
import { startValues } from "../../extension/engine/auto/start-values.ts";
import { filmKindOf } from "../../extension/engine/auto/film-kind.ts";
import { RAW } from "../../extension/engine/auto/table.ts";
import { drawNeutrals, tableOf } from "../../extension/engine/calibrate/neutral-table.ts";
import { seeRoll } from "../witness/block-rolls.ts";
import { CAMERA_A, PANEL } from "../witness/cameras.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400 } from "../witness/stocks.ts";
import { drawnScenes, PLAIN } from "./auto-rolls.ts";
import { tableInputs } from "./published-negatives.ts";

describe("the made table", () => {
  it("is what its script makes of the published inputs", () => {
    const inputs = tableInputs();
    const { raw } = tableOf(drawNeutrals(inputs), inputs);
    for (const [k, v] of raw.blue.entries()) expect(RAW.blue[k]).toBeCloseTo(v, 3);
    for (const [j, { red }] of raw.components.entries())
      for (const [k, v] of red.entries()) expect(RAW.components[j].red[k]).toBeCloseTo(v, 3);
  });
});

describe("the kind of film", () => {
  const scenes = drawnScenes(90, "subjects");
  const frames = scenes.map((scene) => ({ scene, stops: 0, light: [0, 0] as const }));
  it.each([
    ["colour-negative", NORTHLIGHT_400],
    ["black-and-white-negative", COALFISH_125],
    ["slide", LANTERN_64],
  ] as const)("is told of a roll: %s", (film, stock) => {
    const seen = seeRoll({ stock, camera: CAMERA_A, light: PANEL, frames }, 5);
    expect(filmKindOf(seen.frames, { against: "blank" })).toMatchObject({ film });
    // A single picture may show nothing that tells silver from a grey slide; most do.
    const alone = seen.frames.filter((frame) => filmKindOf([frame], { against: "blank" }).film === film);
    expect(alone.length).toBeGreaterThanOrEqual(6);
    const values = startValues({ frames: seen.frames, source: "raw", blank: true, look: PLAIN });
    expect(values.film).toMatchObject({ film, from: "inferred" });
    expect(values.exposure).toHaveLength(frames.length);
  });
});
