/**
 * Where the time of one frame goes: a 24-megapixel raw scan from its file to a finished picture's file, stage by stage,
 * in processor time of one thread with memory kept from frame to frame as a worker keeps it, each stage with its share
 * and its floor. Floors: bytes that have to be read and written ÷ the speed at which this machine copies memory, and
 * for the entropy decoding a native build of LibRaw, where its own tools are installed (Debian: libraw-bin).
 *
 * Usage: node dist/bench.mjs stages [--case jpeg|archive] [--compression none|jpeg] [--passes N] [--record]
 */
import { execFileSync } from "node:child_process";
import { appendFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { channelWeights } from "../../extension/engine/flat-field/light-field.ts";
import { sampleGains } from "../../extension/engine/flat-field/transmittance.ts";
import { startDrawing } from "../../extension/engine/image/resample.ts";
import { sharpen } from "../../extension/engine/image/sharpen.ts";
import { compilePlan } from "../../extension/engine/plan/compile.ts";
import { rowMaker } from "../../extension/engine/plan/row-maker.ts";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { writeAtomic } from "../../extension/scans/files/atomic.ts";
import { encodePicture } from "../../extension/scans/output/encode.ts";
import { checkMosaic } from "../../extension/scans/raw/check-levels.ts";
import { loadLibRaw } from "../../extension/scans/raw/libraw.ts";
import { readRaw } from "../../extension/scans/raw/read-raw.ts";
import { scanOfMosaic } from "../../extension/scans/raw/to-scan.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { fingerprintOf } from "../../extension/scans/files/fingerprint.ts";
import { memorySource } from "../../extension/scans/files/source.ts";
import { mainDirectory } from "../../extension/scans/recognise.ts";
import { readTiff } from "../../extension/scans/tiff/read.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { lightSetup, placeForm } from "../../extension/work/frame/develop.ts";
import { frameSetup, lightTable } from "../../extension/work/frame/frame-setup.ts";
import { scanRegion } from "../../extension/work/frame/scan-region.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { freeMemory, keepScanMemory, takeScanMemory } from "../../extension/work/pool/scan-memory.ts";
import { pictureRequest, planPictures } from "../../extension/work/render/picture-plan.ts";
import { makeRoll } from "./synthetic-roll.ts";

const OUTPUTS: Readonly<Record<string, string>> = {
  archive: "  - { name: archive, type: tiff, depth: 16, space: romm }",
  jpeg: "  - { name: full, type: jpeg, quality: 90 }",
};
const AREA = "area: { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: -0.4 }";
const [WIDTH, HEIGHT] = [6016, 4016];

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    case: { type: "string", default: "jpeg" },
    compression: { type: "string", default: "jpeg" },
    passes: { type: "string", default: "5" },
    record: { type: "boolean", default: false },
  },
});
const output = OUTPUTS[values.case];
const passes = Number(values.passes);
if (!output || !["none", "jpeg"].includes(values.compression) || !(passes >= 1))
  throw new Error("Usage: node dist/bench.mjs stages [--case jpeg|archive] [--compression none|jpeg] [--passes N]");

const folder = mkdtempSync(join(tmpdir(), "bench-stages-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

const STAGES = [
  "read",
  "entropy decoding",
  "check of levels",
  "demosaicing",
  "light and plan",
  "resampling",
  "sharpening",
  "encoding",
  "digest and writing",
] as const;
type Stage = (typeof STAGES)[number];

/** Processor seconds of a stage, one number a pass; and the bytes that it has to read and to write. */
const seconds = new Map<Stage, number[]>(STAGES.map((stage) => [stage, []]));
const traffic = new Map<Stage, number>();

async function measure<T>(stage: Stage, bytes: (result: T) => number, act: () => T | Promise<T>): Promise<T> {
  const before = process.cpuUsage();
  const result = await act();
  const { user, system } = process.cpuUsage(before);
  seconds.get(stage)?.push((user + system) / 1e6);
  traffic.set(stage, bytes(result));
  return result;
}

/** Processor seconds of LibRaw for the same decoding, one number a pass. */
const byLibRaw: number[] = [];

const median = (numbers: readonly number[]): number =>
  numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

/** Bytes a second at which one thread copies memory that fits no cache; read and written bytes both count. */
function copySpeed(): number {
  const [from, to] = [new Uint8Array(150e6).fill(1), new Uint8Array(150e6).fill(2)];
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now();
    to.set(from);
    return (performance.now() - start) / 1000;
  });
  return (2 * from.length) / Math.min(...times);
}

/** Seconds that a native LibRaw takes to unpack the file, without interpolating it; undefined where it is not installed. */
function nativeUnpacking(path: string): number | undefined {
  try {
    const report = execFileSync("dcraw_emu", ["-timing", "-disinterp", "-o", "0", path], { encoding: "utf8" });
    const text = /unpack(?:ing)?[^0-9\n]*([\d.]+)\s*msec/i.exec(report)?.[1];
    return text === undefined ? undefined : Number(text) / 1000;
  } catch {
    return undefined;
  }
}

const file = makeRoll(join(folder, "roll"), "roll", {
  width: WIDTH,
  height: HEIGHT,
  frames: 1,
  compression: values.compression as "none" | "jpeg",
  output,
  frameKeys: [AREA],
});
const workspace = openWorkspace(folder);
const roll = (await loadRoll(workspace.inside(file), workspace))?.resolved;
if (!roll) throw new Error("The synthetic roll could not be resolved.");
const [frame] = roll.frames;
const pool = openPool({ workers: 1, programs: import.meta.dirname });
const { light } = await lightTable(roll, workspace, pool).of(frame);
await pool.close();
const setup = frameSetup(frame, light);
const path = workspace.absolute(frame.scans[0].path);
const { info } = await decodeScan(path);
const directory = join(folder, "out");
const request = pictureRequest(
  roll,
  frame,
  planPictures(roll, frame, workspace, directory, roll.outputs)[0],
  workspace,
);
const { form, spec, metadata } = request;
const weights = setup.light.weights ?? (setup.light.field && channelWeights(setup.light.field));

