import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { type Framing, place, type Turn } from "../../../../extension/engine/image/geometry.ts";
import { startDrawing } from "../../../../extension/engine/image/resample.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { random } from "../simulated.ts";

function noise(width: number, height: number, channels: 1 | 3): LinearScan {
  const { uniform } = random(21);
  const data = Uint16Array.from({ length: width * height * channels }, () => Math.floor(uniform() * 65_536));
  return { width, height, channels, data, black: 0, scale: 1 / 65_535 };
}

/** Draws a scan's own samples, laid over the scan or beside it. */
function draw(scan: LinearScan, framing: Framing, long: number | undefined, over: boolean): Uint16Array {
  const { width, channels, data } = scan;
  const drawing = startDrawing(place(scan, framing, long), channels, over ? scan : undefined);
  const { firstRow, lastRow, from, to } = drawing.span;
  for (let y = firstRow; y <= lastRow; y++)
    drawing.row(y, data.slice((y * width + from) * channels, (y * width + to) * channels));
  return drawing.finish().data;
}

const part = fc.double({ min: 0.01, max: 0.5, noNaN: true });
const framings = fc.record({
  area: fc.record({
    left: fc.double({ min: -0.1, max: 0.4, noNaN: true }),
    top: fc.double({ min: -0.1, max: 0.4, noNaN: true }),
    width: part.map((v) => v + 0.4),
    height: part.map((v) => v + 0.4),
    tilt: fc.oneof(fc.constant(0), fc.double({ min: -12, max: 12, noNaN: true })),
  }),
  turn: fc.constantFrom<Turn>(0, 0, 0, 90, 180, 270),
  mirror: fc.boolean(),
});

describe("a picture laid over its scan", () => {
  it("is the one laid beside it, whatever the framing", () => {
    fc.assert(
      fc.property(
        framings,
        fc.constantFrom(undefined, 20, 33),
        fc.constantFrom<1 | 3>(1, 3),
        (framing, long, channels) => {
          const over = draw(noise(45, 38, channels), framing, long, true);
          expect(over).toEqual(draw(noise(45, 38, channels), framing, long, false));
        },
      ),
      { numRuns: 200 },
    );
  });

  it("takes the scan's own memory when it stands upright, and other memory when it is turned", () => {
    const area = { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: -0.4 };
    const scan = noise(120, 80, 3);
    const kept = scan.data.slice();
    expect(draw(scan, { area, turn: 90, mirror: false }, undefined, true).buffer).not.toBe(scan.data.buffer);
    expect(scan.data).toEqual(kept);
    expect(draw(scan, { area, turn: 0, mirror: true }, undefined, true).buffer).toBe(scan.data.buffer);
  });
});
