/** What client, pool process and workers say to one another. Everything here crosses processes: plain data only. */
import { explainSystem } from "../../scans/system-errors.ts";

/** Every job by name, with its payload and value. work/jobs.ts, which lies above, fills it in. */
export interface Jobs {}

export type JobName = keyof Jobs;
export type Payload<N extends JobName> = Jobs[N]["payload"];
export type Value<N extends JobName> = Jobs[N]["value"];

/** A failure that has crossed a process; `code` is a word for programs, `remedy` says what to do. */
export interface Failure {
  readonly name: string;
  readonly code: string;
  readonly message: string;
  readonly remedy?: string;
  readonly file?: string;
}

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

/** Any thrown value as a failure that can cross. */
export function failureOf(error: unknown): Failure {
  if (!(error instanceof Error)) return { name: "Error", code: "failed", message: String(error) };
  const extra = error as Error & { code?: unknown; fault?: unknown; remedy?: unknown; file?: unknown };
  const text = (v: unknown): string | undefined => (typeof v === "string" ? v : undefined);
  return {
    name: error.name,
    code: text(extra.code) ?? text(extra.fault) ?? "failed",
    message: error.message,
    remedy: text(extra.remedy),
    ...explainSystem(error),
    file: text(extra.file),
  };
}
