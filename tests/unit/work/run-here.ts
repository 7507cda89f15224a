/** Runs a job's code in this process: no pool, no bundles. */
import { jobs } from "../../../extension/work/jobs.ts";
import type { Job } from "../../../extension/work/pool/job.ts";

export async function runHere<Payload, Value>(job: Job<Payload, Value>, payload: Payload): Promise<Value> {
  const code = jobs.get(job.name);
  if (!code) throw new Error(`work/jobs.ts has no code for ${job.name}.`);
  return (await code(payload, { report: () => {}, checkpoint: () => {} })) as Value;
}
