/**
 * The automatic start on rolls of published films with truth: chroma of 15 greys and brightness of a metered grey. The
 * film's family, its dyes, camera and light are left out of the prior. Seeds below 1000 are for choosing, above for
 * judging.
 *
 * Usage: node dist/bench.mjs auto-start [--rolls 24] [--seed 1] [--frames 7] [--know "blank and base"|blank|nothing]
 */
import { parseArgs } from "node:util";
import { autoRoll, drawnScenes, judgeRoll, type Knowledge } from "../external/auto-rolls.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    rolls: { type: "string", default: "24" },
    seed: { type: "string", default: "1" },
    frames: { type: "string", default: "7" },
    know: { type: "string", default: "blank and base" },
  },
});
const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
const first = Number(values.seed);
const all = Array.from({ length: Number(values.rolls) }, (_, i) => {
  const seed = first + i;
  const scenes = drawnScenes(100 * seed, seed % 2 ? "subjects" : "families");
  const roll = autoRoll(seed, scenes, { frames: Number(values.frames) });
  const judged = judgeRoll(roll, seed, values.know as Knowledge);
  const { chroma, brightness, values: start } = judged;
  const figures = { mean: mean(chroma), worst: Math.max(...chroma), brightness, cast: start.cast ?? 0 };
  console.log(
    `${String(seed).padStart(5)} ${roll.stock.name.slice(0, 56).padEnd(56)} ${roll.cameraName.padEnd(18)} ` +
      `${roll.lightName.padEnd(16)} mean ${figures.mean.toFixed(1)} worst ${figures.worst.toFixed(1)} ` +
      `expected ${figures.cast.toFixed(1)} brightness ${brightness.toFixed(2)} EV`,
  );
  return figures;
});
const of = (pick: (f: (typeof all)[number]) => number): number[] => all.map(pick);
console.log(
  `${all.length} rolls: mean ${mean(of((f) => f.mean)).toFixed(2)} (largest ${Math.max(...of((f) => f.mean)).toFixed(1)}), ` +
    `worst step ${mean(of((f) => f.worst)).toFixed(2)} (largest ${Math.max(...of((f) => f.worst)).toFixed(1)}), ` +
    `brightness ${mean(of((f) => f.brightness)).toFixed(2)} ± ` +
    `${Math.sqrt(mean(of((f) => (f.brightness - mean(of((g) => g.brightness))) ** 2))).toFixed(2)} EV`,
);
