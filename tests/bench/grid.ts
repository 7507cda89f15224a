/**
 * Memory and time of one worker for a frame that is joined from a grid of scans: measuring where they lie, and the picture
 * from scans to a 16-bit TIFF; and the preview's own reduced picture, first and again.
 *
 * Usage: node dist/bench.mjs grid [--megapixels 24] [--rows 2] [--columns 3] [--overlap 0.28]
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { applyChanges } from "../../extension/recipe/edit/changes.ts";
import { editRecipe } from "../../extension/recipe/edit/edit.ts";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { lightTable } from "../../extension/work/frame/frame-setup.ts";
import { linearProxyJob } from "../../extension/work/frame/jobs.ts";
import { partsOf } from "../../extension/work/frame/join/frame-join.ts";
import { joinEdits, joinFrames } from "../../extension/work/frame/join/join-frames.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { RGGB, writeDng } from "../witness/raw/dng.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    megapixels: { type: "string", default: "24" },
    rows: { type: "string", default: "2" },
    columns: { type: "string", default: "3" },
    overlap: { type: "string", default: "0.28" },
  },
});
const width = 2 * Math.round(Math.sqrt((Number(values.megapixels) * 1e6 * 3) / 2) / 2);
const height = 2 * Math.round(width / 3);
const [rows, columns, overlap] = [Number(values.rows), Number(values.columns), Number(values.overlap)];
const folder = mkdtempSync(join(tmpdir(), "bench-grid-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

/** Grain of the film: the same number at the same place, whichever scan shows it; two pixels wide. */
function grain(x: number, y: number): number {
  let h = Math.imul(x >> 1, 0x27d4eb2d) ^ Math.imul(y >> 1, 0x165667b1);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  return ((h ^ (h >>> 13)) >>> 0) / 2 ** 32 - 0.5;
}

/** The part of a large film at (left, top): soft waves and grain, with noise of the scan's own. */
function scan(left: number, top: number, exposure: number): Uint8Array {
  const data = new Uint16Array(width * height);
  const across = Float32Array.from({ length: width }, (_, x) => Math.sin((left + x) / 231) + Math.sin((left + x) / 47));
  let state = 12_345 + left + top;
  for (let y = 0; y < height; y++) {
    const down = Math.sin((top + y) / 197) + Math.sin((top + y) / 53);
    for (let x = 0; x < width; x++) {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      const density = 0.8 + 0.12 * across[x]! + 0.12 * down + 0.15 * grain(left + x, top + y);
      const signal = exposure * 10 ** -density;
      data[y * width + x] = Math.min(16_000, 600 + 15_400 * signal + (state & 63));
    }
  }
  const exif = { shutter: [1, 60], aperture: 8, iso: 100, time: "2026:05:02 10:00:00" } as const;
  return writeDng({ width, height, data, pattern: RGGB, bits: 14, black: 600, white: 16_000, exif });
}

mkdirSync(join(folder, "scans"));
const names: string[] = [];
for (let row = 0; row < rows; row++)
  for (let column = 0; column < columns; column++) {
    const name = `G${row}${column}.dng`;
    const [left, top] = [column * width + 7 * row, row * height + 5 * column].map((v) => Math.round(v * (1 - overlap)));
    writeFileSync(join(folder, "scans", name), scan(left!, top!, 0.9 + 0.02 * ((row + column) % 3)));
    names.push(name);
  }
const file = "bench.roll.yaml";
const text = `version: 2
scans: scans
negative: { base: { density: [0.3, 0.3, 0.3] }, gamma: 0.55 }
output:
  - { name: archive, type: tiff, depth: 16, space: romm }
frames:
  "01": { scans: [${names.toReversed().join(", ")}] }
`;
writeFileSync(join(folder, file), text);
const workspace = openWorkspace(folder);
const load = async () => {
  const roll = (await loadRoll(file, workspace))?.resolved;
  if (!roll) throw new Error("The bench's own recipe cannot be read.");
  return roll;
};
const programs = dirname(fileURLToPath(import.meta.url));
console.log(`${rows} × ${columns} scans of ${width} × ${height}, ${((width * height) / 1e6).toFixed(1)} megapixels`);

/** Prints time and peak memory of work in a worker process of its own. */
async function timed<T>(what: string, work: (pool: ReturnType<typeof openPool>) => Promise<T>): Promise<T> {
  const pool = openPool({ workers: 1, programs });
  const started = performance.now();
  const value = await work(pool);
  const seconds = (performance.now() - started) / 1000;
  const { peak } = await pool.memory();
  await pool.close();
  console.log(`${what.padEnd(24)} ${seconds.toFixed(1).padStart(6)} s   peak ${Math.round(peak / 1e6)} MB`);
  return value;
}

const [measured] = await timed("measured", async (pool) => joinFrames(await load(), workspace, pool, { again: false }));
if (!measured?.join) throw new Error(measured?.problem ?? "Nothing was measured.");
console.log(`${measured.overlaps!.length} overlaps, the worst off by ${measured.residual} px`);
const edited = applyChanges(text, editRecipe(text, joinEdits([measured]), { file }));
writeFileSync(join(folder, file), edited);

const roll = await load();
const report = await timed("rendered", async (pool) => {
  const options = {
    frames: ["01"],
    outputs: roll.outputs,
    directory: join(folder, "out"),
    overwrite: false,
    resume: false,
  };
  const [made] = await renderRoll(roll, workspace, pool, options);
  if (!made || made.failure) throw new Error(made?.failure?.message ?? "There is no report.");
  return made;
});
const [picture] = report.pictures;
console.log(`picture                  ${picture!.width} × ${picture!.height}, ${Math.round(picture!.bytes / 1e6)} MB`);

await timed("preview, first and again", async (pool) => {
  const [frame] = roll.frames;
  const { light } = await lightTable(roll, workspace, pool).of(frame!);
  const { join: parts, spots } = partsOf(roll, frame!, workspace)!;
  const cache = { folder: join(folder, "cache"), maxBytes: 1e9 };
  for (let round = 0; round < 2; round++) {
    const started = performance.now();
    const path = parts!.scans[0]!.path;
    const made = await pool.run(linearProxyJob, { path, join: parts, light, spots, cache, want: "picture" });
    console.log(`  ${made.width} × ${made.height} in ${((performance.now() - started) / 1000).toFixed(2)} s`);
  }
});
