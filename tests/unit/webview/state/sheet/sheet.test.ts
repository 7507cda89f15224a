/** What the sheet shows, where, and which edits its gestures make; edits are applied to a real recipe. */
import { describe, expect, it } from "vitest";
import { rollState } from "../../../../../extension/editor/preview/roll-state.ts";
import type { FrameEntry, ValueEdit } from "../../../../../extension/messages.ts";
import { applyChanges, editRecipe } from "../../../../../extension/recipe/edit/edit.ts";
import { parseRecipe } from "../../../../../extension/recipe/problems/document.ts";
import { loadDocument } from "../../../../../extension/recipe/resolve/workspace.ts";
import { arranged, NO_FILTER } from "../../../../../webview/state/sheet/arrangement.ts";
import { CONTROLS } from "../../../../../webview/state/controls.ts";
import {
  changeBy,
  mirrorEach,
  rankBy,
  setRank,
  setTo,
  shareCrop,
  switchChoice,
  switchSkip,
  turnBy,
} from "../../../../../webview/state/sheet/sheet-edits.ts";
import {
  gridHeight,
  gridLayout,
  tileAt,
  tilesWithin,
  visibleTiles,
} from "../../../../../webview/state/sheet/sheet-layout.ts";
import { restoredSheet } from "../../../../../webview/sheet/sheet-state.ts";

const TEXT = `version: 1
negative:
  base: { density: [0.3, 0.6, 0.75] }
positive:
  exposure: 0.2
  filtration: { magenta: 4, yellow: 7 }
frames:
  "01": { scan: A.dng, choice: keep, rank: 2 }
  "02": { scan: B.dng, positive: { exposure: -0.5 }, area: { left: 0.1, top: 0.1, width: 0.8, height: 0.8 } }
  "03": { scan: C.dng, turn: 270, choice: reject }
  "04": { scan: D.dng, positive: { exposure: 9.9 }, mirror: true, rank: 5 }
`;

async function entries(text = TEXT): Promise<readonly FrameEntry[]> {
  const files = { roots: [""], read: async () => undefined, exists: async () => true, list: async () => undefined };
  const loaded = await loadDocument(parseRecipe(text, { file: "a.roll.yaml", roots: [""] }), files);
  const measured = new Set(["02"]);
  return rollState(loaded, undefined, { version: 1, trusted: true, stamp: () => "", measured }).frames;
}
const written = (edits: readonly ValueEdit[], text = TEXT): string =>
  applyChanges(text, editRecipe(text, edits as Parameters<typeof editRecipe>[1], { file: "a.roll.yaml" }));
const [exposure, , , yellow] = CONTROLS;
const only = (frames: readonly FrameEntry[], ...ids: string[]) => frames.filter(({ id }) => ids.includes(id));
const exposures = async (text: string): Promise<number[]> => (await entries(text)).map(({ look }) => look.exposure);

describe("a change by an amount", () => {
  it("leaves each frame what tells it from the others, and holds it to what the recipe allows", async () => {
    const roll = await entries();
    const after = written(changeBy(roll, only(roll, "01", "02", "04"), exposure!, 0.3));
    expect(await exposures(after)).toEqual([0.5, -0.2, 0.2, 10]);
  });

  it("changes the roll's value once where every frame that inherits it is meant", async () => {
    const roll = await entries();
    const edits = changeBy(roll, roll, yellow!, 2);
    expect(edits).toEqual([{ path: ["positive", "filtration", "yellow"], value: 9 }]);
    expect((await entries(written(edits))).map(({ look }) => look.filtration.yellow)).toEqual([9, 9, 9, 9]);
    // Exposure: two frames inherit, two state their own.
    const brighter = changeBy(roll, roll, exposure!, -0.2);
    expect(brighter).toHaveLength(3);
    expect(await exposures(written(brighter))).toEqual([0, -0.7, 0, 9.7]);
  });

  it("leaves the roll's value alone where one frame that inherits it is not meant", async () => {
    const roll = await entries();
    const after = written(changeBy(roll, only(roll, "01", "02"), yellow!, 2));
    expect((await entries(after)).map(({ look }) => look.filtration.yellow)).toEqual([9, 9, 7, 7]);
    expect(after).toContain("filtration: { magenta: 4, yellow: 7 }");
  });

  it("sets one value for all", async () => {
    const roll = await entries();
    expect(await exposures(written(setTo(roll, roll, exposure!, 1)))).toEqual([1, 1, 1, 1]);
  });
});

