import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { dragged, handleAt, HANDLES, insideScan, levelling, tilted } from "../../../../webview/state/crop.ts";

const SIZE = { width: 3000, height: 2000 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const area = fc.record({
  left: number(0.2, 0.35),
  top: number(0.2, 0.35),
  width: number(0.2, 0.4),
  height: number(0.2, 0.4),
  tilt: number(-10, 10),
});

describe("dragging the crop", () => {
  it("puts the handle under the pointer and leaves the opposite one where it is", () => {
    fc.assert(
      fc.property(area, fc.constantFrom(...HANDLES), number(-60, 60), number(-60, 60), (a, handle, dx, dy) => {
        const [x, y] = handleAt(a, SIZE, handle);
        const next = dragged(a, SIZE, handle, [x + dx, y + dy]);
        const opposite = [-handle[0], -handle[1]] as unknown as typeof handle;
        const [ox, oy] = handleAt(a, SIZE, opposite);
        const [nx, ny] = handleAt(next, SIZE, opposite);
        expect(nx).toBeCloseTo(ox, 5);
        expect(ny).toBeCloseTo(oy, 5);
        expect(next.tilt).toBe(a.tilt);
        // A corner goes all the way; the middle of a side only goes across it.
        const [hx, hy] = handleAt(next, SIZE, handle);
        const corner = handle[0] !== 0 && handle[1] !== 0;
        expect(Math.hypot(hx - x - dx, hy - y - dy)).toBeLessThan(corner ? 1e-5 : 85);
      }),
    );
  });

  it("never leaves the scan nor turns inside out", () => {
    fc.assert(
      fc.property(
        area,
        fc.constantFrom(...HANDLES, [0, 0] as const),
        number(-9000, 9000),
        number(-9000, 9000),
        (a, handle, x, y) => {
          const next = dragged(a, SIZE, handle, [x, y]);
          expect(next.left).toBeGreaterThanOrEqual(-1e-9);
          expect(next.top).toBeGreaterThanOrEqual(-1e-9);
          expect(next.left + next.width).toBeLessThanOrEqual(1 + 1e-9);
          expect(next.top + next.height).toBeLessThanOrEqual(1 + 1e-9);
          expect(next.width).toBeGreaterThan(0);
          expect(next.height).toBeGreaterThan(0);
        },
      ),
    );
  });

  it("keeps a shape", () => {
    fc.assert(
      fc.property(area, fc.constantFrom(...HANDLES), number(-60, 60), number(-60, 60), (a, handle, dx, dy) => {
        const [x, y] = handleAt(a, SIZE, handle);
        const next = dragged(a, SIZE, handle, [x + dx, y + dy], 1.5);
        const inside = next.left > 0.001 && next.top > 0.001 && next.left + next.width < 0.999;
        const is = (next.width * SIZE.width) / (next.height * SIZE.height);
        // A crop that is cut off at the scan's edge loses its shape there.
        expect(inside && next.top + next.height < 0.999 ? is : 1.5).toBeCloseTo(1.5, 5);
      }),
    );
  });

  it("moves as a whole and stops at the edge", () => {
    const a = { left: 0.2, top: 0.2, width: 0.5, height: 0.5, tilt: 3 };
    expect(dragged(a, SIZE, [0, 0], [99_999, 1000])).toMatchObject({ left: 0.5, width: 0.5, height: 0.5, tilt: 3 });
    expect(insideScan({ left: -0.3, top: 0.9, width: 1.4, height: 0.3, tilt: 0 })).toEqual({
      left: 0,
      top: 0.7,
      width: 1,
      height: 0.3,
      tilt: 0,
    });
  });

  it("reads a tilt off a drawn line, level or upright, whichever way it was drawn", () => {
    const tan = Math.tan((2 * Math.PI) / 180);
    expect(levelling([0, 0], [1000, 1000 * tan])).toBeCloseTo(2, 6);
    expect(levelling([1000, 1000 * tan], [0, 0])).toBeCloseTo(2, 6);
    expect(levelling([0, 0], [-1000 * tan, 1000])).toBeCloseTo(2, 6);
    expect(tilted({ left: 0, top: 0, width: 1, height: 1, tilt: 0 }, 80).tilt).toBe(45);
  });
});
