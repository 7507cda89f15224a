/** What client, pool process and workers say to one another. Everything here crosses processes: plain data only. */
import type { Failure } from "../../failure.ts";

/** Every job by name, with its payload and value. work/jobs.ts, which lies above, fills it in. */
export interface Jobs {}

export type JobName = keyof Jobs;
export type Payload<N extends JobName> = Jobs[N]["payload"];
export type Value<N extends JobName> = Jobs[N]["value"];

/** Client → pool process. */
export type ToPool =
  | {
      readonly kind: "run";
      readonly id: number;
      readonly job: string;
      readonly payload: unknown;
      readonly limit: number;
    }
  | { readonly kind: "cancel"; readonly id: number }
  | { readonly kind: "memory"; readonly id: number };

/** Pool process → client. */
export type FromPool =
  | { readonly kind: "started"; readonly id: number }
  | { readonly kind: "progress"; readonly id: number; readonly part: number }
  | { readonly kind: "done"; readonly id: number; readonly value: unknown }
  | { readonly kind: "failed"; readonly id: number; readonly failure: Failure };

/** Pool process → worker. `cancelled` is shared: index 0 becomes 1 when the job is to stop. */
export interface ToWorker {
  readonly id: number;
  readonly job: string;
  readonly payload: unknown;
  readonly cancelled: SharedArrayBuffer;
}

/** Worker → pool process. */
export type FromWorker = Exclude<FromPool, { kind: "started" }>;

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
