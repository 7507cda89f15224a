/**
 * A whole roll of 24-megapixel scans, rendered: against decoding and encoding alone, with two workers against one, and
 * the memory a worker takes for 4 and for 16 frames.
 *
 * Usage: node dist/bench.mjs render [--case archive|jpeg|both] [--frames N] [--compression none|jpeg] [--workers 1,2] [--memory] [--record]
 */
import { appendFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import type { ResolvedRoll } from "../../extension/recipe/resolve/resolve.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { drawPictures } from "../../extension/work/frame/develop.ts";
import { eachLimited } from "../../extension/work/pool/each-limited.ts";
import { frameSetup, lightTable } from "../../extension/work/frame/frame-setup.ts";
import { pictureRequest, planPictures } from "../../extension/work/render/picture-plan.ts";
import { defineJob } from "../../extension/work/pool/job.ts";
import { openPool, type Pool } from "../../extension/work/pool/pool.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { openWorkspace, type Workspace } from "../../extension/work/files/workspace.ts";
import type { BareRequest } from "./bare-worker.ts";
import { makeRoll } from "./synthetic-roll.ts";
import { readLightJob } from "../../extension/work/frame/jobs.ts";

const OUTPUTS: Readonly<Record<string, string>> = {
  archive: "  - { name: archive, type: tiff, depth: 16, space: romm }",
  jpeg: "  - { name: full, type: jpeg, quality: 90 }",
  both: "  - { name: archive, type: tiff, depth: 16, space: romm }\n  - { name: web, type: jpeg, quality: 90, long: 2400, sharpen: 0.4 }",
};
const AREA = "area: { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: -0.4 }";
const programs = dirname(fileURLToPath(import.meta.url));

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    case: { type: "string", default: "archive" },
    frames: { type: "string", default: "6" },
    compression: { type: "string", default: "jpeg" },
    workers: { type: "string", default: "1,2" },
    memory: { type: "boolean", default: false },
    record: { type: "boolean", default: false },
  },
});
const frames = Number(values.frames);
const pools = values.workers.split(",").map(Number);
const output = OUTPUTS[values.case];
if (!output || !(frames >= 1) || !pools.every((count) => count >= 1) || !["none", "jpeg"].includes(values.compression))
  throw new Error(
    "Usage: node dist/bench.mjs render [--case archive|jpeg|both] [--frames N] [--compression none|jpeg] [--workers 1,2]",
  );

