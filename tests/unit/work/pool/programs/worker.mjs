// A worker that does what the job's name says: for tests of the pool's manners, not of pictures.
import { parentPort, threadId } from "node:worker_threads";

const done = (id, value) => parentPort.postMessage({ kind: "reply", id, value });

parentPort.on("message", ({ id, name: job, value: { payload, cancelled } }) => {
  const flag = new Int32Array(cancelled);
  if (job === "echo") done(id, payload);
  else if (job === "pid") done(id, process.pid);
  else if (job === "thread") setTimeout(() => done(id, threadId), payload);
  else if (job === "fail")
    parentPort.postMessage({
      kind: "error",
      id,
      failure: { code: "truncated", message: "F01.dng ends too early.", remedy: "Copy it again." },
    });
  else if (job === "throw") throw new Error("out of cheese");
  else if (job === "leave") process.exit(7);
  else if (job === "hang") for (;;);
  else if (job === "stop") process.kill(process.pid, "SIGSTOP");
  else if (job === "kill") process.kill(process.pid, "SIGKILL");
  else if (job === "progress") {
    for (const part of [0.25, 0.5, 1]) parentPort.postMessage({ kind: "progress", id, fraction: part });
    done(id, null);
  } else if (job === "wait") {
    const look = setInterval(() => {
      if (Atomics.load(flag, 0) !== 1) return;
      clearInterval(look);
      parentPort.postMessage({
        kind: "error",
        id,
        failure: { code: "cancelled", message: "Stopped." },
      });
    }, 10);
  } else if (job === "sleep") setTimeout(() => done(id, payload), payload);
});
