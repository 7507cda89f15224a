import { describe, expect, it, vi } from "vitest";
import { JobError } from "../../extension/failure.ts";
import type { PreviewEvents, PreviewRequests } from "../../extension/messages.ts";
import {
  createEmitter,
  createRpcClient,
  createRpcServer,
  dispatchEvent,
  type Handlers,
  type RpcMessage,
} from "../../extension/rpc.ts";

/** Both sides in one process, with messages copied as postMessage copies them. */
function wired(handlers: Partial<Handlers<PreviewRequests>>, options: Parameters<typeof createRpcClient>[1] = {}) {
  const sent: RpcMessage[] = [];
  const client = createRpcClient<PreviewRequests>((message) => {
    sent.push(message);
    server.receive(structuredClone(message));
  }, options);
  const server = createRpcServer<PreviewRequests>(handlers as Handlers<PreviewRequests>, (message) =>
    client.receive(structuredClone(message)),
  );
  return { client, server, sent };
}

const never = () => new Promise<never>(() => {});

describe("requests", () => {
  it("are answered with their value, bytes included", async () => {
    const { client } = wired({ edit: async ({ label }) => ({ version: label.length }) });
    await expect(client.request("edit", { label: "abc", edits: [] })).resolves.toEqual({ version: 3 });
  });

  it("fail with the handler's code, message and remedy", async () => {
    const error = Object.assign(new Error("The scan is not there."), {
      code: "missing-scan",
      remedy: "Check its name.",
    });
    const { client } = wired({ picture: () => Promise.reject(error) });
    const failure = await client.request("picture", { frame: "01" }).catch((e: unknown) => e);
    expect(failure).toBeInstanceOf(JobError);
    expect(failure).toMatchObject({
      code: "missing-scan",
      message: "The scan is not there.",
      remedy: "Check its name.",
    });
  });

  it("fail when the handler throws before it waits, and when there is none", async () => {
    const { client } = wired({
      picture: () => {
        throw new TypeError("nope");
      },
    });
    await expect(client.request("picture", { frame: "01" })).rejects.toMatchObject({ message: "nope" });
    await expect(client.request("thumbnail", { frame: "01" })).rejects.toMatchObject({ code: "unknown-request" });
    await expect(client.request("constructor" as "undo", { redo: false })).rejects.toMatchObject({
      code: "unknown-request",
    });
  });

  it("time out by themselves, and tell the other side to stop", async () => {
    vi.useFakeTimers();
    let stopped = false;
    const { client } = wired({
      picture: (_value, { signal }) => {
        signal.addEventListener("abort", () => (stopped = true));
        return never();
      },
    });
    const waiting = client.request("picture", { frame: "01" }, { limit: 2000 }).catch((error: unknown) => error);
    await vi.advanceTimersByTimeAsync(2100);
    expect(await waiting).toMatchObject({ code: "timed-out" });
    expect(stopped).toBe(true);
    vi.useRealTimers();
  });

  it("are cancelled by their signal, before and while they run", async () => {
    let stopped = 0;
    const { client } = wired({
      picture: (_value, { signal }) => {
        signal.addEventListener("abort", () => stopped++);
        return never();
      },
    });
    const controller = new AbortController();
    const waiting = client.request("picture", { frame: "01" }, { signal: controller.signal });
    controller.abort();
    await expect(waiting).rejects.toMatchObject({ code: "cancelled" });
    await expect(client.request("picture", { frame: "01" }, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: "cancelled",
    });
    expect(stopped).toBe(1);
  });

  it("settle once: a late answer to a cancelled request is left alone", async () => {
    let answer: ((value: never) => void) | undefined;
    const { client } = wired({ select: () => new Promise((resolve) => (answer = resolve)) });
    const controller = new AbortController();
    const waiting = client.request("select", { frame: "01" }, { signal: controller.signal });
    controller.abort();
    answer?.({} as never);
    await expect(waiting).rejects.toMatchObject({ code: "cancelled" });
  });

  it("are all told to stop when the panel closes", async () => {
    let stopped = 0;
    const { client, server } = wired({
      picture: (_value, { signal }) => {
        signal.addEventListener("abort", () => stopped++);
        return never();
      },
    });
    void client.request("picture", { frame: "01" });
    void client.request("picture", { frame: "02" });
    server.close();
    expect(stopped).toBe(2);
  });

  it("ignore what is no request", () => {
    const post = vi.fn<(message: RpcMessage) => void>();
    const server = createRpcServer<PreviewRequests>({} as Handlers<PreviewRequests>, post);
    server.receive({ kind: "cancel", id: 9 });
    server.receive({ kind: "request" });
    server.receive({});
    server.receive(null);
    expect(post).not.toHaveBeenCalled();
  });
});

describe("progress", () => {
  it("reaches the asking side while the work runs", async () => {
    const { client } = wired({
      survey: async (_value, { progress }) => {
        progress(0);
        progress(0.5);
        return {};
      },
    });
    const seen: number[] = [];
    await client.request("survey", {}, { onProgress: (fraction) => seen.push(fraction) });
    expect(seen).toEqual([0, 0.5]);
  });
});

describe("a channel whose other side ended", () => {
  it("fails what had started and sends the rest again", async () => {
    const sent: RpcMessage[] = [];
    const client = createRpcClient<PreviewRequests>((message) => sent.push(message));
    const first = client.request("select", { frame: "01" });
    const second = client.request("select", { frame: "02" });
    client.receive({ kind: "progress", id: 1, fraction: 0 });
    client.reset(({ started }) => (started ? new JobError({ code: "pool-died", message: "It ended." }) : undefined));
    await expect(first).rejects.toMatchObject({ code: "pool-died" });
    expect(sent.map((message) => (message.kind === "request" ? message.id : 0))).toEqual([1, 2, 2]);
    client.receive({ kind: "reply", id: 2, value: {} });
    await expect(second).resolves.toEqual({});
  });
});

describe("a patient client", () => {
  it("waits for the other side's answer after it has cancelled", async () => {
    let finish: (() => void) | undefined;
    const { client } = wired(
      {
        export: (_value, { signal }) =>
          new Promise((resolve) => {
            finish = () => resolve({ files: signal.aborted ? ["half written"] : [] });
          }),
      },
      { patient: true },
    );
    const controller = new AbortController();
    const waiting = client.request("export", { frame: "01" }, { signal: controller.signal });
    controller.abort();
    finish?.();
    await expect(waiting).resolves.toEqual({ files: ["half written"] });
  });
});

describe("events", () => {
  it("reach their handler, and what is no event of the table is left to others", () => {
    const seen: unknown[] = [];
    const receive = (message: RpcMessage): boolean =>
      dispatchEvent<PreviewEvents>(structuredClone(message), { show: (value) => seen.push(value) });
    const emit = createEmitter<PreviewEvents>(receive);
    emit("show", { frame: "07" });
    expect(seen).toEqual([{ frame: "07" }]);
    expect(receive({ kind: "event", name: "surveyed", value: null })).toBe(false);
    expect(receive({ kind: "event", name: "constructor", value: null })).toBe(false);
    expect(receive({ kind: "cancel", id: 1 })).toBe(false);
  });
});
