/**
 * Cast of the positives that the copy stand shows while a roll arrives, on rolls of published films with truth and no
 * stock: chroma of 15 greys after 1, 2, 4 and 8 pictures, by the automatic start and by a balance of the plain look (equal
 * straight lines and the camera's unmix). The film's family, its dyes, camera and light are left out of the prior.
 *
 * Usage: node dist/bench.mjs first-positive [--rolls 12] [--seed 1001]
 */
import { parseArgs } from "node:util";
import { balanceRoll, tonesOf } from "../../extension/engine/auto/balance.ts";
import { unmixOf } from "../../extension/engine/calibrate/camera-unmix/index.ts";
import { evaluator } from "../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../extension/engine/types.ts";
import { spread, startValues } from "../../extension/work/copy-stand/measure/start-values.ts";
import { type AutoRoll, autoRoll, drawnScenes, PLAIN, priorsWithout } from "../external/auto-rolls.ts";
import { neutralDensities, seeRoll } from "../witness/block-rolls.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { rolls: { type: "string", default: "12" }, seed: { type: "string", default: "1001" } },
});
const COUNTS = [1, 2, 4, 8];
const GREYS = Array.from({ length: 15 }, (_, i) => Math.log10((0.9 * (0.018 / 0.9) ** (i / 14)) / 0.18));
const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;

/** Mean C*ab of the greys in a positive. Without a blank the light's colour and the camera's gains stay in all densities. */
function castOf(roll: AutoRoll, look: FrameLook, gain: Rgb): number {
  const read = evaluator(look, "srgb");
  const through = (d: readonly number[]) => read(d.map((v, c) => gain[c] * 10 ** -v) as unknown as Rgb);
  return mean(neutralDensities(roll, GREYS).map((d) => Math.hypot(...through(d).lab.slice(1))));
}

function balancedLook(samples: readonly Float32Array[], base: Rgb, model: string): FrameLook {
  const look = { ...PLAIN, base, unmix: unmixOf(model, undefined).matrix };
  const { filtration } = balanceRoll(
    samples.map((sample) => tonesOf(sample, look)),
    look,
  );
  return { ...look, filtration };
}

for (const known of [true, false]) {
  const rows = COUNTS.map(() => ({ balance: [] as number[], start: [] as number[] }));
  for (let k = 0; k < Number(values.rolls); k++) {
    const seed = Number(values.seed) + k;
    const roll = autoRoll(seed, drawnScenes(100 * seed, seed % 2 ? "subjects" : "families"), { frames: 8 });
    const seen = seeRoll(roll, seed);
    const gain: Rgb = known ? [1, 1, 1] : [0.35, 0.6, 0.4];
    const frames = seen.frames.map((f) => f.map((v, i) => v * gain[i % 3]));
    const stated = {
      look: PLAIN,
      film: "colour-negative",
      negative: false,
      unmix: false,
      gamma: false,
      contrast: false,
      byHand: false,
    } as const;
    COUNTS.forEach((count, i) => {
      const samples = spread(frames.slice(0, count), 12);
      const request = {
        stated,
        film: "colour-negative",
        blank: known,
        info: { model: roll.camera.model },
        samples,
        ...(known ? { base: seen.base as Rgb } : {}),
      } as const;
      const { look } = startValues(request, priorsWithout(roll));
      rows[i].start.push(castOf(roll, look, gain));
      // The plain look has a base of its own to begin with, and the thinnest blocks of the pictures where none was read.
      const thinnest = known ? (seen.base as Rgb) : look.base;
      rows[i].balance.push(castOf(roll, balancedLook(samples, thinnest, roll.camera.model), gain));
    });
  }
  console.log(known ? "blank and base known" : "neither blank nor base (both given the inferred base)");
  COUNTS.forEach((count, i) => {
    const figure = (v: readonly number[]): string => `${mean(v).toFixed(1)} (worst roll ${Math.max(...v).toFixed(1)})`;
    console.log(
      `  after ${count}: balance of the plain look ΔC*ab ${figure(rows[i].balance)}, automatic start ${figure(rows[i].start)}`,
    );
  });
}
