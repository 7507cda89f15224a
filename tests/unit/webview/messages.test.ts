import { describe, expect, it, vi } from "vitest";
import {
  type Handlers,
  makeAnswerer,
  makeAsker,
  RequestError,
  type ToHost,
  type ToPanel,
} from "../../../extension/messages.ts";

/** Both sides in one process, with messages copied as postMessage copies them. */
function wired(handlers: Partial<Handlers>) {
  const sent: ToHost[] = [];
  const asker = makeAsker((message) => {
    sent.push(message);
    answerer.receive(structuredClone(message));
  });
  const answerer = makeAnswerer(handlers as Handlers, (message) => asker.receive(structuredClone(message) as ToPanel));
  return { asker, answerer, sent };
}

const never = () => new Promise<never>(() => {});

describe("requests", () => {
  it("are answered with their value, bytes included", async () => {
    const { asker } = wired({ edit: async ({ label }) => ({ version: label.length }) });
    await expect(asker.ask("edit", { label: "abc", edits: [] })).resolves.toEqual({ version: 3 });
  });

  it("fail with the handler's code, and its remedy joins the sentence", async () => {
    const error = Object.assign(new Error("The scan is not there."), {
      code: "missing-scan",
      remedy: "Check its name.",
    });
    const { asker } = wired({ picture: () => Promise.reject(error) });
    const failure = await asker.ask("picture", { frame: "01" }).catch((e: unknown) => e);
    expect(failure).toBeInstanceOf(RequestError);
    expect(failure).toMatchObject({ code: "missing-scan", message: "The scan is not there. Check its name." });
  });

  it("fail when the handler throws before it waits, and when there is none", async () => {
    const { asker } = wired({
      picture: () => {
        throw new TypeError("nope");
      },
    });
    await expect(asker.ask("picture", { frame: "01" })).rejects.toMatchObject({ message: "nope" });
    await expect(asker.ask("thumbnail", { frame: "01" })).rejects.toMatchObject({ code: "unknown-request" });
    await expect(asker.ask("constructor" as "undo", { redo: false })).rejects.toMatchObject({
      code: "unknown-request",
    });
  });

  it("time out by themselves, and tell the other side to stop", async () => {
    vi.useFakeTimers();
    let stopped = false;
    const { asker } = wired({
      picture: (_ask, signal) => {
        signal.addEventListener("abort", () => (stopped = true));
        return never();
      },
    });
    const waiting = asker.ask("picture", { frame: "01" }, { limit: 2000 }).catch((error: unknown) => error);
    await vi.advanceTimersByTimeAsync(2100);
    expect(await waiting).toMatchObject({ code: "timed-out" });
    expect(stopped).toBe(true);
    vi.useRealTimers();
  });

  it("are cancelled by their signal, before and while they run", async () => {
    let stopped = 0;
    const { asker } = wired({
      picture: (_ask, signal) => {
        signal.addEventListener("abort", () => stopped++);
        return never();
      },
    });
    const controller = new AbortController();
    const waiting = asker.ask("picture", { frame: "01" }, { signal: controller.signal });
    controller.abort();
    await expect(waiting).rejects.toMatchObject({ code: "cancelled" });
    await expect(asker.ask("picture", { frame: "01" }, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: "cancelled",
    });
    expect(stopped).toBe(1);
  });

  it("settle once: a late answer to a cancelled request is left alone", async () => {
    let answer: ((value: never) => void) | undefined;
    const { asker } = wired({ select: () => new Promise((resolve) => (answer = resolve)) });
    const controller = new AbortController();
    const waiting = asker.ask("select", { frame: "01" }, { signal: controller.signal });
    controller.abort();
    answer?.({} as never);
    await expect(waiting).rejects.toMatchObject({ code: "cancelled" });
  });

  it("are all told to stop when the panel closes", async () => {
    let stopped = 0;
    const { asker, answerer } = wired({
      picture: (_ask, signal) => {
        signal.addEventListener("abort", () => stopped++);
        return never();
      },
    });
    void asker.ask("picture", { frame: "01" });
    void asker.ask("picture", { frame: "02" });
    answerer.close();
    expect(stopped).toBe(2);
  });

  it("ignore what is no request", () => {
    const post = vi.fn<(message: ToPanel) => void>();
    const answerer = makeAnswerer({} as Handlers, post);
    answerer.receive({ kind: "cancel", id: 9 });
    answerer.receive({ kind: "ask" } as ToHost);
    answerer.receive({} as ToHost);
    expect(post).not.toHaveBeenCalled();
  });
});
