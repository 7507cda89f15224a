/**
 * Time to the first picture of an opened roll of 24-megapixel scans, as the preview's host spends it: the light measured,
 * the scan decoded, the proxy made and handed over. Beside it what is bounded by it: one half-size decode of the same scan.
 * Usage: node dist/bench.mjs first-picture [--record]
 */
import { appendFileSync, mkdtempSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { makePictures } from "../../extension/editor/preview/pictures.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { makeRoll } from "./synthetic-roll.ts";

const folder = mkdtempSync(join(tmpdir(), "bench-first-"));
const pool = openPool({ workers: 2, programs: dirname(fileURLToPath(import.meta.url)) });

async function timed<T>(name: string, run: () => Promise<T>): Promise<T> {
  const start = performance.now();
  const value = await run();
  const ms = (performance.now() - start).toFixed(0);
  console.log(`${ms.padStart(7)} ms  ${name}`);
  if (process.argv.includes("--record"))
    appendFileSync(
      "tests/bench/history.csv",
      `${[new Date().toISOString().slice(0, 10), "first-picture", JSON.stringify(name), ms, "ms", cpus()[0].model, process.versions.node].join(",")}\n`,
    );
  return value;
}

try {
  const path = makeRoll(folder, "roll", { width: 6000, height: 4000, frames: 2, compression: "jpeg" });
  const workspace = openWorkspace(folder);
  const loaded = await loadRoll(workspace.inside(path), workspace);
  const roll = loaded?.resolved;
  if (!roll) throw new Error("The bench's own roll cannot be read.");
  const pictures = makePictures(pool, { folder: join(folder, "cache"), maxBytes: 1e9 });
  const { signal } = new AbortController();
  const show = (at: number, want: "picture" | "thumbnail"): Promise<unknown> =>
    pictures.proxy({ roll, workspace }, roll.frames[at].id, want, signal);
  await timed("first picture: process started, blank and scan decoded", () => show(0, "picture"));
  await timed("next frame's picture: scan decoded", () => show(1, "picture"));
  await timed("a picture again: from the cache", () => show(0, "picture"));
  await timed("a thumbnail: from the cache", () => show(1, "thumbnail"));
  const scan = workspace.absolute(roll.frames[0].scans[0].path);
  await decodeScan(scan, { half: true });
  await timed("one half-size decode alone, for comparison", () => decodeScan(scan, { half: true }));
} finally {
  await pool.close();
  rmSync(folder, { recursive: true, force: true });
}
