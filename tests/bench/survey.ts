/**
 * The survey of a roll of 24-megapixel scans against rendering the same frames, in one run and with the same workers:
 * frame by frame, so a roll of 36 has the same ratio (the blank, which a survey measures once, weighs less in it).
 *
 * The film is the witness's: eight subjects full of things that look like dust, with dust on them, laid side by side
 * until 24 megapixels are full, for the time of a survey grows with what it has to look at.
 *
 * Usage: node dist/bench.mjs survey [--case jpeg|archive] [--frames N] [--workers N] [--record]
 */
import { appendFileSync, mkdtempSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/workspace.ts";
import { openPool, type Pool } from "../../extension/work/pool.ts";
import { renderRoll } from "../../extension/work/render-roll.ts";
import { surveyRoll } from "../../extension/work/survey-roll.ts";
import { openWorkspace } from "../../extension/work/workspace.ts";
import { filmOf, request, RIG, SMALL_FORMAT } from "../unit/survey/rig.ts";
import type { SubjectName } from "../unit/survey/subjects.ts";
import { photographFilm } from "../witness/camera.ts";
import { scatterDust } from "../witness/dust.ts";
import { BASE, makeRoll } from "./synthetic-roll.ts";

const OUTPUTS: Readonly<Record<string, string>> = {
  jpeg: "  - { name: full, type: jpeg, quality: 90 }",
  archive: "  - { name: archive, type: tiff, depth: 16, space: romm }",
};
const [WIDTH, HEIGHT] = [6016, 4016];
/** The picture's rectangle, as the recipe has it. */
const [LEFT, TOP, WIDE, HIGH] = [0.05, 0.06, 0.9, 0.88];
const SUBJECTS: readonly SubjectName[] = [
  "night",
  "snowfall",
  "quay",
  "pebbles",
  "meadow",
  "rigging",
  "portrait",
  "netting",
];

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    case: { type: "string", default: "jpeg" },
    frames: { type: "string", default: "3" },
    workers: { type: "string", default: "1" },
    record: { type: "boolean", default: false },
  },
});
const frames = Number(values.frames);
const workers = Number(values.workers);
const output = OUTPUTS[values.case];
if (!output || !(frames >= 1) || !(workers >= 1))
  throw new Error("Usage: node dist/bench.mjs survey [--case jpeg|archive] [--frames N] [--workers N] [--record]");

/** A subject's picture as transmittances of the mosaic's sites, its sides even, so that pieces keep the mosaic whole. */
interface Piece {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

function pieceOf(subject: SubjectName, seed: number): Piece {
  const dust = scatterDust(SMALL_FORMAT, { specks: 40, smallest: 0.014, largest: 0.06 }, seed);
  const scan = photographFilm({ ...request(RIG, filmOf(subject, RIG.stock)), dust }, seed);
  const { left, top, width, height } = scan.truth.area!;
  const even = (v: number): number => 2 * Math.round(v / 2);
  const [x0, y0] = [even((left + 0.006) * scan.width), even((top + 0.006) * scan.height)];
  const [w, h] = [even((width - 0.012) * scan.width), even((height - 0.012) * scan.height)];
  const data = new Float32Array(w * h);
  for (let y = 0, i = 0; y < h; y++)
    for (let x = 0; x < w; x++, i++) {
      const site = (y & 1) * 2 + (x & 1);
      const signal = (scan.mosaic[(y0 + y) * scan.width + x0 + x] - scan.black[site]) / (scan.white - scan.black[site]);
      data[i] = Math.max(1e-4, signal / scan.truth.bare[[0, 1, 1, 2][site]]);
    }
  return { width: w, height: h, data };
}

const pieces = SUBJECTS.map((subject, k) => pieceOf(subject, 500 + k));
const [x0, y0] = [Math.round((LEFT * WIDTH) / 2) * 2, Math.round((TOP * HEIGHT) / 2) * 2];
const [across, down] = [Math.round(WIDE * WIDTH), Math.round(HIGH * HEIGHT)];

/** Pieces side by side within the rebate. */
function film(x: number, y: number, channel: number, scan: number): number {
  const [px, py] = [x - x0, y - y0];
  if (px < 0 || py < 0 || px >= across || py >= down) return 10 ** -BASE[channel];
  const { width, height } = pieces[0];
  const { data } = pieces[(Math.floor(px / width) + 3 * Math.floor(py / height) + scan) % pieces.length];
  return data[(py % height) * width + (px % width)];
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
  compression: "jpeg",
  output,
  frameKeys: [`area: { left: ${LEFT}, top: ${TOP}, width: ${WIDE}, height: ${HIGH} }`],
  film,
});
const workspace = openWorkspace(folder);
const roll = (await loadRoll(workspace.inside(path), workspace))?.resolved;
if (!roll) throw new Error("The bench's own roll could not be read.");
const pool = openPool({ workers, programs: dirname(fileURLToPath(import.meta.url)) });
// Starts every worker and its libraries, so that the clock sees none of it.
const light = workspace.absolute(roll.frames[0].light.blank?.path ?? "");
await Promise.all(Array.from({ length: workers }, () => pool.run("read-light", { path: light, field: false })));

let specks = 0;
const survey = await timed(pool, async () => {
  const report = await surveyRoll(roll, workspace, pool);
  if (report.faults.length > 0) throw new Error(report.faults[0].message);
  specks = report.roll.scans.reduce((sum, scan) => sum + scan.specks.length, 0);
});
const render = await timed(pool, async () => {
  const wish = { frames: roll.frames.map((f) => f.id), outputs: roll.outputs, overwrite: false, resume: false };
  const failed = (await renderRoll(roll, workspace, pool, { ...wish, directory: join(folder, "out") })).find(
    (r) => r.failure,
  );
  if (failed) throw new Error(failed.failure?.message);
});
await pool.close();

const results: readonly (readonly [name: string, value: number, unit: string])[] = [
  ["dark things looked at, per frame", specks / frames, ""],
  ["survey, per frame", survey.wall / frames, "s"],
  ["render, per frame", render.wall / frames, "s"],
  ["survey ÷ render (bar 1)", survey.wall / render.wall, "×"],
  ["the same in processor time", survey.processor / render.processor, "×"],
];
console.log(`${values.case}, ${frames} frames of ${WIDTH} × ${HEIGHT}, ${workers} workers`);
for (const [name, value, unit] of results) console.log(`${name.padEnd(40)} ${value.toFixed(2).padStart(9)} ${unit}`);
if (values.record) {
  const date = new Date().toISOString().slice(0, 10);
  const processor = cpus()[0].model.replaceAll(",", " ");
  for (const [name, value, unit] of results)
    appendFileSync(
      "tests/bench/history.csv",
      `${date},survey,"${values.case}: ${name}",${value.toFixed(2)},${unit},${processor},${process.versions.node}\n`,
    );
}