async function oneFrame(pass: number): Promise<void> {
  freeMemory();
  const bytes = await measure(
    "read",
    (b) => 2 * b.length,
    () => readFileSync(path),
  );
  const tiff = readTiff(memorySource(bytes));
  const main = tiff && mainDirectory(tiff);
  const lib = await loadLibRaw();
  const raw = await measure(
    "entropy decoding",
    (r) => bytes.length + (r.kind === "mosaic" ? r.mosaic.data.byteLength : 0),
    () => readRaw(lib, bytes, Infinity, main),
  );
  if (raw.kind !== "mosaic") throw new Error("The scan is not a mosaic.");
  const begun = process.cpuUsage();
  readRaw(await loadLibRaw(), bytes, Infinity);
  const spent = process.cpuUsage(begun);
  byLibRaw.push((spent.user + spent.system) / 1e6);
  const { mosaic } = raw;
  await measure(
    "check of levels",
    () => mosaic.data.byteLength,
    () => checkMosaic(path, mosaic),
  );
  const part = (width: number, height: number) => scanRegion({ width, height }, setup, [form]);
  const wanted = part(mosaic.width, mosaic.height);
  const sites = wanted.width * wanted.height;
  const scan = await measure(
    "demosaicing",
    () => 2 * sites + 6 * sites,
    () => scanOfMosaic(mosaic, false, { memory: takeScanMemory, part }),
  );
  const { placement } = placeForm(scan, setup.framing, form);
  const plan = compilePlan(setup.look, form.space, weights, {
    scanWidth: scan.width,
    scanHeight: scan.height,
    framing: setup.framing,
  });
  const source = lightSetup(setup.light, info);
  sampleGains(scan, source);
  const rows = rowMaker(scan, source, [plan]);
  const drawing = startDrawing(placement, plan.channels, scan);
  const { from, to, firstRow, lastRow } = drawing.span;
  const planned = 6 * (to - from) * (lastRow + 1 - firstRow);
  // The two run row by row in turn, and are measured apart: the same rows twice, with and without drawing.
  await measure(
    "light and plan",
    () => planned,
    () => {
      for (let y = firstRow; y <= lastRow; y++) rows.row(y, from, to);
    },
  );
  const before = process.cpuUsage();
  for (let y = firstRow; y <= lastRow; y++) drawing.row(y, rows.row(y, from, to)[0]);
  const picture = drawing.finish();
  const both = process.cpuUsage(before);
  const drawn = (both.user + both.system) / 1e6 - (seconds.get("light and plan")?.at(-1) ?? 0);
  seconds.get("resampling")?.push(drawn);
  traffic.set("resampling", planned + picture.data.byteLength);
  await measure(
    "sharpening",
    () => (form.sharpen > 0 ? 2 * picture.data.byteLength : 0),
    () => sharpen(picture, form.sharpen),
  );
  freeMemory();
  const encoded = await measure(
    "encoding",
    (b) => picture.data.byteLength + b.length,
    () => encodePicture(picture, spec, metadata),
  );
  await measure(
    "digest and writing",
    () => 3 * encoded.length,
    async () => {
      const target = join(folder, `picture-${pass}`);
      await Promise.all([fingerprintOf(encoded), writeAtomic(target, encoded)]);
    },
  );
  keepScanMemory(scan.data);
}

await oneFrame(0);
for (const numbers of [...seconds.values(), byLibRaw]) numbers.length = 0;
for (let pass = 1; pass <= passes; pass++) await oneFrame(pass);

const speed = copySpeed();
const native = nativeUnpacking(path);
const medians = STAGES.map((stage) => [stage, median(seconds.get(stage) ?? [])] as const);
const total = medians.reduce((sum, [, time]) => sum + time, 0);
console.log(
  `${values.case}, ${WIDTH} × ${HEIGHT}, scans compressed: ${values.compression}; median of ${passes}; memory is copied at ${(speed / 1e9).toFixed(1)} GB/s`,
);
console.log("stage                  seconds   share   floor   times the floor");
for (const [stage, time] of medians) {
  const floor = stage === "entropy decoding" && native !== undefined ? native : (traffic.get(stage) ?? 0) / speed;
  const columns = [
    time.toFixed(3).padStart(7),
    `${((100 * time) / total).toFixed(0)} %`.padStart(7),
    floor.toFixed(3).padStart(7),
    floor > 0 ? (time / floor).toFixed(1).padStart(8) : "",
  ];
  console.log(`${stage.padEnd(22)} ${columns.join(" ")}`);
}
console.log(`${"one frame".padEnd(22)} ${total.toFixed(3).padStart(7)}`);
console.log(`entropy decoding by LibRaw's WebAssembly: ${median(byLibRaw).toFixed(3)} s`);
if (native === undefined) console.log("No native LibRaw here: the floor of entropy decoding is memory speed.");
if (values.record) {
  const date = new Date().toISOString().slice(0, 10);
  const processor = cpus()[0].model.replaceAll(",", " ");
  for (const [stage, time] of [...medians, ["one frame", total] as const])
    appendFileSync(
      "tests/bench/history.csv",
      `${date},stages,"${values.case} ${values.compression}: ${stage}",${time.toFixed(3)},s,${processor},${process.versions.node}\n`,
    );
}
