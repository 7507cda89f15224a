// Runs the editor's server and outlives the test run by a moment, to take the server down and remove its profile in
// every case: on a normal stop, on Ctrl-C, and when the test process was killed without a chance to clean up.
// Usage: node guard.mjs BASE LOG COMMAND ARGS…   It stops when its standard input closes, which the system does when
// the process that holds the other end is gone.
import { spawn } from "node:child_process";
import { openSync, rmSync } from "node:fs";

const [base, log, command, ...args] = process.argv.slice(2);
const output = openSync(log, "a");
// A process group of its own holds everything the server starts: extension hosts, terminals, file watcher, git.
const server = spawn(command, args, { cwd: base, stdio: ["ignore", output, output], detached: true });
server.on("error", () => finish(1));
server.on("exit", (code) => finish(code ?? 1));

process.stdin.resume().on("close", () => signalServer("SIGTERM"));
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => signalServer("SIGTERM"));

function signalServer(signal) {
  killGroup(signal);
  setTimeout(() => finish(0), 4000).unref();
}

function finish(code) {
  killGroup("SIGKILL");
  rmSync(base, { recursive: true, force: true, maxRetries: 20, retryDelay: 50 });
  process.exit(code);
}

function killGroup(signal) {
  if (!server.pid) return;
  try {
    process.kill(-server.pid, signal);
  } catch {
    // nothing is left in the group
  }
}
