/** The pool's process as its client sees it: started by the first message, and again by the first after it has ended. */
import { type ChildProcess, fork } from "node:child_process";
import { join } from "node:path";
import type { RpcMessage } from "../../rpc.ts";
import type { PoolOptions } from "./protocol.ts";

export interface ProcessSetup {
  /** Worker threads, 1 … 64. */
  readonly workers: number;
  /** Folder that holds pool.mjs and worker.mjs. */
  readonly programs: string;
  /** The worker's program, where it is not worker.mjs. */
  readonly worker?: string;
  /** Variables added to the process's environment. */
  readonly environment?: Readonly<Record<string, string>>;
}

export interface ProcessEvents {
  onMessage(message: unknown): void;
  /** @param how exit code or signal; @param stderrText the last line of its standard error */
  onExit(how: string, stderrText: string): void;
}

/**
 * Settings of the GNU C library's allocator (ignored elsewhere): blocks of 128 kB and more go back to the system when
 * they are freed. By itself it keeps them for later, and a process that renders frames grows by 100 MB with each of the
 * first few. New blocks come in pages of 2 MB where the system has them (glibc 2.35 and later, Linux): a scan's memory
 * is then new to the processor 70 times, not 36,000 times.
 */
const MALLOC_SETTINGS = {
  MALLOC_MMAP_THRESHOLD_: "131072",
  MALLOC_TRIM_THRESHOLD_: "131072",
  GLIBC_TUNABLES: [process.env.GLIBC_TUNABLES, "glibc.malloc.hugetlb=1"].filter(Boolean).join(":"),
};

/** Milliseconds after which a process that was asked to end is ended. */
const CLOSE_LIMIT = 3000;

export class PoolProcess {
  readonly #setup: ProcessSetup;
  readonly #events: ProcessEvents;
  #child: ChildProcess | undefined;

  constructor(setup: ProcessSetup, events: ProcessEvents) {
    this.#setup = setup;
    this.#events = events;
    // A process that hangs or was stopped does not notice that its client has gone.
    process.on("exit", this.kill);
  }

  /** Sends a message; one that finds the process gone is lost, and `onExit` comes next. Starts the process. */
  send(message: RpcMessage): void {
    this.#child ??= this.#start();
    this.#child.send(message, () => {});
  }

  /** Whether a process runs that a message would reach. */
  get isConnected(): boolean {
    return this.#child?.connected === true;
  }

  /** Ends the process by the one signal that a stopped process follows. */
  readonly kill = (): void => void this.#child?.kill("SIGKILL");

  /** Resolves when the process has ended: by itself when the channel closes, or by force if it is stuck. */
  close(): Promise<void> {
    return new Promise((resolve) => {
      const last = this.#child;
      const done = (): void => {
        process.off("exit", this.kill);
        resolve();
      };
      if (!last) return done();
      last.once("exit", done);
      if (last.connected) last.disconnect();
      setTimeout(() => last.kill("SIGKILL"), CLOSE_LIMIT).unref();
    });
  }

  #start(): ChildProcess {
    const { workers, programs, worker = join(programs, "worker.mjs"), environment } = this.#setup;
    const options: PoolOptions = { workers, worker };
    const started = fork(join(programs, "pool.mjs"), [JSON.stringify(options)], {
      execArgv: ["--expose-gc"],
      serialization: "advanced",
      // Standard output belongs to the caller; the last of its standard error explains its end.
      stdio: ["ignore", "ignore", "pipe", "ipc"],
      // In a desktop editor the running program is the editor itself; this makes it behave as plain Node.
      env: { ...process.env, ...MALLOC_SETTINGS, ...environment, ELECTRON_RUN_AS_NODE: "1" },
    });
    let stderrTail = "";
    started.stderr?.setEncoding("utf8").on("data", (text: string) => (stderrTail = (stderrTail + text).slice(-2000)));
    started.on("message", (message) => this.#events.onMessage(message));
    let hasEnded = false;
    const end = (how: string): void => {
      if (hasEnded) return;
      hasEnded = true;
      if (this.#child === started) this.#child = undefined;
      this.#events.onExit(how, stderrTail.trim().split("\n").at(-1) ?? "");
    };
    started.on("error", (error) => end(error.message));
    started.on("exit", (code, signal) => end(signal ? `signal ${signal}` : `exit code ${code}`));
    return started;
  }
}
