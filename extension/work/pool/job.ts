/** A job's typed handle: what callers name, so that they need not import the code that runs in a worker. */
import type { JobContext } from "./job-context.ts";

/** The code of a job, which runs in a worker thread. */
export type JobCode<Payload, Value> = (payload: Payload, context: JobContext) => Promise<Value>;

/** Plain data: the name under which work/jobs.ts registers the job's code, and its types. */
export interface Job<Payload, Value> {
  readonly name: string;
  /** Never set; it carries the types. */
  readonly code?: JobCode<Payload, Value>;
}

/** Returns the handle of a job. `Code` is the type of its function, imported as a type only. */
export const defineJob = <Code extends JobCode<never, unknown>>(
  name: string,
): Job<Parameters<Code>[0], Awaited<ReturnType<Code>>> => ({ name });
