/** The pool's process: a queue in front of worker threads. Ends when its client goes away. */
import type { FromPool, PoolMemory, PoolOptions, ToPool } from "./protocol.ts";
import { Crew } from "./worker-queue.ts";

const options = JSON.parse(process.argv[2]) as PoolOptions;
const send = (message: FromPool): void => {
  if (process.connected) process.send?.(message);
};
const crew = new Crew(options, send);

process.on("message", (message: ToPool) => {
  if (message.kind === "run") crew.add(message);
  else if (message.kind === "cancel") crew.cancel(message.id);
  else {
    const { user, system } = process.cpuUsage();
    const value: PoolMemory = {
      now: process.memoryUsage.rss(),
      peak: process.resourceUsage().maxRSS * 1024,
      seconds: (user + system) / 1e6,
      workers: options.workers,
    };
    send({ kind: "done", id: message.id, value });
  }
});
// Ctrl-C reaches every process of a terminal; only the client decides what it means.
process.on("SIGINT", () => {});
process.on("SIGTERM", () => {});
process.on("disconnect", () => process.exit(0));
