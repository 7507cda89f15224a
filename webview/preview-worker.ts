/** The worker of the CPU surface: runs plans off the page's thread. */
import { makeCpuRunner, type ToWorker } from "./render/cpu-run.ts";

const runner = makeCpuRunner();

/** The part of a worker's global scope that is used; the page's own types are the ones in force here. */
const scope = globalThis as unknown as {
  onmessage: (event: { data: ToWorker }) => void;
  postMessage(message: unknown, transfer: ArrayBuffer[]): void;
};

scope.onmessage = ({ data }) => {
  const done = runner.receive(data);
  if (done) scope.postMessage(done, [done.pixels.buffer]);
};
