/** The vector kernels against the same arithmetic, site by site: not one number may differ, on any machine. */
import { describe, expect, test } from "vitest";
import { demosaicBayer } from "../../../../extension/scans/raw/bayer.ts";
import { levelsOf, type Mosaic } from "../../../../extension/scans/raw/mosaic.ts";
import { randomMosaic, testsOfEachDemosaicing } from "./random-mosaic.ts";

const BALANCE = [1.7, 1, 2.9] as const;
const ARRANGEMENTS = { RGGB: [0, 1, 1, 2], BGGR: [2, 1, 1, 0], GRBG: [1, 0, 2, 1], GBRG: [1, 2, 0, 1] };
const SIZES = [
  [4, 4],
  [7, 5],
  [8, 8],
  [9, 9],
  [65, 31],
  [100, 60],
] as const;

const mosaicOf = (width: number, height: number, colours: readonly number[], white: number): Mosaic =>
  randomMosaic(width, height, { colours, period: 2, black: [512, 510.5, 511, 512] }, white);

/** The demosaicing of bayer.ts by its formulas: kept rows in 32-bit floats, sums in 64 bits. */
function bySites(mosaic: Mosaic): Uint16Array {
  const { width, height, stride, left, top, data, colours, black } = mosaic;
  const { gain, pedestal } = levelsOf(mosaic);
  const inside = (i: number, length: number): number => (i < 0 ? -i : i < length ? i : 2 * length - 2 - i);
  const plane = (at: (x: number, y: number) => number): ((x: number, y: number) => number) => {
    const values = Float32Array.from({ length: width * height }, (_, i) => at(i % width, Math.floor(i / width)));
    return (x, y) => values[inside(y, height) * width + inside(x, width)];
  };
  const siteAt = (x: number, y: number): number => (inside(y, height) % 2) * 2 + (inside(x, width) % 2);
  const colourAt = (x: number, y: number): number => colours[siteAt(x, y)];
  const recorded = plane(
    (x, y) => (data[(top + y) * stride + left + x] - black[siteAt(x, y)]) * BALANCE[colourAt(x, y)],
  );
  const between = (value: number, a: number, b: number): number =>
    Math.max(Math.min(a, b), Math.min(Math.max(a, b), value));
  const guessed = (x: number, y: number): number => {
    const directions = [
      [1, 0],
      [0, 1],
    ].map(([dx, dy]) => {
      const [a, b] = [recorded(x - dx, y - dy), recorded(x + dx, y + dy)];
      const curvature = 2 * recorded(x, y) - recorded(x - 2 * dx, y - 2 * dy) - recorded(x + 2 * dx, y + 2 * dy);
      const rough = Math.abs(a - b) + Math.abs(curvature);
      return { value: between((a + b) * 0.5 + curvature * 0.2, a, b), weight: rough * rough + 1 };
    });
    const [along, across] = directions;
    return (along.value * across.weight + across.value * along.weight) / (across.weight + along.weight);
  };
  const green = plane((x, y) => (colourAt(x, y) === 1 ? recorded(x, y) : guessed(x, y)));
  const difference = plane((x, y) => (colourAt(x, y) === 1 ? 0 : recorded(x, y) - guessed(x, y)));
  const differenceAt = (x: number, y: number, colour: number): number => {
    if (colourAt(x, y) === colour) return difference(x, y);
    if (colourAt(x - 1, y) === colour) return (difference(x - 1, y) + difference(x + 1, y)) * 0.5;
    if (colourAt(x, y - 1) === colour) return (difference(x, y - 1) + difference(x, y + 1)) * 0.5;
    const corners = [-1, 1].flatMap((dy) => [-1, 1].map((dx) => difference(x + dx, y + dy)));
    return corners.reduce((sum, d) => sum + d) * 0.25;
  };
  const level = (value: number, factor: number): number =>
    Math.min(65535, Math.max(0, Math.trunc(value * factor + (pedestal + 0.5))));
  return Uint16Array.from({ length: width * height * 3 }, (_, i) => {
    const [colour, x, y] = [i % 3, Math.floor(i / 3) % width, Math.floor(i / 3 / width)];
    if (colour === 1) return level(green(x, y), gain);
    return level(green(x, y) + differenceAt(x, y, colour), gain / BALANCE[colour]);
  });
}

describe.each(Object.entries(ARRANGEMENTS))("a mosaic of %s", (_, colours) => {
  test.each(SIZES)("of %d × %d sites is what its formulas say", (width, height) => {
    for (const white of [16383, 65535]) {
      const mosaic = mosaicOf(width, height, colours, white);
      expect(demosaicBayer(mosaic, BALANCE)).toEqual(bySites(mosaic));
    }
  });

  testsOfEachDemosaicing(demosaicBayer, BALANCE, (width, height) => mosaicOf(width, height, colours, 16383));
});
