import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { PanelMemory } from "../../../../extension/editor/panels/panel-memory.ts";
import { stateSaver } from "../../../../webview/kept-state.ts";

describe("a panel's state on the host's side", () => {
  const folder = mkdtempSync(join(tmpdir(), "panels-"));
  const files = (): string[] => readdirSync(join(folder, "panels"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it("is there for another window, the last of many, and gone when the panel is closed", async () => {
    const memory = new PanelMemory(folder);
    expect(await memory.recall("a")).toBeUndefined();
    for (let k = 0; k < 50; k++) memory.keep("a", { mode: "wipe", k });
    memory.keep("b", { mode: "blink" });
    await vi.waitFor(async () => expect(await new PanelMemory(folder).recall("a")).toEqual({ mode: "wipe", k: 49 }));
    await vi.waitFor(async () => expect(await memory.recall("b")).toEqual({ mode: "blink" }));
    expect(files().length).toBe(2);
    memory.keep("a", { k: 50 });
    await memory.forget("a");
    expect(await memory.recall("a")).toBeUndefined();
    expect(await memory.recall("b")).toEqual({ mode: "blink" });
  });

  it("does without a folder, without a readable file, and keeps nothing that is no state", async () => {
    const nowhere = new PanelMemory(undefined);
    nowhere.keep("a", {});
    expect(await nowhere.recall("a")).toBeUndefined();
    await nowhere.forget("a");
    const memory = new PanelMemory(folder);
    const [file] = files();
    writeFileSync(join(folder, "panels", file), "{ half");
    expect(await memory.recall("b")).toBeUndefined();
    memory.keep("c", { text: "x".repeat(300_000) });
    memory.keep("d", undefined);
    await memory.forget("e");
    expect(files().length).toBe(1);
  });
});

describe("a page's state", () => {
  beforeEach(() => void vi.useFakeTimers({ now: 1000 }));
  afterEach(() => void vi.useRealTimers());
  const rootWith = (kept: unknown): HTMLElement => ({ dataset: { kept: JSON.stringify(kept) } }) as never;
  function api(state?: unknown) {
    const received: unknown[] = [];
    return {
      received,
      postMessage: (message: unknown) => void received.push(message),
      getState: () => state,
      setState: (next: unknown) => void (state = next),
    };
  }

  it("is the newer of what the editor and the host kept", () => {
    expect(stateSaver(api({ mode: "wipe", at: 5 }), rootWith({ mode: "blink", at: 6 })).getState()).toMatchObject({
      mode: "blink",
    });
    expect(stateSaver(api({ mode: "wipe", at: 7 }), rootWith({ mode: "blink", at: 6 })).getState()).toMatchObject({
      mode: "wipe",
    });
    expect(stateSaver(api({ mode: "wipe" }), rootWith(null)).getState()).toEqual({ mode: "wipe" });
    expect(stateSaver(api(), { dataset: {} } as never).getState()).toBeUndefined();
  });

  it("is received to the host once for a run of changes, as it then is", () => {
    const editor = api();
    const keeper = stateSaver(editor, rootWith(null));
    for (const wipe of [0.1, 0.2, 0.3]) keeper.setState({ wipe });
    expect(editor.received).toEqual([]);
    vi.advanceTimersByTime(200);
    expect(editor.received).toEqual([{ kind: "event", name: "keep", value: { wipe: 0.3, at: 1000 } }]);
    keeper.setState({ wipe: 0.4 });
    vi.advanceTimersByTime(200);
    expect(editor.received.length).toBe(2);
  });
});
