/**
 * The survey of a roll of 24-megapixel scans against rendering the same frames, in one run and with the same workers:
 * frame by frame, so a roll of 36 has the same ratio (the blank, which a survey measures once, weighs less in it).
 * Rendered is twice, to the cheapest full-size picture and to the archive's.
 *
 * Usage: node dist/bench.mjs survey [--film ordinary|worst] [--frames N] [--workers N] [--record]
 */
import { appendFileSync, mkdtempSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openPool, type Pool } from "../../extension/work/pool/pool.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { surveyRoll } from "../../extension/work/survey/survey-roll.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { FILMS } from "./survey-film.ts";
import { BASE, makeRoll } from "./synthetic-roll.ts";
import { readLightJob } from "../../extension/work/frame/jobs.ts";

const OUTPUTS = `  - { name: full JPEG, type: jpeg, quality: 90 }
  - { name: archive TIFF, type: tiff, depth: 16, space: romm }`;
/** Pixels of a scan: 24 megapixels. */
const [WIDTH, HEIGHT] = [6016, 4016];
/** The picture's rectangle, as the recipe has it. */
const [LEFT, TOP, WIDE, HIGH] = [0.05, 0.06, 0.9, 0.88];

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    film: { type: "string", default: "ordinary" },
    frames: { type: "string", default: "6" },
    workers: { type: "string", default: "1" },
    record: { type: "boolean", default: false },
  },
});
const frames = Number(values.frames);
const workers = Number(values.workers);
if (!Object.hasOwn(FILMS, values.film) || !(frames >= 1) || !(workers >= 1))
  throw new Error("Usage: node dist/bench.mjs survey [--film ordinary|worst] [--frames N] [--workers N] [--record]");

const picture = FILMS[values.film]();
const [x0, y0] = [Math.round((LEFT * WIDTH) / 2) * 2, Math.round((TOP * HEIGHT) / 2) * 2];
const [across, down] = [Math.round(WIDE * WIDTH), Math.round(HIGH * HEIGHT)];

/** The picture within the rebate. */
function film(x: number, y: number, channel: number, scan: number): number {
  const [px, py] = [x - x0, y - y0];
  if (px < 0 || py < 0 || px >= across || py >= down) return 10 ** -BASE[channel];
  return picture(px, py, scan);
}

interface Times {
  readonly wall: number;
  /** Processor time of all workers. */
  readonly processor: number;
}

async function timed(pool: Pool, run: () => Promise<unknown>): Promise<Times> {
  const before = (await pool.memory()).seconds;
  const start = performance.now();
  await run();
  const wall = (performance.now() - start) / 1000;
  return { wall, processor: (await pool.memory()).seconds - before };
}

const folder = mkdtempSync(join(tmpdir(), "bench-survey-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
const path = makeRoll(folder, "roll", {
  width: WIDTH,
  height: HEIGHT,
  frames,
  // Two scans in turns: each is read and measured afresh, and to make one takes longer than to survey it.
  scans: 2,
  compression: "jpeg",
  output: OUTPUTS,
  frameKeys: [`area: { left: ${LEFT}, top: ${TOP}, width: ${WIDE}, height: ${HIGH} }`],
  film,
});
const workspace = openWorkspace(folder);
const roll = (await loadRoll(workspace.inside(path), workspace))?.resolved;
if (!roll) throw new Error("The bench's own roll could not be read.");
const pool = openPool({ workers, programs: dirname(fileURLToPath(import.meta.url)) });
// Starts every worker and its libraries, so that the clock sees none of it.
const light = workspace.absolute(roll.frames[0].light.blank?.path ?? "");
await Promise.all(Array.from({ length: workers }, () => pool.run(readLightJob, { path: light, field: false })));

let specks = 0;
const survey = await timed(pool, async () => {
  const report = await surveyRoll(roll, workspace, pool);
  if (report.failures.length > 0) throw new Error(report.failures[0].message);
  specks = report.roll.scans.reduce((sum, scan) => sum + scan.specks.length, 0);
});
const renders: (readonly [name: string, times: Times])[] = [];
for (const output of roll.outputs) {
  const options = { frames: roll.frames.map((f) => f.id), outputs: [output], overwrite: false, resume: false };
  const render = async (): Promise<void> => {
    const made = await renderRoll(roll, workspace, pool, { ...options, directory: join(folder, output.name) });
    const failed = made.find((r) => r.failure);
    if (failed) throw new Error(failed.failure?.message);
  };
  renders.push([output.name, await timed(pool, render)]);
}
await pool.close();

const results: readonly (readonly [name: string, value: number, unit: string])[] = [
  ["dark blobs looked at, per frame", specks / frames, ""],
  ["survey, per frame", survey.wall / frames, "s"],
  ["survey, per frame, processor", survey.processor / frames, "s"],
  ...renders.flatMap(([name, { wall, processor }]) => [
    [`${name}, per frame`, wall / frames, "s"] as const,
    [`survey ÷ ${name} (bar 1)`, survey.wall / wall, "×"] as const,
    [`survey ÷ ${name} in processor time`, survey.processor / processor, "×"] as const,
  ]),
];
console.log(`${values.film} film, ${frames} frames of ${WIDTH} × ${HEIGHT}, ${workers} workers`);
for (const [name, value, unit] of results) console.log(`${name.padEnd(44)} ${value.toFixed(2).padStart(9)} ${unit}`);
if (values.record) {
  const date = new Date().toISOString().slice(0, 10);
  const processor = cpus()[0].model.replaceAll(",", " ");
  for (const [name, value, unit] of results)
    appendFileSync(
      "tests/bench/history.csv",
      `${date},survey,"${values.film} film: ${name}",${value.toFixed(2)},${unit},${processor},${process.versions.node}\n`,
    );
}
