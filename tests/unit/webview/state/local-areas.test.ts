import { describe, expect, it } from "vitest";
import type { StatedArea } from "../../../../extension/engine/local/stated.ts";
import {
  handlesOf,
  movedHandle,
  newArea,
  outlineOf,
  setAreas,
  withoutCorner,
} from "../../../../webview/state/local-areas.ts";

const ASPECT = 1.5;
const at = (area: StatedArea, key: string) => handlesOf(area, ASPECT).find((handle) => handle.key === key)!.at;

describe("handles of areas", () => {
  it("stay where they are dragged to, and move nothing else", () => {
    const oval: StatedArea = { oval: [0.5, 0.5, 0.2, 0.1], turn: 30 };
    const wider = movedHandle(oval, "across", [0.8, 0.5], ASPECT);
    expect(wider).toEqual({ oval: [0.5, 0.5, expect.closeTo(0.3, 9), 0.1], turn: 0 });
    expect(at(wider, "across").map((v) => Number(v.toFixed(6)))).toEqual([0.8, 0.5]);
    const moved = movedHandle(oval, "all", [0.6, 0.4], ASPECT);
    expect(moved.oval!.map((v) => Number(v.toFixed(6)))).toEqual([0.6, 0.4, 0.2, 0.1]);
    const line: StatedArea = {
      line: [
        [0.1, 0.2],
        [0.3, 0.4],
      ],
    };
    expect(movedHandle(line, "1", [0.9, 0.9], ASPECT)).toEqual({
      line: [
        [0.1, 0.2],
        [0.9, 0.9],
      ],
    });
  });
  it("between two corners become a corner, which can be taken out again", () => {
    const area = newArea("polygon", [0.2, 0.2], [0.8, 0.8], []);
    const more = movedHandle(area, "between 1", [0.95, 0.5], ASPECT);
    expect(more.polygon).toEqual([
      [0.2, 0.2],
      [0.8, 0.2],
      [0.95, 0.5],
      [0.8, 0.8],
      [0.2, 0.8],
    ]);
    expect(withoutCorner(more, "2")).toEqual(area);
    const three = {
      polygon: [
        [0, 0],
        [1, 0],
        [1, 1],
      ],
    } as StatedArea;
    expect(withoutCorner(three, "0")).toBe(three);
  });
  it("lie on an oval's outline as the engine draws it", () => {
    // 0.2 of the width is 0.3 heights: turned by a quarter it reaches so far downwards.
    expect(outlineOf({ oval: [0.5, 0.5, 0.2, 0.1], turn: 90 }, ASPECT, 0).map((v) => Number(v.toFixed(9)))).toEqual([
      0.5, 0.8,
    ]);
  });
});

describe("areas in the text", () => {
  it("have an id that no other has, four decimals, and no key that says its default", () => {
    const first = newArea("oval", [0.1, 0.1], [0.33333, 0.4], [{ id: "a1" }, { id: "a3" }]);
    expect(first.id).toBe("a2");
    const [{ path, value }] = setAreas({ id: "07" }, [
      { ...first, contrast: 1, turn: 0, filtration: { cyan: 0, yellow: 4 } },
    ]);
    expect(path).toEqual(["frames", "07", "positive", "local"]);
    expect(value).toEqual([
      { id: "a2", oval: [0.2167, 0.25, 0.1167, 0.15], exposure: -0.5, filtration: { yellow: 4 } },
    ]);
  });
  it("are taken out with the last one, or said to be none where roll or stock state some", () => {
    expect(setAreas({ id: "07" }, [])[0].value).toBeUndefined();
    expect(setAreas({ id: "07", inheritsAreas: true }, [])[0].value).toEqual([]);
  });
});
