/**
 * From a complete 24-megapixel Bayer file to the verdict, and the survey of the same scans, against decoding the same
 * files: one run, one thread at a time. The verdict counts from when the file is complete; the positive
 * is on disk before it.
 *
 * Usage: node dist/bench.mjs copy-stand [--film ordinary|worst] [--frames N]
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { rollView } from "../../extension/work/copy-stand/roll-view.ts";
import { expectation, judgeArrival, rollSoFar, type Session } from "../../extension/work/copy-stand/session.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { surveyRoll } from "../../extension/work/survey/survey-roll.ts";
import { FILMS } from "./survey-film.ts";
import { BASE, makeRoll } from "./synthetic-roll.ts";
import { measureArrivalJob } from "../../extension/work/copy-stand/jobs.ts";

const [WIDTH, HEIGHT] = [6016, 4016];
const [LEFT, TOP, WIDE, HIGH] = [0.05, 0.06, 0.9, 0.88];

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { film: { type: "string", default: "ordinary" }, frames: { type: "string", default: "4" } },
});
const frames = Number(values.frames);
if (!Object.hasOwn(FILMS, values.film) || !(frames >= 1))
  throw new Error("Usage: node dist/bench.mjs copy-stand [--film ordinary|worst] [--frames N]");
const picture = FILMS[values.film]();
const [x0, y0] = [Math.round((LEFT * WIDTH) / 2) * 2, Math.round((TOP * HEIGHT) / 2) * 2];
const [across, down] = [Math.round(WIDE * WIDTH), Math.round(HIGH * HEIGHT)];

const folder = mkdtempSync(join(tmpdir(), "bench-stand-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
const path = makeRoll(folder, "roll", {
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
const workspace = openWorkspace(folder);
const roll = (await loadRoll(workspace.inside(path), workspace))?.resolved;
if (!roll) throw new Error("The bench's own roll could not be read.");
const pool = openPool({ workers: 1, programs: dirname(fileURLToPath(import.meta.url)) });
const absolute = (name: string): string => join(folder, "scans", name);
const names = roll.frames.map(({ scans }) => scans[0].name);

const seconds = async (run: () => Promise<unknown>): Promise<number> => {
  const from = performance.now();
  await run();
  return (performance.now() - from) / 1000;
};

const view = { ...rollView(roll), frames: [] };
let session: Session = [];
let positive = 0;
async function judge(name: string): Promise<void> {
  const { frame, numbers } = expectation(view);
  const cache = { folder: join(folder, "cache"), maxBytes: 1e9 };
  const from = performance.now();
  const measured = await pool.run(
    measureArrivalJob,
    {
      path: absolute(name),
      name,
      frame,
      numbers,
      roll: rollSoFar(session, view),
      positive: { ...cache, key: `positive-${session.length}`, long: 1600 },
    },
    { onProgress: (part) => (positive += part > 0 ? (performance.now() - from) / 1000 : 0) },
  );
  session = [...session, judgeArrival(session, view, { name, stamp: name, measured }).scan];
}

// The blank first, and one of each job, so that the clock sees no start of a worker or a library.
await judge("LIGHT.dng");
await decodeScan(absolute(names[0]));
await judge(names[0]);
positive = 0;
let [decoding, verdicts] = [0, 0];
for (const name of names) {
  decoding += await seconds(() => decodeScan(absolute(name)));
  verdicts += await seconds(() => judge(name));
}
const survey = await seconds(() => surveyRoll(roll, workspace, pool));
await pool.close();

const rows: readonly (readonly [name: string, value: number, unit: string])[] = [
  ["decoding, per scan", decoding / frames, "s"],
  ["positive on disk after", positive / frames, "s"],
  ["verdict after", verdicts / frames, "s"],
  ["verdict ÷ decoding (bar 2)", verdicts / decoding, "×"],
  ["survey ÷ decoding (bar 1.5)", survey / decoding, "×"],
];
console.log(`${values.film} film, ${frames} scans of ${WIDTH} × ${HEIGHT}, one worker`);
for (const [name, value, unit] of rows) console.log(`${name.padEnd(32)} ${value.toFixed(2).padStart(8)} ${unit}`);
