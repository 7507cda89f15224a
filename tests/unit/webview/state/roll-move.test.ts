import { describe, expect, it } from "vitest";
import type { FrameEntry } from "../../../../extension/messages.ts";
import { CONTROLS } from "../../../../webview/state/controls.ts";
import { movesAll, moveRoll } from "../../../../webview/state/roll-move.ts";

const exposure = CONTROLS[0];
const frame = (id: string, value: number, own: readonly string[] = []): FrameEntry =>
  ({ id, own, look: { exposure: value } }) as unknown as FrameEntry;

describe("a move of the roll's exposure", () => {
  const frames = [frame("01", 0.2), frame("02", -1, ["positive.exposure"]), frame("03", 9.9, ["positive.exposure"])];

  it("moves frames with an exposure of their own by the same amount, held to what a recipe allows", () =>
    expect(moveRoll(frames, exposure, 0.2, 0.7)).toEqual([
      { path: ["positive", "exposure"], value: 0.7 },
      { path: ["frames", "02", "positive", "exposure"], value: -0.5 },
      { path: ["frames", "03", "positive", "exposure"], value: 10 },
    ]));

  it("is the only control that does", () =>
    expect(CONTROLS.filter(movesAll).map(({ key }) => key)).toEqual(["exposure"]));
});
