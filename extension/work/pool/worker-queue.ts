import { type Failure } from "../../failure.ts";
import { Worker } from "node:worker_threads";
import type { FromPool, FromWorker, PoolOptions, ToPool, ToWorker } from "./protocol.ts";

type Order = Extract<ToPool, { kind: "run" }>;

/** After a request to stop, a job gets this long to stop by itself (it may be in the middle of writing a file). */
const GRACE = 2500;

interface Running {
  readonly order: Order;
  readonly cancelled: SharedArrayBuffer;
  readonly limit: NodeJS.Timeout;
  grace?: NodeJS.Timeout;
}

interface Hand {
  readonly worker: Worker;
  running?: Running;
}

/**
 * Keeps worker threads busy with a queue of orders. Workers start when they are needed. One that dies, hangs beyond
 * its order's limit or does not stop when told is ended and replaced; only its own order fails.
 */
export class Crew {
  readonly #options: PoolOptions;
  readonly #send: (message: FromPool) => void;
  readonly #hands = new Set<Hand>();
  readonly #queue: Order[] = [];

  constructor(options: PoolOptions, send: (message: FromPool) => void) {
    this.#options = options;
    this.#send = send;
  }

  add(order: Order): void {
    this.#queue.push(order);
    this.#next();
  }

  cancel(id: number): void {
    const at = this.#queue.findIndex((order) => order.id === id);
    if (at >= 0) {
      this.#queue.splice(at, 1);
      this.#fail(id, "cancelled", "The work was cancelled.");
      return;
    }
    for (const hand of this.#hands) {
      const { running } = hand;
      if (running?.order.id !== id || running.grace) continue;
      Atomics.store(new Int32Array(running.cancelled), 0, 1);
      running.grace = setTimeout(() => this.#end(hand, "cancelled", "The work was cancelled."), GRACE);
    }
  }

  #next(): void {
    while (this.#queue.length) {
      let hand = [...this.#hands].find((h) => !h.running);
      if (!hand) {
        if (this.#hands.size >= this.#options.workers) return;
        hand = this.#hire();
      }
      this.#start(hand, this.#queue.shift() as Order);
    }
  }

  #hire(): Hand {
    const hand: Hand = { worker: new Worker(this.#options.worker) };
    this.#hands.add(hand);
    hand.worker.on("message", (message: FromWorker) => this.#hear(hand, message));
    hand.worker.on("error", (error) =>
      this.#end(
        hand,
        "worker-died",
        `The worker broke down: ${error.message.replace(/\.?$/, ".")}`,
        "The other work goes on.",
      ),
    );
    hand.worker.on("exit", (code) => this.#end(hand, "worker-died", `The worker ended unexpectedly (code ${code}).`));
    return hand;
  }

  #start(hand: Hand, order: Order): void {
    const cancelled = new SharedArrayBuffer(4);
    const seconds = Math.round(order.limit / 1000);
    const limit = setTimeout(
      () =>
        this.#end(
          hand,
          "timed-out",
          `The work took longer than ${seconds} s and was ended.`,
          "A damaged file can hang a decoder; if the disk is only slow, try again.",
        ),
      order.limit,
    );
    hand.running = { order, cancelled, limit };
    this.#send({ kind: "started", id: order.id });
    hand.worker.postMessage({
      id: order.id,
      job: order.job,
      payload: order.payload,
      cancelled,
    } satisfies ToWorker);
  }

  #hear(hand: Hand, message: FromWorker): void {
    if (hand.running?.order.id !== message.id) return;
    if (message.kind !== "progress") this.#clear(hand);
    this.#send(message);
    if (message.kind !== "progress") this.#next();
  }

  #clear(hand: Hand): void {
    clearTimeout(hand.running?.limit);
    clearTimeout(hand.running?.grace);
    hand.running = undefined;
  }

  /** Ends a worker; the order it was on fails with this reason. */
  #end(hand: Hand, code: string, message: string, remedy?: string): void {
    if (!this.#hands.delete(hand)) return;
    const id = hand.running?.order.id;
    this.#clear(hand);
    if (id !== undefined) this.#fail(id, code, message, remedy);
    void hand.worker.terminate();
    this.#next();
  }

  #fail(id: number, code: string, message: string, remedy?: string): void {
    const failure: Failure = { code, message, remedy };
    this.#send({ kind: "failed", id, failure });
  }
}
