/** Half-size pictures from a 2 × 2 mosaic, against the sums written out: tents about each cell's centre. */
import { expect, test } from "vitest";
import { halfSize } from "../../../../extension/scans/raw/half.ts";
import { levelsOf, type Mosaic } from "../../../../extension/scans/raw/mosaic.ts";
import fc from "../../../properties.ts";

/** Filters of the block, 0 red, 1 green, 2 blue: the four ways it may begin. */
const BLOCKS = [
  [0, 1, 1, 2],
  [1, 0, 2, 1],
  [1, 2, 0, 1],
  [2, 1, 1, 0],
];

const mosaics = fc
  .record({
    width: fc.integer({ min: 12, max: 41 }),
    height: fc.integer({ min: 12, max: 19 }),
    left: fc.integer({ min: 0, max: 5 }),
    top: fc.integer({ min: 0, max: 3 }),
    after: fc.integer({ min: 0, max: 3 }),
    colours: fc.constantFrom(...BLOCKS),
    black: fc.tuple(...[1, 2, 3, 4].map(() => fc.integer({ min: 0, max: 900 }))),
    white: fc.integer({ min: 4000, max: 65535 }),
  })
  .chain(({ left, top, after, ...rest }) => {
    const stride = left + rest.width + after;
    const samples = stride * (top + rest.height);
    return fc
      .uint16Array({ minLength: samples, maxLength: samples, max: rest.white })
      .map((data): Mosaic => ({ ...rest, stride, left, top, data, period: 2, monochrome: false }));
  });

/** A site of the picture; beyond its border the one two further in, which has the same filter. */
function siteOf({ width, height, stride, left, top, data, black, colours }: Mosaic, x: number, y: number) {
  const folded = (i: number, length: number): number => (i < 0 ? i + 2 : i >= length ? i - 2 : i);
  const block = (folded(y, height) % 2) * 2 + (folded(x, width) % 2);
  const value = data[(top + folded(y, height)) * stride + left + folded(x, width)];
  return { value, black: black[block], colour: colours[block] };
}

function expected(mosaic: Mosaic, cellX: number, cellY: number, colour: number): number {
  const { gain, pedestal } = levelsOf(mosaic);
  let [sum, weights] = [0, 0];
  for (let dy = -1; dy <= 2; dy++)
    for (let dx = -1; dx <= 2; dx++) {
      const site = siteOf(mosaic, 2 * cellX + dx, 2 * cellY + dy);
      if (site.colour !== colour) continue;
      const weight = (2 - Math.abs(dx - 0.5)) * (2 - Math.abs(dy - 0.5));
      sum += weight * (site.value - site.black);
      weights += weight;
    }
  return Math.min(65535, Math.max(0, Math.floor((sum / weights) * gain + pedestal + 0.5)));
}

test("every cell is the mean of its neighbours, at the borders too", () => {
  fc.assert(
    fc.property(mosaics, (mosaic) => {
      const [width, height] = [mosaic.width >> 1, mosaic.height >> 1];
      const half = halfSize(mosaic);
      const all = Array.from({ length: width * height * 3 }, (_, i) =>
        expected(mosaic, Math.floor(i / 3) % width, Math.floor(i / 3 / width), i % 3),
      );
      expect(Array.from(half)).toEqual(all);
    }),
    { numRuns: 60 },
  );
});
