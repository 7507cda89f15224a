/** A decoder that hangs, breaks down or takes its process with it: it is ended and started again, and only its frame fails. */
import { existsSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { renderFrameJob } from "../../extension/work/render/jobs.ts";
import { renderRoll } from "../../extension/work/render/render-roll.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { makeRoll } from "../bench/synthetic-roll.ts";

const programs = process.env.ROLLBOOK_PROGRAMS ?? fileURLToPath(new URL("../../dist", import.meta.url));
let folder = "";
beforeAll(() => {
  if (!existsSync(join(programs, "pool.mjs"))) throw new Error("dist/pool.mjs is missing: run npm run build first.");
  folder = mkdtempSync(join(tmpdir(), "decoder-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/**
 * Milliseconds for one frame. Far above what a frame of this size takes on a busy machine with a worker to start first,
 * far below the 600 s of the command.
 */
const LIMIT = 30_000;

test.each([
  ["hangs", "timed-out"],
  ["leaves", "worker-died"],
  ["fills", "worker-died"],
  ["kills", "pool-died"],
])(
  "a decoder that %s fails its frame alone, with %s",
  async (how, code) => {
    const home = join(folder, how);
    const file = makeRoll(home, "a", { width: 96, height: 64, frames: 5 });
    renameSync(join(home, "scans", "F03.dng"), join(home, "scans", `${how}.dng`));
    writeFileSync(file, readFileSync(file, "utf8").replace("F03.dng", `${how}.dng`));
    const workspace = openWorkspace(home);
    const roll = (await loadRoll("a.roll.yaml", workspace))?.resolved;
    if (!roll) throw new Error("The test's own recipe cannot be read.");
    const real = openPool({
      workers: 2,
      programs,
      worker: fileURLToPath(new URL("programs/worker.mjs", import.meta.url)),
      environment: {
        ROLLBOOK_WORKER: pathToFileURL(join(programs, "worker.mjs")).href,
        NODE_OPTIONS: "--max-old-space-size=200",
      },
    });
    const pool: typeof real = {
      ...real,
      run: (job, payload, options) =>
        real.run(job, payload, { ...options, ...(job.name === renderFrameJob.name ? { limit: LIMIT } : {}) }),
    };
    const begun = performance.now();
    try {
      const options = {
        frames: roll.frames.map((f) => f.id),
        outputs: roll.outputs,
        directory: join(home, "out"),
        overwrite: false,
        resume: false,
      };
      const reports = await renderRoll(roll, workspace, pool, options);
      expect(reports.map((r) => r.status)).toEqual(["written", "written", "failed", "written", "written"]);
      expect(reports[2]?.failure?.code).toBe(code);
      expect(reports[2]?.failure?.message).toMatch(/\.$/);
      // A frame whose worker died is tried a second time.
      expect(performance.now() - begun).toBeLessThan(4 * LIMIT);
    } finally {
      await pool.close();
    }
  },
  5 * LIMIT,
);
