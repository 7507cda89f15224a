/** One worker thread: runs the jobs that it is sent, one after the other. */
import { parentPort } from "node:worker_threads";
import { cancelledError } from "../failure.ts";
import type { RpcMessage } from "../rpc.ts";
import { describeError } from "../scans/files/system-errors.ts";
import { jobs } from "./jobs.ts";
import type { JobContext } from "./pool/job-context.ts";
import type { JobRequest } from "./pool/protocol.ts";

const port = parentPort;
if (!port) throw new Error("This program is a worker thread of the pool; it cannot be started alone.");

port.on("message", (message: RpcMessage) => {
  if (message.kind !== "request") return;
  const { id, name } = message;
  void run(id, name, message.value as JobRequest).then(
    (value) => port.postMessage({ kind: "reply", id, value } satisfies RpcMessage),
    (error: unknown) => port.postMessage({ kind: "error", id, failure: describeError(error) } satisfies RpcMessage),
  );
});

async function run(id: number, name: string, { payload, cancelled }: JobRequest): Promise<unknown> {
  const flag = new Int32Array(cancelled);
  const context: JobContext = {
    report: (fraction) => port?.postMessage({ kind: "progress", id, fraction } satisfies RpcMessage),
    checkpoint() {
      if (Atomics.load(flag, 0) === 1) throw cancelledError();
    },
  };
  const code = jobs.get(name);
  if (!code) throw new TypeError(`There is no job named "${name}".`);
  return await code(payload, context);
}
