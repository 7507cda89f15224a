/** What client, pool process and workers send to one another, over the channel of extension/rpc.ts. */

/** Requests of the client to the pool process. The first progress of `run` says that its job has started. */
export interface PoolRequests {
  run: { request: RunRequest; reply: unknown };
  memory: { request: null; reply: PoolMemory };
}

export interface RunRequest {
  readonly job: string;
  readonly payload: unknown;
  /** Milliseconds from its start after which the job's worker is ended. */
  readonly limit: number;
  /** What it is about: given to the worker that has worked on the same, where that one is free. */
  readonly near?: string;
  /** Whether it waits while another worker is at work on the same. */
  readonly inTurn?: boolean;
}

/** The value of a request of the pool process to a worker, whose name is that of the job. */
export interface JobRequest {
  readonly payload: unknown;
  /** Index 0 becomes 1 when the job is to stop: a busy thread receives no message. */
  readonly cancelled: SharedArrayBuffer;
}

/** What the pool process is told on its command line. */
export interface PoolOptions {
  readonly workers: number;
  /** The worker's program. */
  readonly worker: string;
}

/** What the pool process takes with all its workers, in bytes and seconds. */
export interface PoolMemory {
  readonly now: number;
  /** The most it ever was. */
  readonly peak: number;
  /** Processor time since it started, of all threads together. */
  readonly seconds: number;
  readonly workers: number;
}
