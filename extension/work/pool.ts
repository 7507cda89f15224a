import { type ChildProcess, fork } from "node:child_process";
import { join } from "node:path";
import { JobError } from "./job-error.ts";
import type { FromPool, JobName, Payload, PoolMemory, PoolOptions, ToPool, Value } from "./protocol.ts";

/** Runs jobs on worker threads in a process of its own, so that no decoder or encoder can harm the caller. */
export interface Pool {
  readonly workers: number;
  /**
   * Runs one job. Rejects with a JobError: the job's own failure, "cancelled", "timed-out", "worker-died",
   * "pool-died" or "closed". Jobs start in the order in which they are given.
   */
  run<N extends JobName>(job: N, payload: Payload<N>, options?: RunOptions): Promise<Value<N>>;
  /** Memory of the pool's process; starts it when it is not running. */
  memory(): Promise<PoolMemory>;
  /** Ends the process; jobs that are not done fail with "closed". */
  close(): Promise<void>;
}

export interface RunOptions {
  readonly signal?: AbortSignal;
  /** Milliseconds after which the job's worker is ended; the pool's own limit where not given. */
  readonly limit?: number;
  /** Called with the part that is done, 0 … 1. */
  readonly onProgress?: (part: number) => void;
}

export interface PoolSetup {
  /** Worker threads, 1 … 64. */
  readonly workers: number;
  /** Folder that holds pool.mjs and worker.mjs. */
  readonly programs: string;
  /** The worker's program, where it is not worker.mjs. */
  readonly worker?: string;
  /** Milliseconds after which a job's worker is ended; ten minutes where not given. */
  readonly limit?: number;
  /** Variables added to the process's environment. */
  readonly environment?: Readonly<Record<string, string>>;
}

/** A hundred-megapixel frame with every output takes well under a minute; ten are for a slow network disk. */
const LIMIT = 600_000;

/**
 * Settings of the GNU C library's allocator (ignored elsewhere): blocks of 128 kB and more go back to the system when
 * they are freed. By itself it keeps them for later, and a process that renders frames grows by 100 MB with each of the
 * first few.
 */
const STEADY_MEMORY = { MALLOC_MMAP_THRESHOLD_: "131072", MALLOC_TRIM_THRESHOLD_: "131072" };

interface Pending {
  readonly message: ToPool;
  readonly resolve: (value: never) => void;
  readonly reject: (error: JobError) => void;
  readonly onProgress?: (part: number) => void;
  readonly signal?: AbortSignal;
  readonly settle: () => void;
  started: boolean;
}

/** Opens a pool. The process starts with the first job, and again with the first job after it has died. */
export function openPool(setup: PoolSetup): Pool {
  const pending = new Map<number, Pending>();
  let child: ChildProcess | undefined;
  let closed = false;
  let lastId = 0;

  function start(): ChildProcess {
    const options: PoolOptions = { workers: setup.workers, worker: setup.worker ?? join(setup.programs, "worker.mjs") };
    const started = fork(join(setup.programs, "pool.mjs"), [JSON.stringify(options)], {
      execArgv: ["--expose-gc"],
      serialization: "advanced",
      // Standard output belongs to the caller; what the process complains about is kept for its obituary.
      stdio: ["ignore", "ignore", "pipe", "ipc"],
      // In a desktop editor the running program is the editor itself; this makes it behave as plain Node.
      env: { ...process.env, ...STEADY_MEMORY, ...setup.environment, ELECTRON_RUN_AS_NODE: "1" },
    });
    let complaints = "";
    started.stderr?.setEncoding("utf8").on("data", (text: string) => (complaints = (complaints + text).slice(-2000)));
    started.on("message", (message: FromPool) => receive(message));
    let gone = false;
    const ended = (how: string): void => {
      if (gone) return;
      gone = true;
      if (child === started) child = undefined;
      bury(how, complaints.trim().split("\n").at(-1) ?? "");
    };
    started.on("error", (error) => ended(error.message));
    started.on("exit", (code, signal) => ended(signal ? `signal ${signal}` : `exit code ${code}`));
    return started;
  }

  function receive(message: FromPool): void {
    const job = pending.get(message.id);
    if (!job) return;
    if (message.kind === "started") job.started = true;
    else if (message.kind === "progress") job.onProgress?.(message.part);
    else {
      pending.delete(message.id);
      job.settle();
      if (message.kind === "done") job.resolve(message.value as never);
      else job.reject(new JobError(message.failure));
    }
  }

  /** The process is gone: what it was working on fails, what only waited goes to its successor. */
  function bury(how: string, complaint: string): void {
    const all = [...pending];
    // One that dies before it starts anything would be started for ever.
    barren = all.some(([, job]) => job.started) ? 0 : barren + 1;
    for (const [id, job] of all) {
      const error = closed
        ? closedError()
        : job.signal?.aborted
          ? cancelledError()
          : job.started || barren >= 3
            ? diedError(how, complaint)
            : undefined;
      if (!error) {
        send(job.message);
        continue;
      }
      pending.delete(id);
      job.settle();
      job.reject(error);
    }
  }
  let barren = 0;

  function send(message: ToPool): void {
    child ??= start();
    // A message that finds the process gone is not lost: its end is told next, and what waits is sent again.
    child.send(message, () => {});
  }

  function request(make: (id: number) => ToPool, options: RunOptions): Promise<never> {
    if (closed) return Promise.reject(closedError());
    const { signal } = options;
    if (signal?.aborted) return Promise.reject(cancelledError());
    const id = ++lastId;
    return new Promise((resolve, reject) => {
      const cancel = (): void => {
        if (child?.connected) child.send({ kind: "cancel", id } satisfies ToPool, () => {});
      };
      signal?.addEventListener("abort", cancel, { once: true });
      const settle = (): void => signal?.removeEventListener("abort", cancel);
      const message = make(id);
      pending.set(id, { message, resolve, reject, onProgress: options.onProgress, signal, settle, started: false });
      send(message);
    });
  }

  return {
    workers: setup.workers,
    run: (job, payload, options = {}) =>
      request((id) => ({ kind: "run", id, job, payload, limit: options.limit ?? setup.limit ?? LIMIT }), options),
    memory: () => request((id) => ({ kind: "memory", id }), {}),
    close: () =>
      new Promise((resolve) => {
        closed = true;
        const last = child;
        if (!last) return resolve();
        last.once("exit", () => resolve());
        // It ends by itself when the channel closes; a stuck one is ended.
        if (last.connected) last.disconnect();
        setTimeout(() => last.kill("SIGKILL"), 3000).unref();
      }),
  };
}

const closedError = (): JobError =>
  new JobError({ name: "JobError", code: "closed", message: "The picture process has been closed." });

const cancelledError = (): JobError =>
  new JobError({ name: "JobError", code: "cancelled", message: "The work was cancelled." });

const diedError = (how: string, complaint: string): JobError =>
  new JobError({
    name: "JobError",
    code: "pool-died",
    message: `The process that decodes and encodes pictures ended unexpectedly (${how}${complaint && `: ${complaint}`}).`,
    remedy:
      "It starts again by itself; if the same scan ends it again, that scan is damaged or too large for this machine.",
  });
