import type { Failure } from "./protocol.ts";

/**
 * Why a job has no value. Codes of the pool itself: "cancelled" (the caller's signal), "timed-out" (the worker was
 * ended), "worker-died", "pool-died", "closed"; any other code comes from the job.
 */
export class JobError extends Error {
  readonly code: string;
  /** What to do about it, as a sentence. */
  readonly cure?: string;
  /** The file it is about. */
  readonly file?: string;

  constructor(failure: Failure) {
    super(failure.message);
    this.name = "JobError";
    this.code = failure.code;
    this.cure = failure.cure;
    this.file = failure.file;
  }
}

/** Message and cure as one piece of text for people. */
export function sentence(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const cure = (error as Error & { cure?: unknown }).cure;
  return typeof cure === "string" ? `${error.message} ${cure}` : error.message;
}
