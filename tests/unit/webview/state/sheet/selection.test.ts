import { describe, expect, it } from "vitest";
import {
  all,
  EMPTY,
  moved,
  pointed,
  pruned,
  type Selection,
  targets,
  within,
} from "../../../../../webview/state/sheet/selection.ts";

const IDS = ["01", "02", "03", "04", "05", "06"];
const chosen = ({ chosen: set }: Selection): string[] => [...set].toSorted();

describe("selecting frames", () => {
  it("by click alone, with Ctrl one by one, with Shift all between", () => {
    const one = pointed(EMPTY, IDS, "02", "alone");
    expect(chosen(one)).toEqual(["02"]);
    const range = pointed(one, IDS, "05", "range");
    expect(chosen(range)).toEqual(["02", "03", "04", "05"]);
    // From the same anchor, backwards.
    expect(chosen(pointed(range, IDS, "01", "range"))).toEqual(["01", "02"]);
    const without = pointed(range, IDS, "03", "toggle");
    expect(chosen(without)).toEqual(["02", "04", "05"]);
    expect(without).toMatchObject({ focus: "03", anchor: "03" });
  });

  it("by keys: the focus moves and holds at the ends, and Shift takes everything along", () => {
    const start = moved(EMPTY, IDS, 1, false);
    expect(start).toMatchObject({ focus: "01" });
    expect(chosen(start)).toEqual([]);
    expect(moved(start, IDS, 4, false).focus).toBe("05");
    expect(moved(start, IDS, 40, false).focus).toBe("06");
    expect(moved(start, IDS, -1, false).focus).toBe("01");
    const twice = moved(moved(start, IDS, 1, true), IDS, 1, true);
    expect(chosen(twice)).toEqual(["01", "02", "03"]);
    expect(chosen(moved(twice, IDS, -1, true))).toEqual(["01", "02"]);
    expect(moved(EMPTY, [], 1, false)).toBe(EMPTY);
  });

  it("everything, and what a rectangle touches beside what was chosen before", () => {
    expect(chosen(all(EMPTY, IDS))).toEqual(IDS);
    expect(chosen(within(EMPTY, new Set(["06"]), ["02", "03"]))).toEqual(["02", "03", "06"]);
  });

  it("forgets what is not shown any more", () => {
    const before = pointed(pointed(EMPTY, IDS, "02", "alone"), IDS, "04", "range");
    const after = pruned(before, ["01", "03", "06"]);
    expect(chosen(after)).toEqual(["03"]);
    expect(after).toMatchObject({ focus: "01", anchor: undefined });
    expect(pruned(before, IDS)).toBe(before);
  });

  it("works on what is chosen in the order shown, else on the frame with the focus", () => {
    const two = pointed(pointed(EMPTY, IDS, "05", "alone"), IDS, "02", "toggle");
    expect(targets(two, IDS.toReversed())).toEqual(["05", "02"]);
    expect(targets({ chosen: new Set(), focus: "03" }, IDS)).toEqual(["03"]);
    expect(targets({ chosen: new Set(), focus: "99" }, IDS)).toEqual([]);
  });
});
