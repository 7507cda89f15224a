import { type JobError } from "../../../../extension/failure.ts";
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { fingerprintJob } from "../../../../extension/work/files/jobs.ts";
import { defineJob } from "../../../../extension/work/pool/job.ts";
import { openPool, type Pool, type RunOptions } from "../../../../extension/work/pool/pool.ts";

// The pool's real program with a worker that misbehaves on request.
const built = fileURLToPath(new URL("../../../../dist/pool.mjs", import.meta.url));
let programs = "";
let pool: Pool | undefined;

beforeAll(() => {
  if (!existsSync(built)) throw new Error("dist/pool.mjs is missing: run npm run build first.");
  programs = mkdtempSync(join(tmpdir(), "pool-"));
  copyFileSync(built, join(programs, "pool.mjs"));
  copyFileSync(fileURLToPath(new URL("programs/worker.mjs", import.meta.url)), join(programs, "worker.mjs"));
});
afterEach(async () => {
  await pool?.close();
  pool = undefined;
});
afterAll(() => rmSync(programs, { recursive: true, force: true }));

const open = (workers = 1): Pool => (pool = openPool({ workers, programs }));
/** Jobs of the test worker. */
const run = (p: Pool, job: string, payload: unknown = null, options?: RunOptions): Promise<unknown> =>
  p.run(defineJob(job), payload as never, options);
const failure = (promise: Promise<unknown>): Promise<JobError> =>
  promise.then(
    () => expect.unreachable("the job should have failed"),
    (error: JobError) => error,
  );

describe("requests settle", () => {
  it("with a value, typed arrays included", async () => {
    const p = open(2);
    const samples = Uint16Array.of(1, 65_535, 7);
    expect(await run(p, "echo", { samples, text: "ä" })).toEqual({ samples, text: "ä" });
  });

  it("with the job's own failure, its code and its remedy", async () => {
    const error = await failure(run(open(), "fail"));
    expect(error).toMatchObject({
      code: "truncated",
      message: "F01.dng ends too early.",
      remedy: "Copy it again.",
    });
  });

  it("in the order given, on one worker", async () => {
    const p = open();
    const order: number[] = [];
    await Promise.all([30, 20, 10].map((ms) => run(p, "sleep", ms).then(() => order.push(ms))));
    expect(order).toEqual([30, 20, 10]);
  });

  it("on the worker that has worked on the same, where they say what they are about", async () => {
    const p = open(2);
    const threads = (names: readonly string[]): Promise<unknown[]> =>
      Promise.all(names.map((near) => run(p, "thread", 40, { near })));
    const [a, b] = await threads(["a", "b"]);
    expect(a).not.toBe(b);
    expect(await threads(["b", "a", "b", "a"])).toEqual([b, a, b, a]);
    // A worker without work of its own takes another's rather than none.
    expect(new Set(await threads(["a", "a"]))).toEqual(new Set([a, b]));
    // One that is to be done in turn waits for it, and others pass.
    const inTurn = { near: "a", inTurn: true };
    const mixed = [inTurn, inTurn, inTurn, { near: "b" }].map((options) => run(p, "thread", 40, options));
    const [first, second, third, other] = await Promise.all(mixed);
    expect([second, third]).toEqual([first, first]);
    expect(other).not.toBe(first);
  });

  it.runIf(process.platform === "linux")("with its files read ahead, where it waits and only there", async () => {
    const p = open();
    const file = join(programs, "scan");
    writeFileSync(file, Buffer.alloc(6 << 20));
    const bytesRead = (): number => Number(/rchar: (\d+)/.exec(readFileSync("/proc/self/io", "latin1"))?.[1]);
    await run(p, "echo");
    const before = bytesRead();
    await run(p, "sleep", 200, { reads: [file] });
    const between = bytesRead();
    expect(between - before).toBeLessThan(1 << 20);
    await Promise.all([run(p, "sleep", 400), run(p, "sleep", 1, { reads: [file] })]);
    expect(bytesRead() - between).toBeGreaterThan(6 << 20);
  });

  it("after telling progress", async () => {
    const parts: number[] = [];
    await run(open(), "progress", null, { onProgress: (part) => parts.push(part) });
    expect(parts).toEqual([0.25, 0.5, 1]);
  });

  it("when the pool is closed meanwhile", async () => {
    const p = open();
    const waiting = failure(run(p, "sleep", 60_000));
    await p.close();
    expect((await waiting).code).toBe("closed");
    expect((await failure(run(p, "echo"))).code).toBe("closed");
  }, 10_000);
});

