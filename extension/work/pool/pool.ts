/** The pool of workers, as callers use it: jobs in, values or failures out. */
import { setMaxListeners } from "node:events";
import { cancelledError, JobError } from "../../failure.ts";
import { createRpcClient, type RequestOptions } from "../../rpc.ts";
import { readerAhead } from "../../scans/files/read-ahead.ts";
import type { Job } from "./job.ts";
import { PoolProcess, type ProcessSetup } from "./pool-process.ts";
import type { PoolMemory, PoolRequests } from "./protocol.ts";
import { RunningJob } from "./running-job.ts";

/** Runs jobs on worker threads in a process of its own, so that no decoder or encoder can harm the caller. */
export interface Pool {
  readonly workers: number;
  /**
   * Runs one job. Rejects with a JobError: the job's own failure, "cancelled", "timed-out", "worker-died",
   * "pool-died" or "closed". Jobs start in the order in which they are given, but for those with `near`.
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
  /**
   * What the job is about, such as a scan's path: it goes to the worker that has worked on the same, whose memory may still
   * hold it, and may change places with others that have such a name.
   */
  readonly near?: string;
  /** Files that the job will read whole: they are read ahead of it while it waits for a worker. */
  readonly reads?: readonly string[];
  /**
   * Jobs with the same `near` run one after another, on one worker while it has no others of its own: for what is better
   * done once by one worker than again by each.
   */
  readonly inTurn?: boolean;
  /** Called with the part that is done, 0 … 1. */
  readonly onProgress?: (part: number) => void;
}

export interface PoolSetup extends ProcessSetup {
  /** Milliseconds from its start after which a job has failed; ten minutes where not given. */
  readonly limit?: number;
  /** Milliseconds without any message, with no job started, after which the process is ended; a minute where not given. */
  readonly heartbeatTimeout?: number;
}

/** A hundred-megapixel frame with every output takes well under a minute; ten are for a slow network disk. */
const LIMIT = 600_000;
/** Milliseconds without any message after which a process in which no job has started counts as stuck. */
const HEARTBEAT_TIMEOUT = 60_000;

/** Opens a pool. The process starts with the first job, and again with the first job after it has died. */
export function openPool(setup: PoolSetup): Pool {
  const running = new Map<RequestOptions, RunningJob>();
  const readAhead = readerAhead();
  const child = new PoolProcess(setup, {
    onMessage(message) {
      client.receive(message);
      watchHeartbeat();
    },
    onExit,
  });
  const client = createRpcClient<PoolRequests>(
    (message) => {
      if (message.kind !== "cancel" || child.isConnected) child.send(message);
    },
    { patient: true },
  );
  let closed = false;
  /** Processes in a row that ended before they started anything. */
  let failedStarts = 0;
  const watchHeartbeat = heartbeatWatch(running, setup.heartbeatTimeout ?? HEARTBEAT_TIMEOUT, child.kill);

  /** The process has ended: what it was working on fails, what only waited goes to its successor. */
  function onExit(how: string, stderrText: string): void {
    // One that ends before it starts anything would be started for ever.
    failedStarts = [...running.values()].some((job) => job.isStarted) ? 0 : failedStarts + 1;
    client.reset(({ started, options }) => {
      const job = running.get(options);
      if (closed) return closedError();
      if (options.signal?.aborted) return cancelledError();
      if (job?.isTimedOut) return timedOutError(job.limit);
      return started || failedStarts >= 3 ? diedError(how, stderrText) : undefined;
    });
    watchHeartbeat();
  }

  async function request<N extends keyof PoolRequests>(
    name: N,
    value: PoolRequests[N]["request"],
    { signal, onProgress, reads = [], limit = setup.limit ?? LIMIT }: RunOptions,
  ): Promise<PoolRequests[N]["reply"]> {
    if (closed) throw closedError();
    const job = new RunningJob(limit, child.kill);
    const options: RequestOptions = {
      signal,
      onProgress(fraction) {
        if (job.isStarted) return onProgress?.(fraction);
        job.start(signal?.aborted === true);
      },
    };
    running.set(options, job);
    // One signal serves all jobs of a roll.
    if (signal) setMaxListeners(0, signal);
    signal?.addEventListener("abort", job.endSoon, { once: true });
    try {
      const reply = client.request(name, value as never, options);
      watchHeartbeat();
      if (running.size > setup.workers)
        for (const path of reads) readAhead(path, () => running.has(options) && !job.isStarted);
      return await reply;
    } finally {
      running.delete(options);
      job.end();
      signal?.removeEventListener("abort", job.endSoon);
      watchHeartbeat();
    }
  }

  return {
    workers: setup.workers,
    run: async (job, payload, options = {}) => {
      const limit = options.limit ?? setup.limit ?? LIMIT;
      const { near, inTurn } = options;
      const about = near === undefined ? {} : { near, ...(inTurn ? { inTurn } : {}) };
      const value = { job: job.name, payload, limit, ...about };
      return (await request("run", value, options)) as never;
    },
    memory: () => request("memory", null, {}),
    close() {
      closed = true;
      return child.close();
    },
  };
}

/**
 * Returns a function to be called after each message: with work to do but nothing started, the process must say
 * something before `limit` milliseconds have passed.
 */
function heartbeatWatch(running: ReadonlyMap<unknown, RunningJob>, limit: number, onSilence: () => void): () => void {
  let timeout: NodeJS.Timeout | undefined;
  return () => {
    clearTimeout(timeout);
    const jobs = [...running.values()];
    if (jobs.length === 0 || jobs.some((job) => job.isStarted)) return;
    timeout = setTimeout(onSilence, limit);
    timeout.unref();
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
