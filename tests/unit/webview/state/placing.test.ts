import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { place, toScan, type Turn } from "../../../../extension/engine/image/geometry.ts";
import { turnedWriter } from "../../../../extension/engine/image/orientation.ts";
import { apply, chained, growth, inverse, moving, scaling, rotation } from "../../../../webview/state/affine.ts";
import {
  fitZoom,
  panned,
  croppedFrame,
  pictureToCanvas,
  type Viewport,
  wholeScan,
  zoomedAt,
} from "../../../../webview/state/frame-transform.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const area = fc.record({
  left: number(0, 0.4),
  top: number(0, 0.4),
  width: number(0.2, 0.6),
  height: number(0.2, 0.6),
  tilt: number(-20, 20),
});
const turn = fc.constantFrom<Turn>(0, 90, 180, 270);
const box = { x: 0, y: 0, width: 800, height: 600 };

describe("affine maps", () => {
  it("come back by their inverse", () => {
    fc.assert(
      fc.property(number(-50, 50), number(0.1, 9), number(-180, 180), (x, scale, angle) => {
        const m = chained(moving(x, -x), scaling(scale, 2), rotation(angle));
        const [px, py] = apply(inverse(m), apply(m, [3, -7]));
        expect(px).toBeCloseTo(3, 6);
        expect(py).toBeCloseTo(-7, 6);
        expect(growth(m)).toBeCloseTo(Math.sqrt(scale * 2), 6);
      }),
    );
  });

  it("turn clockwise, quarters exactly", () => {
    expect(apply(rotation(90), [1, 0])).toEqual([0, 1]);
    expect(apply(rotation(-90), [1, 0])).toEqual([0, -1]);
    expect(apply(rotation(450), [0, 1])).toEqual([-1, 0]);
  });
});

describe("placing", () => {
  it("puts each pixel where the renderer's own writer puts it", () => {
    // 3 × 2 pixels, each with its own number, through the engine's turn and mirror.
    for (const mirror of [false, true])
      for (const quarter of [0, 90, 180, 270] as const) {
        const framing = { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: quarter, mirror };
        const p = place({ width: 3, height: 2 }, framing);
        const writer = turnedWriter(p, 1);
        for (let y = 0; y < 2; y++) {
          for (let x = 0; x < 3; x++) writer.row[x] = y * 3 + x;
          writer.next();
        }
        const picture = writer.finish();
        const { toFinished } = croppedFrame(3, 2, framing);
        for (let y = 0; y < 2; y++)
          for (let x = 0; x < 3; x++) {
            const [u, v] = apply(toFinished, [x + 0.5, y + 0.5]);
            expect(picture.data[Math.floor(v) * picture.width + Math.floor(u)]).toBe(y * 3 + x);
          }
      }
  });

  it("agrees with the engine's mapping for any crop and tilt", () => {
    fc.assert(
      fc.property(area, number(0, 1), number(0, 1), (a, u, v) => {
        const framing = { area: a, turn: 0 as const, mirror: false };
        const p = place({ width: 3000, height: 2000 }, framing);
        const { toFinished } = croppedFrame(3000, 2000, framing);
        const [x, y] = apply(toFinished, toScan(p, u * p.width, v * p.height));
        expect(x).toBeCloseTo(u * p.width, 4);
        expect(y).toBeCloseTo(v * p.height, 4);
      }),
    );
  });

  it("fits the whole picture into the room, whatever its turn", () => {
    fc.assert(
      fc.property(area, turn, (a, t) => {
        const transform = croppedFrame(3000, 2000, { area: a, turn: t, mirror: true });
        const map = pictureToCanvas(transform, { zoom: "fit", centre: [0, 0] }, box);
        for (const corner of [
          [0, 0],
          [transform.width, transform.height],
        ] as const) {
          const [x, y] = apply(map, corner);
          expect(x).toBeGreaterThanOrEqual(0);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(800);
          expect(y).toBeLessThanOrEqual(600);
        }
      }),
    );
  });

  it("lies the whole scan down for a quarter turn", () => {
    const { width, height, toFinished } = wholeScan(3000, 2000, false, 90);
    expect([width, height]).toEqual([2000, 3000]);
    expect(apply(toFinished, [0, 0])).toEqual([2000, 0]);
  });
});

describe("zoom and pan", () => {
  const transform = croppedFrame(3000, 2000, {
    area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 },
    turn: 0,
    mirror: false,
  });

  it("keeps the point under the pointer while zooming in", () => {
    fc.assert(
      fc.property(number(300, 500), number(250, 350), number(1.2, 6), (x, y, zoom) => {
        const from: Viewport = { zoom: 1, centre: [0.5, 0.5] };
        const before = apply(inverse(pictureToCanvas(transform, from, box)), [x, y]);
        const after = apply(inverse(pictureToCanvas(transform, zoomedAt(transform, from, box, zoom, [x, y]), box)), [
          x,
          y,
        ]);
        expect(after[0]).toBeCloseTo(before[0], 4);
        expect(after[1]).toBeCloseTo(before[1], 4);
      }),
    );
  });

  it("pans with the hand and stops at the edge", () => {
    const viewport: Viewport = { zoom: 1, centre: [0.5, 0.5] };
    const moved = panned(transform, viewport, box, 30, 0);
    expect(apply(pictureToCanvas(transform, moved, box), [1500, 1000])[0]).toBeCloseTo(430, 6);
    const far = panned(transform, viewport, box, 99_999, 0);
    expect(apply(pictureToCanvas(transform, far, box), [0, 0])[0]).toBeCloseTo(0, 6);
    expect(panned(transform, { zoom: "fit", centre: [0, 0] }, box, 30, 0)).toEqual({ zoom: "fit", centre: [0, 0] });
  });

  it("is 1 device pixel to a scan pixel at 100 %", () => {
    expect(
      growth(chained(transform.toFinished, pictureToCanvas(transform, { zoom: 1, centre: [0.5, 0.5] }, box))),
    ).toBeCloseTo(1, 9);
    expect(fitZoom(transform, box)).toBeCloseTo(776 / 3000, 9);
  });
});
