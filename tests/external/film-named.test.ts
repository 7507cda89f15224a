/**
 * Rolls of published films that are named: the library's neutrals, weighed by blank and base, then fitted to the roll's
 * pictures. The light is taken out of the library; cameras and dyes are published ones (tests/witness/film/published.ts).
 * Tune: these rolls were watched while the constants were chosen. The bench's held-out rolls judge them.
 */
import { describe, expect, it } from "vitest";
import { startValues } from "../../extension/engine/auto/start-values.ts";
import { publishedNumbers } from "../../extension/engine/calibrate/published-film.ts";
import { publishedFilm } from "../../extension/engine/film/library/index.ts";
import { CAMERAS, DYES, LIGHTS } from "../../extension/engine/film/library/spectra.ts";
import { evaluator } from "../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../extension/engine/types.ts";
import { neutralDensities, seeRoll } from "../witness/block-rolls.ts";
import { channelWeights } from "../witness/camera/negative.ts";
import { integral } from "../witness/spectra/spectrum.ts";
import { autoRoll, drawnScenes, PLAIN } from "./auto-rolls.ts";

const ROLLS = [
  ["Kodak Portra 400", "Kodak Vision3 500T 5219", "ILCE-7RM4", "LED-B4"],
  ["Kodak Gold 200", "Kodak Vision3 200T 5213", "EOS_R5", "LED-V2"],
  ["Kodak Ektar 100", "Kodak Vision3 50D 5203", "Z_f", "Phosphor LED YAG"],
  ["Agfa Vista 100", "Kodak EXR 100T 5248", "D850", "4-LED-1"],
  ["Kodak Ultramax 400", "Kodak Vision3 250D 5207", "DC-GX9", "PHOS-1"],
] as const;
/** Fifteen greys, reflectance 0.9 to 0.018. */
const GREYS = Array.from({ length: 15 }, (_, i) => Math.log10((0.9 * 0.02 ** (i / 14)) / 0.18));
const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;

/** Mean ΔC*ab of the grey scale of a roll, begun with the film's name and without. */
function greysOf([film, dyes, camera, light]: (typeof ROLLS)[number], kind: "families" | "subjects") {
  const roll = autoRoll(77, drawnScenes(50, kind), { film, dyes, camera, light });
  const seen = seeRoll(roll, 5);
  const base = seen.base as Rgb;
  const blank = channelWeights(roll.camera, roll.light).map((w) => integral(w)) as unknown as Rgb;
  const lights = Object.fromEntries(Object.entries(LIGHTS).filter(([name]) => name !== light));
  const table = { dyes: DYES, lights, cameras: CAMERAS };
  const numbers = publishedNumbers(publishedFilm(film)!, { cameras: [[camera, 1]], blank, base }, table);
  const judged = (look: FrameLook): number => {
    const read = evaluator({ ...look, tone: { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] } }, "srgb");
    return mean(
      neutralDensities(roll, GREYS).map((d) => {
        const [, a, b] = read(d.map((v) => 10 ** -v) as unknown as Rgb).lab;
        return Math.hypot(a, b);
      }),
    );
  };
  const request = {
    frames: seen.frames,
    source: "raw",
    blank: true,
    base,
    film: "colour-negative",
    look: PLAIN,
  } as const;
  const { negative } = startValues({ ...request, published: { ...numbers, from: "model" } });
  const { curve, unmix, colour } = negative!;
  const library = { curve: numbers.curve, unmix: numbers.unmix, colour: numbers.colour };
  return {
    named: judged({ ...PLAIN, base, curve, unmix: unmix!, colour: colour! }),
    library: judged({ ...PLAIN, base, ...library }),
  };
}

describe("a roll whose film is named from the library", () => {
  it.each(["families", "subjects"] as const)("leaves greys within ΔC*ab 2 on average, pictures of %s", (kind) => {
    const all = ROLLS.map((roll) => greysOf(roll, kind));
    expect(mean(all.map((g) => g.named))).toBeLessThan(2);
    for (const { named } of all) expect(named).toBeLessThan(4);
    // The pictures tell what blank and base leave open.
    expect(mean(all.map((g) => g.named))).toBeLessThan(0.7 * mean(all.map((g) => g.library)));
  });
});
