import { describe, expect, it } from "vitest";
import { closeInPlace } from "../../../../extension/engine/dust/closing.ts";
import { random } from "../../../witness/random.ts";

/** Closing by its definition: for each pixel the least of the greatest. */
function byDefinition(plane: Uint16Array, width: number, height: number, reach: number): Uint16Array {
  const extreme = (from: Uint16Array, pick: (...v: number[]) => number): Uint16Array =>
    from.map((_, i) => {
      const [x, y] = [i % width, Math.floor(i / width)];
      const seen: number[] = [];
      for (let v = Math.max(0, y - reach); v <= Math.min(height - 1, y + reach); v++)
        for (let u = Math.max(0, x - reach); u <= Math.min(width - 1, x + reach); u++) seen.push(from[v * width + u]);
      return pick(...seen);
    });
  return extreme(extreme(plane, Math.max), Math.min);
}

describe("grey closing", () => {
  it.each([
    [31, 23, 1],
    [40, 17, 3],
    [13, 45, 6],
    [9, 9, 12],
  ])("of %i × %i pixels by a reach of %i is what its definition says", (width, height, reach) => {
    const r = random(width * height, "noise");
    const plane = Uint16Array.from({ length: width * height }, () => r.between(0, 60_000));
    const closed = plane.slice();
    closeInPlace(closed, width, height, reach);
    expect(closed).toEqual(byDefinition(plane, width, height, reach));
  });
});