describe("only the job itself fails", () => {
  it("when its worker throws or leaves, and the next job gets a new one", async () => {
    const p = open();
    for (const job of ["throw", "leave"]) {
      const waiting = run(p, "echo", job);
      expect((await failure(run(p, job))).code).toBe("worker-died");
      expect(await waiting).toBe(job);
    }
  });

  it("when its worker hangs beyond the limit", async () => {
    const p = open(2);
    const other = run(p, "sleep", 900);
    const error = await failure(run(p, "hang", null, { limit: 300 }));
    expect(error.code).toBe("timed-out");
    expect(error.message).toContain("longer than");
    expect(await other).toBe(900);
    expect(await run(p, "echo", 1)).toBe(1);
  });

  it("when the whole process is killed: the running job fails, the waiting ones go on in a new one", async () => {
    const p = open();
    const killer = failure(run(p, "kill"));
    const waiting = [run(p, "echo", 1), run(p, "echo", 2)];
    const error = await killer;
    expect(error.code).toBe("pool-died");
    expect(error.message).toContain("SIGKILL");
    expect(error.remedy).toContain("starts again");
    expect(await Promise.all(waiting)).toEqual([1, 2]);
  });
});

describe.skipIf(process.platform === "win32")("a process that is stopped", () => {
  it("is ended when a job's time is over: that job has timed out, what waited goes on in a new one", async () => {
    const p = open();
    await run(p, "echo"); // its worker is there
    const stopped = failure(run(p, "stop", null, { limit: 1500 }));
    const waiting = run(p, "echo", 1);
    const error = await stopped;
    expect(error.code).toBe("timed-out");
    expect(error.message).toContain("did not answer");
    expect(await waiting).toBe(1);
  });

  it("is ended when it lets nothing start", async () => {
    const p = (pool = openPool({ workers: 1, programs, heartbeatTimeout: 4000 }));
    process.kill((await run(p, "pid")) as number, "SIGSTOP");
    expect(await run(p, "echo", 2)).toBe(2);
  });
});

describe("cancelling", () => {
  it("before the start, in the queue, and while running", async () => {
    const p = open();
    expect((await failure(run(p, "echo", 0, { signal: AbortSignal.abort() }))).code).toBe("cancelled");

    const running = new AbortController();
    const queued = new AbortController();
    const first = failure(run(p, "wait", null, { signal: running.signal }));
    const second = failure(run(p, "echo", 0, { signal: queued.signal }));
    queued.abort();
    expect((await second).code).toBe("cancelled");
    running.abort();
    expect((await first).code).toBe("cancelled");
    expect(await run(p, "echo", 5)).toBe(5);
  });

  it("ends a worker that does not listen", async () => {
    const p = open();
    const stop = new AbortController();
    const deaf = failure(run(p, "hang", null, { signal: stop.signal }));
    setTimeout(() => stop.abort(), 100);
    expect((await deaf).code).toBe("cancelled");
    expect(await run(p, "echo", 5)).toBe(5);
  }, 15_000);
});

describe("a pool that cannot live", () => {
  it("gives up with the reason instead of starting for ever", async () => {
    const broken = openPool({ workers: 1, programs: join(programs, "nowhere") });
    const error = await failure(broken.run(fingerprintJob, { path: "x" }));
    expect(error.code).toBe("pool-died");
    await broken.close();
  });

  it("tells its memory", async () => {
    const { now, peak, workers } = await open(2).memory();
    expect(now).toBeGreaterThan(10e6);
    expect(peak).toBeGreaterThanOrEqual(now * 0.9);
    expect(workers).toBe(2);
  });
});
