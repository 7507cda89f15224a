/**
 * Memory and time of one worker for a frame that is merged from several scans, and for one in three-colour light (of three
 * scans), against the same frame of one scan.
 *
 * Usage: node dist/bench.mjs bracket [--megapixels 24] [--scans 3]
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { RGGB, writeDng } from "../witness/raw/dng.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { megapixels: { type: "string", default: "24" }, scans: { type: "string", default: "3" } },
});
const width = 2 * Math.round(Math.sqrt((Number(values.megapixels) * 1e6 * 3) / 2) / 2);
const height = 2 * Math.round(width / 3);
const count = Number(values.scans);
const folder = mkdtempSync(join(tmpdir(), "bench-bracket-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

/** Waves of many lengths over a ramp from thin to dense film, with noise; moved by some pixels. */
function scan(exposure: number, shift: number): Uint8Array {
  const data = new Uint16Array(width * height);
  const waves = Float32Array.from(
    { length: width + height + 64 },
    (_, i) => 0.1 * Math.sin(i / 2.3) + 0.2 * Math.sin(i / 17) + 0.3 * Math.sin(i / 131),
  );
  let state = 12_345 + Math.round(1000 * exposure);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      const density = 0.2 + (2 * x) / width + waves[x + y]! + waves[Math.abs(x - y + height) % waves.length]! / 2;
      const signal = exposure * 10 ** -density;
      data[y * width + ((x + shift) % width)] = Math.min(
        16_000,
        600 + 15_400 * signal + (state & 31) * Math.sqrt(signal + 0.01),
      );
    }
  const exif = {
    shutter: [Math.round(exposure * 64), 3840],
    aperture: 8,
    iso: 100,
    time: "2026:05:02 10:00:00",
  } as const;
  return writeDng({ width, height, data, pattern: RGGB, bits: 14, black: 600, white: 16_000, exif });
}

mkdirSync(join(folder, "scans"));
writeFileSync(join(folder, "scans", "LIGHT.dng"), scan(0.8, 0));
const names = Array.from({ length: count }, (_, i) => `F${i}.dng`);
for (const [i, name] of names.entries()) writeFileSync(join(folder, "scans", name), scan(4 ** (i % 3), 2 * i));
writeFileSync(
  join(folder, "bench.roll.yaml"),
  `version: 2
scans: scans
negative: { base: { density: [0.3, 0.6, 0.8] }, gamma: 0.55 }
output:
  - { name: archive, type: tiff, depth: 16, space: romm }
frames:
  "01": { scan: ${names[0]} }
  "02": { exposures: [${names.join(", ")}] }
  "03": { channels: { red: ${names[1] ?? names[0]}, green: ${names[0]}, blue: ${names[2] ?? names[0]} } }
`,
);
const workspace = openWorkspace(folder);
const roll = (await loadRoll("bench.roll.yaml", workspace))?.resolved;
if (!roll) throw new Error("The bench's own recipe cannot be read.");
console.log(`${count} scans of ${width} × ${height}, ${((width * height) / 1e6).toFixed(1)} megapixels`);
const frames = { "01": "one scan", "02": "merged", ...(count === 3 ? { "03": "three-colour" } : {}) };
for (const [frame, label] of Object.entries(frames)) {
  const pool = openPool({ workers: 1, programs: dirname(fileURLToPath(import.meta.url)) });
  const started = performance.now();
  const [report] = await renderRoll(roll, workspace, pool, {
    frames: [frame],
    outputs: roll.outputs,
    directory: join(folder, `out-${frame}`),
    overwrite: false,
    resume: false,
  });
  const seconds = (performance.now() - started) / 1000;
  const { peak } = await pool.memory();
  await pool.close();
  if (!report || report.failure) throw new Error(report?.failure?.message ?? "There is no report.");
  for (const warning of report.warnings) console.log(warning);
  console.log(`${label.padEnd(12)}   peak ${Math.round(peak / 1e6)} MB, ${seconds.toFixed(1)} s`);
}
