/**
 * From a complete 24-megapixel Bayer file to the verdict, and the survey of the same scans, against decoding the same
 * files: one run, one scan at a time, in seconds of processor time, which other work on the machine changes little. The
 * verdict counts from when the file is complete; the positive is on disk before it.
 *
 * Usage: node dist/bench.mjs copy-stand [--film ordinary|worst] [--frames N] [--folder FOLDER] [--no-survey]
 *   --folder keeps the drawn roll for another run
 */
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { measureArrival } from "../../extension/work/copy-stand/measure/measure-arrival.ts";
import { rollView } from "../../extension/work/copy-stand/recipe/roll-view.ts";
import { expectation, judgeArrival, knownRollOf, type Session } from "../../extension/work/copy-stand/session.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { surveyRoll } from "../../extension/work/survey/survey-roll.ts";
import { FILMS } from "./survey-film.ts";
import { BASE, makeRoll } from "./synthetic-roll.ts";

const [WIDTH, HEIGHT] = [6016, 4016];
const [LEFT, TOP, WIDE, HIGH] = [0.05, 0.06, 0.9, 0.88];

const { values } = parseArgs({
  args: process.argv.slice(3),
  allowNegative: true,
  options: {
    film: { type: "string", default: "ordinary" },
    frames: { type: "string", default: "4" },
    folder: { type: "string" },
    survey: { type: "boolean", default: true },
  },
});
const frames = Number(values.frames);
if (!Object.hasOwn(FILMS, values.film) || !(frames >= 1))
  throw new Error(
    "Usage: node dist/bench.mjs copy-stand [--film ordinary|worst] [--frames N] [--folder FOLDER] [--no-survey]",
  );

function drawRoll(folder: string): string {
  const picture = FILMS[values.film]();
  const [x0, y0] = [Math.round((LEFT * WIDTH) / 2) * 2, Math.round((TOP * HEIGHT) / 2) * 2];
  const [across, down] = [Math.round(WIDE * WIDTH), Math.round(HIGH * HEIGHT)];
  return makeRoll(folder, "roll", {
    width: WIDTH,
    height: HEIGHT,
    frames,
    compression: "jpeg",
    frameKeys: [`area: { left: ${LEFT}, top: ${TOP}, width: ${WIDE}, height: ${HIGH} }`],
    film(x, y, channel, scan) {
      const [px, py] = [x - x0, y - y0];
      return px < 0 || py < 0 || px >= across || py >= down ? 10 ** -BASE[channel] : picture(px, py, scan);
    },
  });
}

const kept = values.folder && resolve(values.folder, `${values.film}-${frames}`);
const folder = kept ?? mkdtempSync(join(tmpdir(), "bench-stand-"));
const scratch = mkdtempSync(join(tmpdir(), "bench-stand-"));
process.on("exit", () => {
  rmSync(scratch, { recursive: true, force: true });
  if (!kept) rmSync(folder, { recursive: true, force: true });
});
const path = kept && existsSync(join(kept, "roll.roll.yaml")) ? join(kept, "roll.roll.yaml") : drawRoll(folder);
const workspace = openWorkspace(folder);
const roll = (await loadRoll(workspace.inside(path), workspace))?.resolved;
if (!roll) throw new Error("The bench's own roll could not be read.");
const absolute = (name: string): string => join(folder, "scans", name);
const names = roll.frames.map(({ scans }) => scans[0].name);

/** Processor time of this process, all its threads, in seconds. */
const processor = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};
const seconds = async (run: () => Promise<unknown>): Promise<number> => {
  const from = processor();
  await run();
  return processor() - from;
};

const view = { ...rollView(roll), frames: [] };
let session: Session = [];
let positive = 0;
async function judge(name: string): Promise<void> {
  const { frame, numbers } = expectation(view);
  const from = processor();
  const measured = await measureArrival(
    {
      path: absolute(name),
      name,
      frame,
      numbers,
      roll: knownRollOf(session, view),
      positive: { folder: scratch, maxBytes: 1e9, key: `positive-${session.length}`, long: 1600 },
    },
    { report: (part) => (positive += part > 0 ? processor() - from : 0), checkpoint: () => undefined },
  );
  session = [...session, judgeArrival(session, view, { name, stamp: name, measured }).scan];
}

// The blank first, and one of each job, so that the clock sees no start of a library.
await judge("LIGHT.dng");
await decodeScan(absolute(names[0]));
await judge(names[0]);
positive = 0;
let [decoding, blankDecoding, verdicts] = [0, 0, 0];
for (const name of names) {
  decoding += await seconds(() => decodeScan(absolute(name)));
  verdicts += await seconds(() => judge(name));
}
let survey: number | undefined;
if (values.survey) {
  const pool = openPool({ workers: 1, programs: dirname(fileURLToPath(import.meta.url)) });
  // Once before, so that the clock sees no start of a worker.
  await surveyRoll(roll, workspace, pool);
  // The survey reads the blank as well.
  blankDecoding = await seconds(() => decodeScan(absolute("LIGHT.dng")));
  const from = (await pool.memory()).seconds;
  await surveyRoll(roll, workspace, pool);
  survey = (await pool.memory()).seconds - from;
  await pool.close();
}

const rows: readonly (readonly [name: string, value: number, unit: string])[] = [
  ["decoding, per scan", decoding / frames, "s"],
  ["positive on disk after", positive / frames, "s"],
  ["verdict after", verdicts / frames, "s"],
  ["verdict ÷ decoding (bar 2)", verdicts / decoding, "×"],
  ...(survey === undefined ? [] : [["survey ÷ decoding (bar 1.5)", survey / (decoding + blankDecoding), "×"] as const]),
];
console.log(`${values.film} film, ${frames} scans of ${WIDTH} × ${HEIGHT}, processor time`);
for (const [name, value, unit] of rows) console.log(`${name.padEnd(32)} ${value.toFixed(2).padStart(8)} ${unit}`);
