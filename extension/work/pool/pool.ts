import { cancelledError, JobError } from "../../failure.ts";
import { type ChildProcess, fork } from "node:child_process";
import { join } from "node:path";
import { createRpcClient, type RequestOptions, type RpcMessage } from "../../rpc.ts";
import type { Job } from "./job.ts";
import type { PoolMemory, PoolOptions, PoolRequests } from "./protocol.ts";

/** Runs jobs on worker threads in a process of its own, so that no decoder or encoder can harm the caller. */
export interface Pool {
  readonly workers: number;
  /**
   * Runs one job. Rejects with a JobError: the job's own failure, "cancelled", "timed-out", "worker-died",
   * "pool-died" or "closed". Jobs start in the order in which they are given.
   */
  run<Payload, Value>(job: Job<Payload, Value>, payload: Payload, options?: RunOptions): Promise<Value>;
  /** Memory of the pool's process; starts it when it is not running. */
  memory(): Promise<PoolMemory>;
  /** Ends the process; jobs that are not done fail with "closed". */
  close(): Promise<void>;
}

export interface RunOptions {
  readonly signal?: AbortSignal;
  /** Milliseconds from its start after which a job has failed; the pool's own limit where not given. */
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
  /** Milliseconds from its start after which a job has failed; ten minutes where not given. */
  readonly limit?: number;
  /** Milliseconds without any message, with no job started, after which the process is ended; a minute where not given. */
  readonly heartbeatTimeout?: number;
  /** Variables added to the process's environment. */
  readonly environment?: Readonly<Record<string, string>>;
}

/** A hundred-megapixel frame with every output takes well under a minute; ten are for a slow network disk. */
const LIMIT = 600_000;
/**
 * Milliseconds beyond a job's limit, or after it was cancelled, after which its whole process is ended: the process
 * itself ends the job's worker earlier, unless it is stopped or stuck. Never longer than the limit itself.
 */
const GRACE_PERIOD = 10_000;
/** Milliseconds without any message after which a process in which no job has started counts as stuck. */
const HEARTBEAT_TIMEOUT = 60_000;

/**
 * Settings of the GNU C library's allocator (ignored elsewhere): blocks of 128 kB and more go back to the system when
 * they are freed. By itself it keeps them for later, and a process that renders frames grows by 100 MB with each of the
 * first few.
 */
const MALLOC_SETTINGS = { MALLOC_MMAP_THRESHOLD_: "131072", MALLOC_TRIM_THRESHOLD_: "131072" };

/** What the pool knows of a job beside its request. */
interface RunningJob {
  /** Milliseconds that it may take from its start. */
  readonly limit: number;
  /** Ends the process when the job is not over in time; set when the job starts. */
  overdue?: NodeJS.Timeout;
  timedOut: boolean;
  started: boolean;
}

