/** Why a piece of work has no result, as plain data that crosses processes and as an error to throw. */

export interface Failure {
  /** A word for programs, such as "missing-scan". */
  readonly code: string;
  /** A sentence: what happened, and where. */
  readonly message: string;
  /** A sentence: what to do about it. */
  readonly remedy?: string;
  /** Path of the file it is about. */
  readonly file?: string;
}

/**
 * A failure to throw. Codes made by the channel and the pool themselves: "cancelled" (the caller's signal),
 * "timed-out", "unknown-request", "worker-died", "pool-died", "closed"; any other code comes from the work.
 */
export class JobError extends Error {
  readonly code: string;
  readonly remedy?: string;
  readonly file?: string;

  constructor({ code, message, remedy, file }: Failure) {
    super(message);
    this.name = "JobError";
    this.code = code;
    this.remedy = remedy;
    this.file = file;
  }
}

export const cancelledError = (): JobError => new JobError({ code: "cancelled", message: "The work was cancelled." });

/** Any thrown value as a failure; "failed" is the code of an error that states none. */
export function failureOf(error: unknown): Failure {
  if (!(error instanceof Error)) return { code: "failed", message: String(error) };
  const { code, remedy, file } = error as Error & { code?: unknown; remedy?: unknown; file?: unknown };
  const text = (value: unknown): string | undefined => (typeof value === "string" ? value : undefined);
  return { code: text(code) ?? "failed", message: error.message, remedy: text(remedy), file: text(file) };
}

/** Message and remedy of any thrown value as one text for people. */
export function failureText(error: unknown): string {
  const { message, remedy } = failureOf(error);
  return remedy === undefined ? message : `${message} ${remedy}`;
}

/** Whether work was lost with its worker or its process: it may be the cause itself, or have been taken along. */
export function isWorkerLoss(failure: unknown): boolean {
  const code = (failure as { code?: unknown } | undefined)?.code;
  return code === "worker-died" || code === "pool-died";
}
