/**
 * One typed channel between two programs that pass plain data: a panel and its host, a client and the pool process, the
 * pool process and its worker threads, a page and its picture worker. A request always settles, with one reply or one
 * error. Events go either way and are not answered.
 *
 * The requests of a channel are a table `{ name: { request; reply } }`, its events a table `{ name: value }`.
 */
import { cancelledError, type Failure, failureOf, JobError } from "./failure.ts";

/** Everything that crosses. */
export type RpcMessage =
  | { readonly kind: "request"; readonly id: number; readonly name: string; readonly value: unknown }
  | { readonly kind: "cancel"; readonly id: number }
  /** The part of the work that is done, 0 … 1. The first one says that the work has started. */
  | { readonly kind: "progress"; readonly id: number; readonly fraction: number }
  | { readonly kind: "reply"; readonly id: number; readonly value: unknown }
  | { readonly kind: "error"; readonly id: number; readonly failure: Failure }
  | { readonly kind: "event"; readonly name: string; readonly value: unknown };

/** Sends one message; `transfer` names buffers that are handed over rather than copied, where the channel can. */
export type Post = (message: RpcMessage, transfer?: readonly unknown[]) => void;

type Name<Table> = keyof Table & string;
type RequestValue<Table, N extends keyof Table> = Table[N] extends { request: infer Value } ? Value : never;
type ReplyValue<Table, N extends keyof Table> = Table[N] extends { reply: infer Value } ? Value : never;

export interface RequestOptions {
  readonly signal?: AbortSignal;
  /** Milliseconds until the request fails by itself with "timed-out"; the client's own limit where not given. */
  readonly limit?: number;
  readonly onProgress?: (fraction: number) => void;
}

export interface RpcClient<Requests> {
  /** Rejects with a JobError: the other side's failure, "cancelled" or "timed-out". */
  request<N extends Name<Requests>>(
    name: N,
    value: RequestValue<Requests, N>,
    options?: RequestOptions,
  ): Promise<ReplyValue<Requests, N>>;
  /** Takes a message of the other side; what is no answer to an open request is ignored. */
  receive(message: unknown): void;
  /**
   * For a channel whose other side has ended: each open request fails with what `judge` returns, or is sent again where
   * it returns nothing. `started` tells whether any progress was reported, `options` are those of the request.
   */
  reset(judge: (open: { readonly started: boolean; readonly options: RequestOptions }) => JobError | undefined): void;
}

interface OpenRequest {
  readonly message: RpcMessage;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: JobError) => void;
  readonly options: RequestOptions;
  started: boolean;
}

/**
 * The asking side of a channel.
 *
 * @param limit milliseconds until a request fails by itself; no limit where not given
 * @param patient true where a cancelled request waits for the other side's answer, which may still have to tidy up
 */
export function createRpcClient<Requests>(
  post: Post,
  { limit: ownLimit, patient = false }: { readonly limit?: number; readonly patient?: boolean } = {},
): RpcClient<Requests> {
  const open = new Map<number, OpenRequest>();
  let last = 0;

  return {
    request(name, value, options = {}) {
      const { signal, limit = ownLimit } = options;
      if (signal?.aborted) return Promise.reject(cancelledError());
      const id = ++last;
      return new Promise((resolve, reject) => {
        const stop = (error: JobError): void => {
          post({ kind: "cancel", id });
          settled.reject(error);
        };
        const abort = (): void => (patient ? post({ kind: "cancel", id }) : stop(cancelledError()));
        const timer = limit === undefined ? undefined : setTimeout(() => stop(timedOutError(limit)), limit);
        const close = (): void => {
          open.delete(id);
          clearTimeout(timer);
          signal?.removeEventListener("abort", abort);
        };
        const settled = {
          resolve: (reply: unknown) => (close(), resolve(reply as never)),
          reject: (error: JobError) => (close(), reject(error)),
        };
        const message: RpcMessage = { kind: "request", id, name, value };
        open.set(id, { message, ...settled, options, started: false });
        signal?.addEventListener("abort", abort, { once: true });
        post(message);
      });
    },

    receive(message) {
      if (!isRpcMessage(message) || message.kind === "event") return;
      const request = open.get(message.id);
      if (!request) return;
      if (message.kind === "progress") {
        request.started = true;
        request.options.onProgress?.(message.fraction);
      } else if (message.kind === "reply") request.resolve(message.value);
      else if (message.kind === "error") request.reject(new JobError(message.failure));
    },

    reset(judge) {
      for (const request of open.values()) {
        const error = judge(request);
        if (error) request.reject(error);
        else post(request.message);
      }
    },
  };
}