/** Opens a pool. The process starts with the first job, and again with the first job after it has died. */
export function openPool(setup: PoolSetup): Pool {
  const running = new Map<RequestOptions, RunningJob>();
  const client = createRpcClient<PoolRequests>(send, { patient: true });
  let child: ChildProcess | undefined;
  let closed = false;
  /** Processes in a row that ended before they started anything. */
  let failedStarts = 0;
  let heartbeatTimeout: NodeJS.Timeout | undefined;

  /** From the last message on: with work to do but nothing started, the process must say something before long. */
  function watchHeartbeat(): void {
    clearTimeout(heartbeatTimeout);
    const jobs = [...running.values()];
    if (jobs.length === 0 || jobs.some((job) => job.started)) return;
    heartbeatTimeout = setTimeout(() => child?.kill("SIGKILL"), setup.heartbeatTimeout ?? HEARTBEAT_TIMEOUT);
    heartbeatTimeout.unref();
  }

  /** A stopped process answers nothing and hears no other signal than this one. */
  function watchTime(job: RunningJob): void {
    const gracePeriod = job.limit + Math.min(job.limit, GRACE_PERIOD);
    job.overdue = setTimeout(() => {
      job.timedOut = true;
      child?.kill("SIGKILL");
    }, gracePeriod);
  }

  function start(): ChildProcess {
    const options: PoolOptions = { workers: setup.workers, worker: setup.worker ?? join(setup.programs, "worker.mjs") };
    const started = fork(join(setup.programs, "pool.mjs"), [JSON.stringify(options)], {
      execArgv: ["--expose-gc"],
      serialization: "advanced",
      // Standard output belongs to the caller; the last of its standard error explains its end.
      stdio: ["ignore", "ignore", "pipe", "ipc"],
      // In a desktop editor the running program is the editor itself; this makes it behave as plain Node.
      env: { ...process.env, ...MALLOC_SETTINGS, ...setup.environment, ELECTRON_RUN_AS_NODE: "1" },
    });
    let stderrTail = "";
    started.stderr?.setEncoding("utf8").on("data", (text: string) => (stderrTail = (stderrTail + text).slice(-2000)));
    started.on("message", (message) => {
      client.receive(message);
      watchHeartbeat();
    });
    let gone = false;
    const ended = (how: string): void => {
      if (gone) return;
      gone = true;
      if (child === started) child = undefined;
      onExit(how, stderrTail.trim().split("\n").at(-1) ?? "");
    };
    started.on("error", (error) => ended(error.message));
    started.on("exit", (code, signal) => ended(signal ? `signal ${signal}` : `exit code ${code}`));
    return started;
  }

  /** The process has ended: what it was working on fails, what only waited goes to its successor. */
  function onExit(how: string, stderrText: string): void {
    // One that ends before it starts anything would be started for ever.
    failedStarts = [...running.values()].some((job) => job.started) ? 0 : failedStarts + 1;
    client.reset(({ started, options }) => {
      const job = running.get(options);
      if (closed) return closedError();
      if (options.signal?.aborted) return cancelledError();
      if (job?.timedOut) return timedOutError(job.limit);
      return started || failedStarts >= 3 ? diedError(how, stderrText) : undefined;
    });
    watchHeartbeat();
  }

  function send(message: RpcMessage): void {
    if (message.kind === "cancel" && !child?.connected) return;
    child ??= start();
    // A message that finds the process gone is not lost: its end comes next, and what waits is sent again.
    child.send(message, () => {});
  }

  async function request<N extends keyof PoolRequests>(
    name: N,
    value: PoolRequests[N]["request"],
    { signal, onProgress, limit = setup.limit ?? LIMIT }: RunOptions,
  ): Promise<PoolRequests[N]["reply"]> {
    if (closed) throw closedError();
    const job: RunningJob = { limit, timedOut: false, started: false };
    const options: RequestOptions = {
      signal,
      onProgress(fraction) {
        if (job.started) return onProgress?.(fraction);
        job.started = true;
        if (!signal?.aborted) watchTime(job);
      },
    };
    const endSoon = (): void => {
      clearTimeout(job.overdue);
      job.overdue = setTimeout(() => child?.kill("SIGKILL"), GRACE_PERIOD);
    };
    running.set(options, job);
    signal?.addEventListener("abort", endSoon, { once: true });
    try {
      const reply = client.request(name, value as never, options);
      watchHeartbeat();
      return await reply;
    } finally {
      running.delete(options);
      clearTimeout(job.overdue);
      signal?.removeEventListener("abort", endSoon);
      watchHeartbeat();
    }
  }

  // A process that hangs or was stopped does not notice that its client has gone.
  const killProcess = (): void => void child?.kill("SIGKILL");
  process.on("exit", killProcess);

  return {
    workers: setup.workers,
    run: async (job, payload, options = {}) =>
      (await request(
        "run",
        { job: job.name, payload, limit: options.limit ?? setup.limit ?? LIMIT },
        options,
      )) as never,
    memory: () => request("memory", null, {}),
    close: () =>
      new Promise((resolve) => {
        closed = true;
        const last = child;
        const done = (): void => {
          process.off("exit", killProcess);
          resolve();
        };
        if (!last) return done();
        last.once("exit", done);
        // It ends by itself when the channel closes; a stuck one is ended.
        if (last.connected) last.disconnect();
        setTimeout(() => last.kill("SIGKILL"), 3000).unref();
      }),
  };
}

const closedError = (): JobError => new JobError({ code: "closed", message: "The picture process has been closed." });

const timedOutError = (limit: number): JobError =>
  new JobError({
    code: "timed-out",
    message: `The work took longer than ${Math.round(limit / 1000)} s, and the process that does it did not answer; it was ended.`,
    remedy: "If the process was stopped, or the disk is only slow, try again; a damaged file can hang a decoder.",
  });

const diedError = (how: string, stderrText: string): JobError =>
  new JobError({
    code: "pool-died",
    message: `The process that decodes and encodes pictures ended unexpectedly (${how}${stderrText && `: ${stderrText}`}).`,
    remedy:
      "It starts again by itself; if the same scan ends it again, that scan is damaged or too large for this machine.",
  });
