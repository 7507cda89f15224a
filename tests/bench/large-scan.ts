/**
 * The memory that one worker takes for a frame of a hundred megapixels, from scan to a 16-bit TIFF and a small JPEG.
 *
 * Usage: node dist/bench.mjs large-scan [--megapixels 100]
 */
import { mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { RGGB, writeDng } from "../witness/raw/dng.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { megapixels: { type: "string", default: "100" } },
});
const width = 2 * Math.round(Math.sqrt((Number(values.megapixels) * 1e6 * 4) / 3) / 2);
const height = 2 * Math.round((width * 3) / 8);
const folder = mkdtempSync(join(tmpdir(), "bench-large-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

/** A ramp with noise: what it shows does not matter, that it does not compress away does. */
function scan(level: number): Uint8Array {
  const data = new Uint16Array(width * height);
  let state = 12_345;
  for (let i = 0; i < data.length; i++) {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    data[i] = 600 + level * (0.2 + (0.8 * (i % width)) / width) + (state & 255);
  }
  const exif = { shutter: [1, 60], aperture: 8, iso: 100, time: "2026:05:02 10:00:00", lens: "Macro" } as const;
  return writeDng({ width, height, data, pattern: RGGB, bits: 16, black: 600, white: 16_000, exif });
}

mkdirSync(join(folder, "scans"));
writeFileSync(join(folder, "scans", "LIGHT.dng"), scan(14_000));
writeFileSync(join(folder, "scans", "F01.dng"), scan(3000));
const recipe = join(folder, "large.roll.yaml");
writeFileSync(
  recipe,
  `version: 1
scans: scans
light: { blank: LIGHT.dng }
negative: { base: { density: [0.3, 0.6, 0.8] }, gamma: 0.55 }
output:
  - { name: archive, type: tiff, depth: 16, space: romm }
  - { name: web, type: jpeg, long: 2400 }
frames:
  "01": { scan: F01.dng, area: { left: 0.02, top: 0.02, width: 0.96, height: 0.96, tilt: -0.4 } }
`,
);
const workspace = openWorkspace(folder);
const roll = (await loadRoll("large.roll.yaml", workspace))?.resolved;
if (!roll) throw new Error("The bench's own recipe cannot be read.");
const pool = openPool({ workers: 1, programs: dirname(fileURLToPath(import.meta.url)) });
const started = performance.now();
const [report] = await renderRoll(roll, workspace, pool, {
  frames: ["01"],
  outputs: roll.outputs,
  directory: join(folder, "out"),
  overwrite: false,
  resume: false,
});
const seconds = (performance.now() - started) / 1000;
const { peak } = await pool.memory();
await pool.close();
if (!report || report.failure) throw new Error(report?.failure?.message ?? "There is no report.");
const size = statSync(join(folder, "scans", "F01.dng")).size;
console.log(
  `scan                     ${width} × ${height}, ${((width * height) / 1e6).toFixed(1)} megapixels, ${Math.round(size / 1e6)} MB`,
);
console.log(
  `picture                  ${report.pictures[0]!.width} × ${report.pictures[0]!.height}, ${Math.round(report.pictures[0]!.bytes / 1e6)} MB`,
);
console.log(
  `peak of the process      ${Math.round(peak / 1e6)} MB, ${(peak / (width * height)).toFixed(1)} bytes a pixel of the scan`,
);
console.log(`time                     ${seconds.toFixed(1)} s`);
