/** The automatic start on published films that its prior does not know, as block means. */
import { describe, expect, it } from "vitest";
import { startValues } from "../../extension/engine/auto/start-values.ts";
import { filmKindOf } from "../../extension/engine/auto/film-kind.ts";
import { RAW } from "../../extension/engine/auto/table.ts";
import { drawNeutrals, tableOf } from "../../extension/engine/calibrate/neutral-table.ts";
import { seeRoll } from "../witness/block-rolls.ts";
import { CAMERA_A, PANEL } from "../witness/camera/cameras.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400 } from "../witness/film/stocks.ts";
import { autoRoll, drawnScenes, judgeRoll, PLAIN } from "./auto-rolls.ts";
import { tableInputs } from "./published-negatives.ts";

/** Five published films with cameras and lights unlike one another; dyes are drawn. */
const ROLLS = [
  { film: "Kodak Portra 400", camera: "ILCE-7RM4", light: "LED-B4" },
  { film: "Kodak Gold 200", camera: "EOS_R5", light: "LED-V2" },
  { film: "Kodak Ektar 100", camera: "Z_f", light: "Phosphor LED YAG" },
  { film: "Agfa Vista 100", camera: "D850", light: "4-LED-1" },
  { film: "Kodak Ultramax 400", camera: "DC-GX9", light: "PHOS-1" },
].map((choice, i) => autoRoll(401 + i, drawnScenes(700 + 10 * i, i % 2 ? "families" : "subjects"), choice));

const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;

describe("rolls of published films, family, dyes, camera and light left out of the prior", () => {
  it("come out with neutral greys where base and blank are known", () => {
    const judged = ROLLS.map((roll, i) => judgeRoll(roll, 30 + i));
    expect(mean(judged.map(({ chroma }) => mean(chroma)))).toBeLessThan(2.5);
    for (const { chroma } of judged) {
      expect(mean(chroma)).toBeLessThan(4);
      expect(Math.max(...chroma)).toBeLessThan(6);
    }
  }, 180_000);

  it("come out at most ΔC*ab 1 worse where neither is", () => {
    const judged = ROLLS.map((roll, i) => judgeRoll(roll, 30 + i, "nothing"));
    expect(mean(judged.map(({ chroma }) => mean(chroma)))).toBeLessThan(3.5);
    for (const { chroma } of judged) {
      expect(mean(chroma)).toBeLessThan(5);
      expect(Math.max(...chroma)).toBeLessThan(7);
    }
  });
});

describe("the made table", () => {
  it("is what its script makes of the published inputs", () => {
    const inputs = tableInputs();
    const { raw } = tableOf(drawNeutrals(inputs), inputs);
    for (const [k, v] of raw.blue.entries()) expect(RAW.blue[k]).toBeCloseTo(v, 3);
    for (const [j, { red }] of raw.components.entries())
      for (const [k, v] of red.entries()) expect(RAW.components[j].red[k]).toBeCloseTo(v, 3);
  }, 180_000);
});

describe("scans that say little", () => {
  it("give the prior's axis where there is no picture, and none of it is NaN", () => {
    const blank = new Float32Array(60 * 40 * 3).fill(NaN);
    const values = startValues({
      frames: [blank],
      source: "raw",
      blank: true,
      film: "colour-negative",
      base: [0.3, 0.55, 0.75],
      look: PLAIN,
    });
    expect(values.axis!.red).toEqual(RAW.red);
    expect(values.axis!.share).toBe(0);
    expect(values.negative!.curve.blue.every(Number.isFinite)).toBe(true);
    expect(values.exposure.every(Number.isFinite)).toBe(true);
  });

  it("say so: one frame is less sure than seven", () => {
    const roll = autoRoll(401, drawnScenes(700, "subjects"), { film: "Kodak Portra 400" });
    const { cast } = judgeRoll(roll, 3).values;
    for (const one of [0, 3, 6]) expect(judgeRoll(roll, 3, "blank and base", one).values.cast!).toBeGreaterThan(cast!);
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

  it("is left open for a slide of snow alone, which silver could be, and told of the roll that it is in", () => {
    for (const seed of [90, 240, 390]) {
      const [, , , , , night, snow] = drawnScenes(seed, "subjects").map((scene) => ({
        scene,
        stops: 0,
        light: [0, 0] as const,
      }));
      const seen = seeRoll({ stock: LANTERN_64, camera: CAMERA_A, light: PANEL, frames: [snow, night] }, 5).frames;
      const { film, certainty } = filmKindOf(seen.slice(0, 1), { against: "blank" });
      // VS Code asks below 0.9.
      expect(film === "slide" ? 0 : certainty).toBeLessThan(0.9);
      expect(filmKindOf(seen, { against: "blank" })).toMatchObject({ film: "slide" });
    }
  });
});
