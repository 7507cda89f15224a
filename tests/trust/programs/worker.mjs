// The real worker, except that the decoder hangs, throws, ends its thread or kills its process at scans of certain
// names. It is a program of the tests: nothing that is shipped knows those names.
import { parentPort } from "node:worker_threads";

const HARM = {
  "hangs.dng": () => {
    for (;;);
  },
  "leaves.dng": () => process.exit(3),
  "kills.dng": () => process.kill(process.pid, "SIGKILL"),
  "fills.dng": () => {
    const held = [];
    for (;;) held.push(Array.from(new Float64Array(1e6)));
  },
};
// First the real one: a listener that comes later would miss the first order.
await import(process.env.ROLLBOOK_WORKER);
parentPort.on("message", ({ name: job, value: { payload } }) => {
  if (job === "render-frame") HARM[payload.path.split("/").at(-1)]?.();
});
