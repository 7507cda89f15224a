/**
 * Time and memory of rendering the pictures of a strip of film that was photographed as one scan, against the same
 * pictures on a copy of the scan each, which are decoded one by one.
 *
 * Usage: node dist/bench.mjs strip [--megapixels 24] [--frames 6] [--workers 1]
 */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { makeRoll } from "./synthetic-roll.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    megapixels: { type: "string", default: "24" },
    frames: { type: "string", default: "6" },
    workers: { type: "string", default: "1" },
  },
});
const width = 2 * Math.round(Math.sqrt((Number(values.megapixels) * 1e6 * 3) / 2) / 2);
const height = 2 * Math.round(width / 3);
const count = Number(values.frames);
const workers = Number(values.workers);
const folder = mkdtempSync(join(tmpdir(), "bench-strip-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

makeRoll(folder, "unused", { width, height, frames: 1, compression: "jpeg" });
const ids = Array.from({ length: count }, (_, k) => String(k + 1).padStart(2, "0"));
for (const id of ids) copyFileSync(join(folder, "scans", "F01.dng"), join(folder, "scans", `COPY${id}.dng`));

/** Pictures of 3:2 in a row, 2 of 38 parts between them: 135 film on a scan of 3:2. */
const pitch = 0.96 / count;
const [wide, high] = [(pitch * 36) / 38, (pitch * 36) / 38];
function writeRecipe(name: string, scanOf: (id: string) => string): void {
  const frames = ids.map((id, k) => {
    const area = `{ left: ${(0.02 + k * pitch).toFixed(4)}, top: ${((1 - high) / 2).toFixed(4)}, width: ${wide.toFixed(4)}, height: ${high.toFixed(4)}, tilt: 0.4 }`;
    return `  "${id}": { scan: ${scanOf(id)}, area: ${area} }\n`;
  });
  writeFileSync(
    join(folder, `${name}.roll.yaml`),
    `version: 2
scans: scans
light: { blank: LIGHT.dng }
negative: { base: { density: [0.31, 0.6, 0.76] }, gamma: 0.58 }
output:
  - { name: archive, type: tiff, depth: 16, space: romm }
  - { name: web, type: jpeg, quality: 92, space: srgb }
frames:
${frames.join("")}`,
  );
}

async function render(name: string): Promise<Buffer[]> {
  const roll = (await loadRoll(`${name}.roll.yaml`, openWorkspace(folder)))?.resolved;
  if (!roll) throw new Error("The bench's own recipe cannot be read.");
  const pool = openPool({ workers, programs: dirname(fileURLToPath(import.meta.url)) });
  const directory = join(folder, name);
  const options = { frames: ids, outputs: roll.outputs, directory, overwrite: false, resume: false };
  const started = performance.now();
  const reports = await renderRoll(roll, openWorkspace(folder), pool, options);
  const seconds = (performance.now() - started) / 1000;
  const { peak, seconds: processor } = await pool.memory();
  await pool.close();
  const failed = reports.find(({ failure }) => failure);
  if (failed) throw new Error(failed.failure!.message);
  console.log(
    `${name.padEnd(8)} ${seconds.toFixed(2)} s, ${processor.toFixed(2)} s of processor, peak ${Math.round(peak / 1e6)} MB`,
  );
  return reports.flatMap(({ pictures }) => pictures.map(({ file }) => readFileSync(join(directory, file))));
}

writeRecipe("shared", () => "F01.dng");
writeRecipe("separate", (id) => `COPY${id}.dng`);
console.log(`${count} pictures, ${width} × ${height} pixels a scan, ${workers} workers`);
for (let round = 0; round < 2; round++) {
  const [shared, separate] = [await render("shared"), await render("separate")];
  if (round === 0) {
    const [a, b] = [await Promise.all(shared.map(samplesOf)), await Promise.all(separate.map(samplesOf))];
    const same = a.every((samples, k) => samples.equals(b[k]!));
    console.log(`samples of the pictures are ${same ? "" : "NOT "}the same`);
  }
  for (const name of ["shared", "separate"]) rmSync(join(folder, name), { recursive: true });
}

/** Without the metadata: they name the scan. */
function samplesOf(bytes: Buffer): Promise<Buffer> {
  return sharp(bytes).raw().toBuffer();
}
