import { explainSystem } from "../../scans/system-errors.ts";
import type { Failure } from "./protocol.ts";

/**
 * Why a job has no value. Codes of the pool itself: "cancelled" (the caller's signal), "timed-out" (the worker was
 * ended), "worker-died", "pool-died", "closed"; any other code comes from the job.
 */
export class JobError extends Error {
  readonly code: string;
  /** What to do about it, as a sentence. */
  readonly remedy?: string;
  /** The file it is about. */
  readonly file?: string;

  constructor(failure: Failure) {
    super(failure.message);
    this.name = "JobError";
    this.code = failure.code;
    this.remedy = failure.remedy;
    this.file = failure.file;
  }
}

/** Whether a job was lost with its worker or its process: it may have been at fault itself, or have been taken along. */
export function isDeath(failure: unknown): boolean {
  const code = (failure as { code?: unknown } | undefined)?.code;
  return code === "worker-died" || code === "pool-died";
}

/** Message and remedy as one piece of text for people. */
export function sentence(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const explained = explainSystem(error);
  if (explained) return `${explained.message} ${explained.remedy}`;
  const remedy = (error as Error & { remedy?: unknown }).remedy;
  return typeof remedy === "string" ? `${error.message} ${remedy}` : error.message;
}
