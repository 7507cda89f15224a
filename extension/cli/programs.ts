/** The built programs beside the command, and the pool that verbs run their work in. */
import { availableParallelism } from "node:os";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { openPool, type Pool } from "../work/pool/pool.ts";

/** Folder of the running program, where pool.mjs, worker.mjs and the pages' scripts lie beside it. */
export const PROGRAMS = process.env.ROLLBOOK_PROGRAMS ?? dirname(fileURLToPath(import.meta.url));

/** A worker needs about 700 MB at 24 megapixels; more of them than this helps nobody by itself. */
export const MAX_WORKERS = 8;

let open = 0;

/** Whether work is under way in a pool, which takes a moment to stop. */
export const isPoolOpen = (): boolean => open > 0;

/** Runs `use` with a pool, and ends the pool whatever happens. */
export async function withPool<T>(workers: number | undefined, use: (pool: Pool) => Promise<T>): Promise<T> {
  const pool = openPool({
    workers: workers ?? Math.min(MAX_WORKERS, availableParallelism()),
    programs: PROGRAMS,
  });
  open++;
  try {
    return await use(pool);
  } finally {
    await pool.close();
    open--;
  }
}
