import fc from "../../../properties.ts";
import { describe, expect, test } from "vitest";
import { dragged, FIT, fitScale, placed, type View, zoomedAt } from "../../../../webview/review/view.ts";

const picture = { width: 1400, height: 933 };
const pane = { width: 600, height: 500 };
const zoom = fc.double({ min: 0.6, max: 8, noNaN: true });
const part = fc.double({ min: 0.35, max: 0.65, noNaN: true });

describe("the view", () => {
  test("fits the whole picture into its pane, in the middle", () => {
    const box = placed(FIT, picture, pane);
    expect(box).toEqual({ left: 0, top: (500 - 933 * (600 / 1400)) / 2, width: 600, height: 933 * (600 / 1400) });
    expect(fitScale({ width: 10, height: 10 }, pane)).toBe(2); // a tiny picture is not blown up
  });

  test("a zoom keeps what lies under the pointer there, away from the picture's edges", () => {
    fc.assert(
      fc.property(zoom, zoom, part, part, part, part, (from, to, x, y, u, v) => {
        const view: View = { zoom: Math.max(1.5, from), x, y };
        const [px, py] = [u * pane.width, v * pane.height];
        const before = placed(view, picture, pane);
        const after = placed(zoomedAt(view, Math.max(1.5, to), picture, pane, px, py), picture, pane);
        expect((px - after.left) / after.width).toBeCloseTo((px - before.left) / before.width, 6);
        expect((py - after.top) / after.height).toBeCloseTo((py - before.top) / before.height, 6);
      }),
      { numRuns: 200, seed: 3 },
    );
  });

  test("a drag moves the picture with the pointer; the pane is never left empty", () => {
    const view: View = { zoom: 2, x: 0.5, y: 0.5 };
    const [before, after] = [view, dragged(view, picture, pane, 30, -20)].map((one) => placed(one, picture, pane));
    expect(after!.left - before!.left).toBeCloseTo(30, 6);
    expect(after!.top - before!.top).toBeCloseTo(-20, 6);
    fc.assert(
      fc.property(
        zoom,
        fc.integer({ min: -9000, max: 9000 }),
        fc.integer({ min: -9000, max: 9000 }),
        (scale, dx, dy) => {
          const box = placed(dragged({ zoom: scale, x: 0.5, y: 0.5 }, picture, pane, dx, dy), picture, pane);
          const filled = box.left <= 0 && box.left + box.width >= pane.width - 1e-6;
          const centred = Math.abs(box.left - (pane.width - box.width) / 2) < 1e-6;
          expect(box.width >= pane.width ? filled : centred).toBe(true);
        },
      ),
      { numRuns: 200, seed: 3 },
    );
  });
});
