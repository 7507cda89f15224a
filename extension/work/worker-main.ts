/** One worker thread: runs the jobs it is handed, one after the other. */
import { describeError } from "../scans/system-errors.ts";
import { JobError } from "../failure.ts";
import { parentPort } from "node:worker_threads";
import { jobs } from "./jobs.ts";
import type { JobContext } from "./pool/job-context.ts";
import { type FromWorker, type ToWorker } from "./pool/protocol.ts";

const port = parentPort;
if (!port) throw new Error("This program is a worker thread of the pool; it is not started by itself.");

port.on("message", (order: ToWorker) => {
  void work(order).then((message) => port.postMessage(message));
});

async function work({ id, job, payload, cancelled }: ToWorker): Promise<FromWorker> {
  const flag = new Int32Array(cancelled);
  const context: JobContext = {
    report: (part) => port?.postMessage({ kind: "progress", id, part } satisfies FromWorker),
    checkpoint() {
      if (Atomics.load(flag, 0) === 1) throw new JobError({ code: "cancelled", message: "The work was cancelled." });
    },
  };
  try {
    const run = Object.hasOwn(jobs, job) ? jobs[job as keyof typeof jobs] : undefined;
    if (!run) throw new TypeError(`There is no job called "${job}".`);
    const value = await (run as (p: unknown, c: JobContext) => Promise<unknown>)(payload, context);
    return { kind: "done", id, value };
  } catch (error) {
    return { kind: "failed", id, failure: describeError(error) };
  }
}
