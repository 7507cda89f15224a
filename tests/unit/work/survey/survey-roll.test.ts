/** The survey of a roll as work: what is asked of the pool, what a broken scan costs, and how it is stopped. */
import { JobError } from "../../../../extension/failure.ts";
import { describe, expect, it } from "vitest";
import type { ResolvedRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import type { Job } from "../../../../extension/work/pool/job.ts";
import type { Pool, RunOptions } from "../../../../extension/work/pool/pool.ts";
import type { SurveyScan } from "../../../../extension/work/survey/survey-scan.ts";
import { surveyRoll } from "../../../../extension/work/survey/survey-roll.ts";
import type { Workspace } from "../../../../extension/work/files/workspace.ts";
import { open } from "../../recipe/language/memory.ts";
import { files, longRoll } from "../../recipe/language/recipes.ts";

const workspace = { absolute: (path: string) => path } as Workspace;

/** A pool of two workers whose jobs end when the test says so, or when they are cancelled. */
function stage() {
  const jobs: {
    readonly name: string;
    readonly path: string;
    readonly frames: readonly { readonly frame: string; readonly shared: boolean }[];
    fail(message: string): void;
  }[] = [];
  const pool = {
    workers: 2,
    run: ({ name }: Job<unknown, unknown>, { path, frames: own }: SurveyScan, { signal }: RunOptions = {}) =>
      new Promise((_, reject) => {
        jobs.push({
          name,
          path,
          frames: own,
          fail: (message) => reject(new JobError({ code: "broken", message })),
        });
        signal?.addEventListener("abort", () => reject(new JobError({ code: "cancelled", message: "Cancelled." })));
      }),
  } as unknown as Pool;
  return { pool, jobs };
}

const frames = async (count: number): Promise<ResolvedRoll> => (await open(longRoll(count), files)).reading.resolved;
/** Lets everything go on that can. */
const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

describe("a survey", () => {
  it("goes on without a scan that cannot be read, and tells how far it is", async () => {
    const { pool, jobs } = stage();
    const steps: string[] = [];
    const made = surveyRoll(
      await frames(5),
      workspace,
      pool,
      {},
      {
        onProgress: (done, total, frame) => steps.push(`${frame}: ${done} of ${total}`),
      },
    );
    for (let i = 0; i < 5; i++) {
      await settled();
      jobs[i]!.fail(`Scan ${i + 1} ends too early.`);
    }
    const { failures: faults, roll } = await made;
    expect(faults).toEqual([1, 2, 3, 4, 5].map((i) => ({ frame: `0${i}`, message: `Scan ${i} ends too early.` })));
    expect(roll.scans).toEqual([]);
    expect(steps).toEqual([1, 2, 3, 4, 5].map((i) => `0${i}: ${i} of 5`));
  });

  it("decodes a scan once for all its frames, and names each where it cannot be read", async () => {
    const { pool, jobs } = stage();
    const roll = await frames(4);
    const { scans } = roll.frames[0];
    const shared = { ...roll, frames: roll.frames.map((frame, i) => (i < 3 ? { ...frame, scans } : frame)) };
    const made = surveyRoll(shared, workspace, pool);
    await settled();
    expect(jobs.map(({ path }) => path)).toEqual([scans[0].path, roll.frames[3].scans[0].path]);
    expect(jobs[0].frames.map(({ frame, shared: several }) => [frame, several])).toEqual([
      ["01", true],
      ["02", true],
      ["03", true],
    ]);
    expect(jobs[1].frames.map((one) => one.shared)).toEqual([false]);
    for (const job of jobs) job.fail("It ends too early.");
    expect((await made).failures.map(({ frame }) => frame)).toEqual(["01", "02", "03", "04"]);
  });

  it("that is stopped begins no other scan, and gives no half report", async () => {
    const { pool, jobs } = stage();
    const stop = new AbortController();
    const made = surveyRoll(await frames(36), workspace, pool, {}, { signal: stop.signal });
    await settled();
    jobs[0]!.fail("Scan 1 ends too early.");
    await settled();
    // One more than there are workers, so that none of them waits; and one in place of the first.
    expect(jobs).toHaveLength(4);
    stop.abort();
    await expect(made).rejects.toThrow("Cancelled.");
    await settled();
    expect(jobs).toHaveLength(4);
  });

  it("that is stopped at the blank does not go on without it", async () => {
    const { pool, jobs } = stage();
    const stop = new AbortController();
    const withBlank = longRoll(3).replace("frames:", "light: { blank: LIGHT.dng }\nframes:");
    const { resolved } = (await open(withBlank, files)).reading;
    const made = surveyRoll(resolved, workspace, pool, {}, { signal: stop.signal });
    await settled();
    expect(jobs.map(({ name }) => name)).toEqual(["survey-blank"]);
    stop.abort();
    await expect(made).rejects.toThrow("Cancelled.");
    expect(jobs).toHaveLength(1);
  });
});