const folder = mkdtempSync(join(tmpdir(), "bench-render-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

interface Subject {
  readonly roll: ResolvedRoll;
  readonly workspace: Workspace;
}

async function subject(name: string, count: number): Promise<Subject> {
  const compression = values.compression === "none" ? "none" : "jpeg";
  const settings = {
    width: 6016,
    height: 4016,
    frames: count,
    scans: 4,
    compression,
    output,
    frameKeys: [AREA],
  } as const;
  const file = makeRoll(join(folder, name), name, settings);
  const workspace = openWorkspace(folder);
  const resolved = (await loadRoll(workspace.inside(file), workspace))?.resolved;
  if (!resolved) throw new Error("The synthetic roll could not be resolved.");
  return { roll: resolved, workspace };
}

/** Seconds of a render of the whole roll by a pool that has already started. */
async function render({ roll, workspace }: Subject, pool: Pool): Promise<number> {
  const directory = mkdtempSync(join(folder, "out-"));
  const options = {
    frames: roll.frames.map((f) => f.id),
    outputs: roll.outputs,
    directory,
    overwrite: false,
    resume: false,
  };
  const start = performance.now();
  const reports = await renderRoll(roll, workspace, pool, options);
  const seconds = (performance.now() - start) / 1000;
  const failed = reports.find((r) => r.failure);
  if (failed) throw new Error(failed.failure?.message);
  rmSync(directory, { recursive: true });
  return seconds;
}

const open = (workers: number, worker?: string): Pool => openPool({ workers, programs, worker });

/** Starts every worker and its libraries, so that the clock sees none of it. */
const warm = async ({ roll, workspace }: Subject, pool: Pool): Promise<void> => {
  const path = workspace.absolute(roll.frames[0].light.blank?.path ?? "");
  await Promise.all(Array.from({ length: pool.workers }, () => pool.run(readLightJob, { path, field: false })));
};

interface Times {
  /** By the clock. */
  readonly wall: number;
  /** Processor time: hardly moved by what else the computer is doing. */
  readonly processor: number;
}

/** What the same decoding, encoding and writing takes with as many workers. */
async function bare(of: Subject, workers: number): Promise<Times> {
  const orders = await bareRequests(of);
  const pool = open(workers, fileURLToPath(import.meta.url));
  const run = (order: BareRequest): Promise<number> =>
    pool.run(defineJob<(order: BareRequest) => Promise<number>>("bare"), order);
  await Promise.all(Array.from({ length: workers }, () => run(orders[0])));
  const before = (await pool.memory()).seconds;
  const times = await eachLimited(orders, workers, run);
  const processor = (await pool.memory()).seconds - before;
  await pool.close();
  return { wall: times.reduce((a, b) => a + b, 0) / 1000 / workers, processor };
}

/** The pictures are drawn once, for the first frame, and given to the encoder as they are. */
async function bareRequests({ roll, workspace }: Subject): Promise<BareRequest[]> {
  const [frame] = roll.frames;
  const helper = open(1);
  const { light } = await lightTable(roll, workspace, helper).of(frame);
  await helper.close();
  const { scan, info } = await decodeScan(workspace.absolute(frame.scans[0].path));
  const directory = join(folder, "bare");
  mkdirSync(directory, { recursive: true });
  const orders = planPictures(roll, frame, workspace, directory, roll.outputs).map((p) =>
    pictureRequest(roll, frame, p, workspace),
  );
  const drawn = drawPictures(
    scan,
    info,
    frameSetup(frame, light),
    orders.map((o) => o.form),
    () => {},
  );
  const pictures = drawn.map(({ width, height, data }, k) => {
    const samples = join(directory, `${k}.raw`);
    writeFileSync(samples, data);
    return { samples, width, height, spec: orders[k].spec };
  });
  return roll.frames.map((f, i) => ({
    scan: workspace.absolute(f.scans[0].path),
    pictures: pictures.map((p, k) => ({ ...p, path: join(directory, `${i}-${k}`) })),
  }));
}

const results: [name: string, value: number, unit: string][] = [];
const printFigure = (name: string, value: number, unit: string): void => {
  results.push([name, value, unit]);
  console.log(`${name.padEnd(52)} ${value.toFixed(2).padStart(8)} ${unit}`);
};

async function speed(): Promise<void> {
  const roll = await subject("speed", frames);
  const [walls, bareWalls]: [number[], number[]] = [[], []];
  for (const workers of pools) {
    const alone = await bare(roll, workers);
    const pool = open(workers);
    await warm(roll, pool);
    const before = (await pool.memory()).seconds;
    const whole = await render(roll, pool);
    const processor = (await pool.memory()).seconds - before;
    await pool.close();
    walls.push(whole);
    bareWalls.push(alone.wall);
    const who = `${workers} worker${workers > 1 ? "s" : ""}`;
    printFigure(`${who}: render, per frame`, whole / frames, "s");
    printFigure(`${who}: decode + encode alone, per frame`, alone.wall / frames, "s");
    printFigure(`${who}: render ÷ decode + encode (bar 1.25)`, whole / alone.wall, "×");
    printFigure(`${who}: the same in processor time`, processor / alone.processor, "×");
  }
  if (values.workers !== "1,2") return;
  printFigure("two workers ÷ one (bar 1.8)", walls[0] / walls[1], "×");
  // What the machine itself allows: the same of decoding and encoding alone.
  printFigure("two workers ÷ one: decode + encode alone", bareWalls[0] / bareWalls[1], "×");
}

async function memory(): Promise<void> {
  for (const count of [4, 16]) {
    const roll = await subject(`memory-${count}`, count);
    for (const workers of pools) {
      const pool = open(workers);
      await render(roll, pool);
      const { peak } = await pool.memory();
      await pool.close();
      printFigure(
        `${count} frames, ${workers} worker${workers > 1 ? "s" : ""}: peak memory a worker (bar 700)`,
        peak / workers / 1e6,
        "MB",
      );
    }
  }
}

console.log(`${values.case}, ${frames} frames of 6016 × 4016, scans compressed: ${values.compression}`);
await (values.memory ? memory() : speed());
if (values.record) {
  const date = new Date().toISOString().slice(0, 10);
  const processor = cpus()[0].model.replaceAll(",", " ");
  const label = `${values.case} ${values.compression}`;
  for (const [name, value, unit] of results)
    appendFileSync(
      "tests/bench/history.csv",
      `${date},render,"${label}: ${name}",${value.toFixed(2)},${unit},${processor},${process.versions.node}\n`,
    );
}