describe("other gestures on several frames", () => {
  it("turn, mirror, skip, choose and rank", async () => {
    const roll = await entries();
    const after = await entries(written([...turnBy(roll, 1), ...mirrorEach(roll)]));
    expect(after.map(({ turn }) => turn)).toEqual([90, 90, 0, 90]);
    expect(after.map(({ mirror }) => mirror)).toEqual([true, true, true, false]);
    const kept = await entries(written(switchChoice(roll, "keep")));
    expect(kept.map(({ choice }) => choice)).toEqual(["keep", "keep", "keep", "keep"]);
    // Again, and it is removed.
    expect(switchChoice(kept, "keep").map(({ value }) => value)).toEqual([undefined, undefined, undefined, undefined]);
    expect((await entries(written(switchSkip(roll)))).every(({ skip }) => skip)).toBe(true);
    expect((await entries(written(rankBy(roll, 1)))).map(({ rank }) => rank)).toEqual([3, 1, 1, 5]);
    expect((await entries(written(rankBy(roll, -1)))).map(({ rank }) => rank)).toEqual([1, undefined, undefined, 4]);
    expect(setRank(roll, 5).map(({ path }) => path[1])).toEqual(["01", "02", "03"]);
  });

  it("share a crop, and count what would be lost", async () => {
    const roll = await entries();
    const [first, second] = roll;
    expect(shareCrop(first!, roll)).toMatchObject({ frames: ["02"], replaced: 1, measured: 1 });
    const shared = shareCrop(second!, roll);
    expect(shared).toMatchObject({ frames: ["01", "03", "04"], replaced: 0, measured: 0 });
    const after = await entries(written(shared.edits));
    expect(after.every(({ area }) => area.left === 0.1 && area.width === 0.8)).toBe(true);
  });
});

describe("the frames that are shown", () => {
  const ids = (frames: readonly FrameEntry[]): string[] => frames.map(({ id }) => id);

  it("come in the order asked for; what is alike stays in the film's order", async () => {
    const roll = await entries();
    const by = (order: Parameters<typeof arranged>[1]["order"], counts?: Record<string, number>): string[] =>
      ids(arranged(roll, { order, filter: NO_FILTER }, counts));
    expect(by("film")).toEqual(["01", "02", "03", "04"]);
    expect(by("choice")).toEqual(["01", "02", "04", "03"]);
    expect(by("rank")).toEqual(["04", "01", "02", "03"]);
    expect(by("exposure")).toEqual(["02", "01", "03", "04"]);
    expect(by("findings", { "03": 2, "02": 1 })).toEqual(["03", "02", "01", "04"]);
  });

  it("pass the filter", async () => {
    const roll = await entries();
    const with_ = (filter: Partial<typeof NO_FILTER>, counts?: Record<string, number>): string[] =>
      ids(arranged(roll, { order: "film", filter: { ...NO_FILTER, ...filter } }, counts));
    expect(with_({ choice: "keep" })).toEqual(["01"]);
    expect(with_({ choice: "not-reject" })).toEqual(["01", "02", "04"]);
    expect(with_({ choice: "open" })).toEqual(["02", "04"]);
    expect(with_({ rank: "3" })).toEqual(["04"]);
    expect(with_({ rank: "none" })).toEqual(["02", "03"]);
    // The median is 0.2 EV.
    expect(with_({ exposure: "below" })).toEqual(["02"]);
    expect(with_({ exposure: "near" })).toEqual(["01", "03"]);
    expect(with_({ exposure: "above" })).toEqual(["04"]);
    expect(with_({ findings: "some" }, { "03": 1 })).toEqual(["03"]);
    expect(with_({ findings: "none" }, { "03": 1 })).toEqual(["01", "02", "04"]);
    // Without a survey nothing is known of findings.
    expect(with_({ findings: "some" })).toEqual(["01", "02", "03", "04"]);
  });
});

describe("the grid", () => {
  it("has four pictures across at the largest size, and only tiles near the view in the page", () => {
    const four = gridLayout(1000, 200, "four");
    expect(four).toMatchObject({ columns: 4, rows: 50 });
    const contact = gridLayout(1000, 200, "contact");
    expect(contact.columns).toBeGreaterThan(5);
    const [first, end] = visibleTiles(contact, 200, 10 * contact.stepY, 600);
    expect(first).toBe(7 * contact.columns);
    expect(end - first).toBeLessThan(75);
    expect(visibleTiles(contact, 200, 1e6, 600)).toEqual([200, 200]);
    expect(tileAt(contact, contact.columns)).toEqual([8, 8 + contact.stepY]);
    expect(gridHeight(contact)).toBe(8 + contact.rows * contact.stepY);
    expect(gridLayout(10, 3, "medium").columns).toBe(1);
  });

  it("finds the tiles that a rectangle touches", () => {
    const layout = gridLayout(1000, 10, "four");
    const [x, y] = tileAt(layout, 5);
    expect(tilesWithin(layout, 10, { x: x + 5, y: y + 5, width: 10, height: 10 })).toEqual([5]);
    expect(tilesWithin(layout, 10, { x: 0, y: 0, width: 2000, height: 2000 })).toHaveLength(10);
  });

  it("takes what was kept of it, and nothing that is wrong", () => {
    expect(restoredSheet({ size: "four", order: "rank", relative: false, filter: { rank: "3", choice: 7 } })).toEqual({
      size: "four",
      order: "rank",
      relative: false,
      filter: { ...NO_FILTER, rank: "3" },
    });
    for (const broken of [undefined, null, 7, { size: "huge", order: [], filter: "x" }])
      expect(restoredSheet(broken)).toMatchObject({ size: "small", order: "film", filter: NO_FILTER });
  });
});