const timedOutError = (limit: number): JobError =>
  new JobError({
    code: "timed-out",
    message: `No answer came within ${Math.round(limit / 1000)} s.`,
    remedy: "Try again.",
  });

export interface RequestContext {
  /** Aborts when the asking side cancels, or when the server closes. */
  readonly signal: AbortSignal;
  /** @param fraction the part of the work that is done, 0 … 1 */
  readonly progress: (fraction: number) => void;
}

export type Handlers<Requests> = {
  readonly [N in Name<Requests>]: (
    value: RequestValue<Requests, N>,
    context: RequestContext,
  ) => Promise<ReplyValue<Requests, N>>;
};

export interface RpcServer {
  /** Takes a message of the other side; what is no request is ignored. */
  receive(message: unknown): void;
  /** Aborts everything that runs. */
  close(): void;
}

/** The answering side of a channel: every request gets exactly one reply or error, whatever its handler does. */
export function createRpcServer<Requests>(handlers: Handlers<Requests>, post: Post): RpcServer {
  const running = new Map<number, AbortController>();

  async function answer(id: number, name: string, value: unknown, signal: AbortSignal): Promise<unknown> {
    if (!Object.hasOwn(handlers, name))
      throw new JobError({ code: "unknown-request", message: `There is no request named "${name}".` });
    const handle = handlers[name as keyof typeof handlers] as (v: unknown, c: RequestContext) => Promise<unknown>;
    return await handle(value, { signal, progress: (fraction) => post({ kind: "progress", id, fraction }) });
  }

  return {
    receive(message) {
      if (!isRpcMessage(message)) return;
      if (message.kind === "cancel") return running.get(message.id)?.abort();
      if (message.kind !== "request" || typeof message.id !== "number") return;
      const { id, name, value } = message;
      const controller = new AbortController();
      running.set(id, controller);
      void answer(id, String(name), value, controller.signal)
        .then(
          (reply) => post({ kind: "reply", id, value: reply }),
          (error: unknown) => post({ kind: "error", id, failure: failureOf(error) }),
        )
        .finally(() => running.delete(id));
    },
    close() {
      for (const controller of running.values()) controller.abort();
      running.clear();
    },
  };
}

/** Returns a function that sends events of one table. */
export function createEmitter<Events>(
  post: Post,
): <N extends Name<Events>>(name: N, value: Events[N], transfer?: readonly unknown[]) => void {
  return (name, value, transfer) => post({ kind: "event", name, value }, transfer);
}

export type EventHandlers<Events> = { readonly [N in Name<Events>]?: (value: Events[N]) => void };

/** Calls the handler of an event; returns false where the message is no event that has one. */
export function dispatchEvent<Events>(message: unknown, handlers: EventHandlers<Events>): boolean {
  if (!isRpcMessage(message) || message.kind !== "event" || !Object.hasOwn(handlers, message.name)) return false;
  (handlers[message.name as keyof typeof handlers] as (value: unknown) => void)(message.value);
  return true;
}

/** The other side is another program, and anything may be posted. */
const isRpcMessage = (message: unknown): message is RpcMessage =>
  typeof message === "object" && message !== null && typeof (message as { kind?: unknown }).kind === "string";
