/** The pool's process: a queue in front of worker threads. Ends when its client goes away. */
import type { RpcMessage } from "../../rpc.ts";
import type { PoolMemory, PoolOptions, PoolRequests } from "./protocol.ts";
import { WorkerQueue } from "./worker-queue.ts";

const options = JSON.parse(process.argv[2]) as PoolOptions;
const send = (message: RpcMessage): void => {
  if (process.connected) process.send?.(message);
};
const queue = new WorkerQueue(options, send);

function memory(): PoolMemory {
  const { user, system } = process.cpuUsage();
  return {
    now: process.memoryUsage.rss(),
    peak: process.resourceUsage().maxRSS * 1024,
    seconds: (user + system) / 1e6,
    workers: options.workers,
  };
}

process.on("message", (message: RpcMessage) => {
  if (message.kind === "cancel") queue.cancel(message.id);
  else if (message.kind !== "request") return;
  else if (message.name === "memory") send({ kind: "reply", id: message.id, value: memory() });
  else queue.add({ id: message.id, ...(message.value as PoolRequests["run"]["request"]) });
});
// Ctrl-C reaches every process of a terminal; only the client decides what it means.
process.on("SIGINT", () => {});
process.on("SIGTERM", () => {});
process.on("disconnect", () => process.exit(0));
