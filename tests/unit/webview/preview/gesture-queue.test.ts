import { describe, expect, it } from "vitest";
import type { FrameEntry, RollState } from "../../../../extension/messages.ts";
import { GestureQueue } from "../../../../webview/preview/gesture-queue.ts";
import type { Model } from "../../../../webview/preview/model.ts";
import { makeStore } from "../../../../webview/state/store.ts";

type Spots = readonly (readonly [number, number, number])[];
const roll = (version: number, spots: Spots): RollState =>
  ({ version, frames: [{ id: "01", spots }] }) as unknown as RollState;

/** A text that takes `delay` milliseconds for an edit; the roll comes back before or after the reply. */
function slowText(delay: number, isLate: boolean) {
  const store = makeStore({ roll: roll(1, []), pending: [] } as unknown as Model);
  const written: string[] = [];
  let spots: Spots = [];
  let version = 1;
  const queue = new GestureQueue(store, async (label, edits) => {
    await new Promise((done) => setTimeout(done, delay));
    if (label === "refused") return undefined;
    written.push(label);
    spots = edits[0]!.value as Spots;
    const state = roll(++version, spots);
    if (isLate) setTimeout(() => store.set({ roll: state }), delay);
    else store.set({ roll: state });
    return version;
  });
  const add = (x: number, label = "added") =>
    queue.add(
      "01",
      (entry: FrameEntry) => ({
        label,
        edits: [{ path: ["frames", "01", "spots"], value: [...(entry.spots as Spots), [x, 0, 0]] }],
      }),
      { frame: "01", spot: [x, 0, 0] },
    );
  return { store, written, add, spots: () => spots.map(([x]) => x) };
}

describe("gestures that come faster than the text takes them", () => {
  it.each([false, true])("are all written, each by itself and in their order (state late: %s)", async (isLate) => {
    const { store, written, add, spots } = slowText(8, isLate);
    const all = [1, 2, 3, 4, 5, 6].map((x) => add(x));
    expect(store.get().pending).toHaveLength(6);
    await Promise.all(all);
    expect(spots()).toEqual([1, 2, 3, 4, 5, 6]);
    expect(written).toHaveLength(6);
    expect(store.get().pending).toEqual([]);
  });

  it("go on after one that was refused", async () => {
    const { store, add, spots } = slowText(2, false);
    await Promise.all([add(1), add(2, "refused"), add(3)]);
    expect(spots()).toEqual([1, 3]);
    expect(store.get().pending).toEqual([]);
  });
});
