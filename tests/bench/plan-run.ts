/**
 * Speed of running a plan over a 24-megapixel scan on one core, row by row as a render does, best of several passes.
 * Run: npx esbuild tests/bench/plan-run.ts --bundle --platform=node --format=esm --outfile=dist/plan-run.mjs
 *      && node dist/plan-run.mjs [--record]     (--record appends to tests/bench/history.csv)
 *
 * Ways that were measured and left: nearest samples instead of straight lines (needs tables of 14 bits a channel, which
 * leave the first cache, to be as exact); 32-bit arithmetic by Math.fround (half the speed of plain doubles); clamps by
 * comparison instead of tables over every float (nine tenths of the speed); one table array for everything (no gain).
 */
import { appendFileSync, existsSync } from "node:fs";
import { cpus } from "node:os";
import { compilePlan, type Plan } from "../../extension/engine/plan/compile.ts";
import { runPlainly, runPlan, runPlan8 } from "../../extension/engine/plan/run.ts";
import type { FrameLook } from "../../extension/engine/types.ts";

const [WIDTH, HEIGHT, PASSES] = [6000, 4000, 4];
const HISTORY = "tests/bench/history.csv";

const look: FrameLook = {
  film: "colour-negative",
  base: [0.31, 0.6, 0.76],
  gamma: [0.53, 0.56, 0.63],
  unmix: [
    [1.21, -0.17, -0.04],
    [-0.13, 1.25, -0.12],
    [-0.02, -0.19, 1.21],
  ],
  colour: [
    [1.1, -0.05, -0.05],
    [-0.05, 1.1, -0.05],
    [0, -0.1, 1.1],
  ],
  exposure: 0.3,
  filtration: { cyan: 0, magenta: 4, yellow: 7 },
  tone: { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [[25, 23]] },
  saturation: 1.1,
};

/** A row of a negative: slow gradients of density with grain from a seeded generator. */
function drawRow(): Float32Array {
  const row = new Float32Array(WIDTH * 3);
  let seed = 1;
  const grain = (): number => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32 - 0.5;
  for (let x = 0; x < WIDTH; x++) {
    const light = 0.5 + 0.5 * Math.sin(x / 700);
    for (let c = 0; c < 3; c++) row[3 * x + c] = 10 ** -(look.base[c] + look.gamma[c] * 2.2 * light + 0.06 * grain());
  }
  return row;
}

/** Megapixels a second of the fastest pass over the whole scan. */
function speed(runRow: () => void): number {
  let best = Infinity;
  for (let pass = 0; pass < PASSES; pass++) {
    const start = process.hrtime.bigint();
    for (let y = 0; y < HEIGHT; y++) runRow();
    best = Math.min(best, Number(process.hrtime.bigint() - start));
  }
  return (WIDTH * HEIGHT * 1e3) / best;
}

const row = drawRow();
const colour = compilePlan(look, "srgb");
const grey = compilePlan({ ...look, film: "black-and-white-negative" }, "srgb");
const sixteen = new Uint16Array(WIDTH * 3);
const eight = new Uint8ClampedArray(WIDTH * 4);
const execute = (run: typeof runPlan, plan: Plan) => () => run(plan, row, sixteen, WIDTH);
const results: [string, number][] = [
  ["three channels", speed(execute(runPlan, colour))],
  ["three channels, no vectors", speed(execute(runPlainly, colour))],
  ["one channel", speed(execute(runPlan, grey))],
  ["preview in 8 bits", speed(() => runPlan8(colour, row, eight, WIDTH))],
];

for (const [name, value] of results) console.log(`${name.padEnd(28)} ${value.toFixed(1).padStart(6)} MP/s`);
if (process.argv.includes("--record")) {
  if (!existsSync(HISTORY)) appendFileSync(HISTORY, "date,bench,case,value,unit,processor,node\n");
  const date = new Date().toISOString().slice(0, 10);
  const processor = cpus()[0].model.replaceAll(",", " ");
  for (const [name, value] of results)
    appendFileSync(
      HISTORY,
      `${date},plan-run,"${name}",${value.toFixed(1)},MP/s,${processor},${process.versions.node}\n`,
    );
}
