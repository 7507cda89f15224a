/** Shares jobs among the worker threads of the pool's process. */
import { Worker } from "node:worker_threads";
import type { RpcMessage } from "../../rpc.ts";
import type { JobRequest, PoolOptions, PoolRequests } from "./protocol.ts";

/** A job of the client's, with the number of its request. */
export type QueuedJob = PoolRequests["run"]["request"] & { readonly id: number };

/** After a request to stop, a job gets this long to stop by itself (it may be in the middle of writing a file). */
const GRACE = 2500;

interface Running {
  readonly job: QueuedJob;
  readonly cancelled: SharedArrayBuffer;
  readonly limit: NodeJS.Timeout;
  grace?: NodeJS.Timeout;
}

interface QueueWorker {
  readonly worker: Worker;
  /** What the jobs that it has run were about. */
  readonly seen: Set<string>;
  running?: Running;
}

/** Names that are remembered of a worker. */
const MAX_SEEN = 1000;

/**
 * Keeps worker threads busy with a queue of jobs. Workers start when they are needed. One that dies, hangs beyond
 * its job's limit or does not stop when told is ended and replaced; only its own job fails.
 */
export class WorkerQueue {
  readonly #options: PoolOptions;
  readonly #send: (message: RpcMessage) => void;
  readonly #workers = new Set<QueueWorker>();
  readonly #queue: QueuedJob[] = [];

  constructor(options: PoolOptions, send: (message: RpcMessage) => void) {
    this.#options = options;
    this.#send = send;
  }

  add(job: QueuedJob): void {
    this.#queue.push(job);
    this.#next();
  }

  cancel(id: number): void {
    const at = this.#queue.findIndex((job) => job.id === id);
    if (at >= 0) {
      this.#queue.splice(at, 1);
      this.#fail(id, "cancelled", "The work was cancelled.");
      return;
    }
    for (const one of this.#workers) {
      const { running } = one;
      if (running?.job.id !== id || running.grace) continue;
      Atomics.store(new Int32Array(running.cancelled), 0, 1);
      running.grace = setTimeout(() => this.#end(one, "cancelled", "The work was cancelled."), GRACE);
    }
  }

  #next(): void {
    for (;;) {
      const next = this.#queue.find((job) => !this.#mustWait(job));
      if (!next) return;
      const { near } = next;
      const free = [...this.#workers].filter((h) => !h.running);
      let one = free.find(({ seen }) => near !== undefined && seen.has(near)) ?? free.at(0);
      if (!one) {
        if (this.#workers.size >= this.#options.workers) return;
        one = this.#spawn();
      }
      this.#start(one, this.#takeFor(one));
    }
  }

  /** Whether a job waits for the worker that is at work on the same. */
  #mustWait({ inTurn, near }: QueuedJob): boolean {
    return inTurn === true && [...this.#workers].some(({ running }) => running?.job.near === near);
  }

  /** The next job for a worker; of those that are about something, rather one that no other worker has worked on. */
  #takeFor({ seen }: QueueWorker): QueuedJob {
    const ready = this.#queue.filter((job) => !this.#mustWait(job));
    const plain = ready.findIndex((job) => job.near === undefined);
    const about = plain < 0 ? ready : ready.slice(0, plain);
    const isElsewhere = ({ near }: QueuedJob): boolean => [...this.#workers].some((one) => one.seen.has(near!));
    const own = about.findIndex((job) => seen.has(job.near!));
    const at = own >= 0 ? own : about.findIndex((job) => !isElsewhere(job));
    const job = ready[Math.max(0, at)];
    this.#queue.splice(this.#queue.indexOf(job), 1);
    return job;
  }

  #spawn(): QueueWorker {
    const one: QueueWorker = { worker: new Worker(this.#options.worker), seen: new Set() };
    this.#workers.add(one);
    one.worker.on("message", (message: RpcMessage) => this.#onMessage(one, message));
    one.worker.on("error", (error) =>
      this.#end(
        one,
        "worker-died",
        `The worker broke down: ${error.message.replace(/\.?$/, ".")}`,
        "The other work goes on.",
      ),
    );
    one.worker.on("exit", (code) => this.#end(one, "worker-died", `The worker ended unexpectedly (code ${code}).`));
    return one;
  }

  #start(one: QueueWorker, job: QueuedJob): void {
    const cancelled = new SharedArrayBuffer(4);
    const seconds = Math.round(job.limit / 1000);
    const limit = setTimeout(
      () =>
        this.#end(
          one,
          "timed-out",
          `The work took longer than ${seconds} s and was ended.`,
          "A damaged file can hang a decoder; if the disk is only slow, try again.",
        ),
      job.limit,
    );
    one.running = { job, cancelled, limit };
    if (one.seen.size >= MAX_SEEN) one.seen.clear();
    if (job.near !== undefined) one.seen.add(job.near);
    this.#send({ kind: "progress", id: job.id, fraction: 0 });
    const value: JobRequest = { payload: job.payload, cancelled };
    one.worker.postMessage({ kind: "request", id: job.id, name: job.job, value } satisfies RpcMessage);
  }

  #onMessage(one: QueueWorker, message: RpcMessage): void {
    if (message.kind === "event" || one.running?.job.id !== message.id) return;
    if (message.kind !== "progress") this.#clear(one);
    this.#send(message);
    if (message.kind !== "progress") this.#next();
  }

  #clear(one: QueueWorker): void {
    clearTimeout(one.running?.limit);
    clearTimeout(one.running?.grace);
    one.running = undefined;
  }

  /** Ends a worker; the job it was on fails with this reason. */
  #end(one: QueueWorker, code: string, message: string, remedy?: string): void {
    if (!this.#workers.delete(one)) return;
    const id = one.running?.job.id;
    this.#clear(one);
    if (id !== undefined) this.#fail(id, code, message, remedy);
    void one.worker.terminate();
    this.#next();
  }

  #fail(id: number, code: string, message: string, remedy?: string): void {
    this.#send({ kind: "error", id, failure: { code, message, remedy } });
  }
}
