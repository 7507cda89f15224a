/** The vector kernels against the same arithmetic, site by site: not one number may differ, on any machine. */
import { describe, expect, test } from "vitest";
import { levelsOf, type Mosaic } from "../../../../extension/scans/raw/mosaic.ts";
import { demosaicXTrans } from "../../../../extension/scans/raw/xtrans.ts";
import { XTRANS } from "../../../witness/raw/dng.ts";
import { randomMosaic, testsOfEachDemosaicing } from "./random-mosaic.ts";

const BALANCE = [1.7, 1, 2.9] as const;
const PERIOD = 6;
const SIZES = [
  [12, 12],
  [13, 17],
  [31, 29],
  [66, 40],
] as const;
/** The arrangement, and the same begun at other sites, as cameras crop it. */
const ARRANGEMENTS = [0, 1, 2].map((shift) =>
  XTRANS.colours.map((_, site) => {
    const [y, x] = [Math.floor(site / PERIOD) + shift, (site % PERIOD) + 2 * shift];
    return XTRANS.colours[(y % PERIOD) * PERIOD + (x % PERIOD)];
  }),
);

const mosaicOf = (width: number, height: number, colours: readonly number[], white: number): Mosaic =>
  randomMosaic(width, height, { colours, period: PERIOD, black: colours.map((_, i) => 512 + (i % 3) / 2) }, white);

type Place = (x: number, y: number) => number;

/** The demosaicing of xtrans.ts by its formulas: kept rows in 32-bit floats, sums in 64 bits. */
function bySites(mosaic: Mosaic): Uint16Array {
  const { width, height, stride, left, top, data, colours, black, white } = mosaic;
  const { gain, pedestal } = levelsOf(mosaic);
  const inside = (i: number, length: number): number => (i < 0 ? i + PERIOD : i < length ? i : i - PERIOD);
  const plane = (at: Place): Place => {
    const values = Float32Array.from({ length: width * height }, (_, i) => at(i % width, Math.floor(i / width)));
    return (x, y) => values[inside(y, height) * width + inside(x, width)];
  };
  const siteAt: Place = (x, y) => (inside(y, height) % PERIOD) * PERIOD + (inside(x, width) % PERIOD);
  const colourAt: Place = (x, y) => colours[siteAt(x, y)];
  const recorded = plane(
    (x, y) => (data[(top + y) * stride + left + x] - black[siteAt(x, y)]) * BALANCE[colourAt(x, y)],
  );
  const away = (x: number, y: number, dx: number, dy: number): number =>
    colourAt(x + dx, y + dy) === 1 ? 1 : colourAt(x + 2 * dx, y + 2 * dy) === 1 ? 2 : Number.NaN;

  /** Green at a red or blue site; with the differences of both colours at green sites it follows the site's own detail. */
  const guessed = (x: number, y: number, differences?: readonly Place[]): number => {
    const directions = [
      [1, 0],
      [0, 1],
    ].map(([dx, dy]) => {
      const [before, behind] = [away(x, y, -dx, -dy), away(x, y, dx, dy)];
      const between = (of: Place): readonly [mean: number, step: number] => {
        const [a, b] = [of(x - before * dx, y - before * dy), of(x + behind * dx, y + behind * dy)];
        return [b + (a - b) * (behind / (before + behind)), Math.abs(a - b) * (1 / (before + behind))];
      };
      const [mean, step] = between(recorded);
      if (!differences) return { value: mean, rough: step };
      const detail = recorded(x, y) - between(differences[colourAt(x, y)])[0] - mean;
      return { value: mean + detail * 0.8, rough: step + Math.abs(detail) };
    });
    const weights = [directions[1].rough ** 2 + 1, directions[0].rough ** 2 + 1];
    return (directions[0].value * weights[0] + directions[1].value * weights[1]) / (weights[0] + weights[1]);
  };
  const greenOf = (differences?: readonly Place[]) => ({
    green: plane((x, y) => (colourAt(x, y) === 1 ? recorded(x, y) : guessed(x, y, differences))),
    difference: plane((x, y) => (colourAt(x, y) === 1 ? 0 : recorded(x, y) - guessed(x, y, differences))),
  });
  const spreadOf = ({ green, difference }: { green: Place; difference: Place }): Place[] =>
    [0, 1, 2].map((colour) =>
      plane((x, y) => {
        if (colourAt(x, y) === colour) return difference(x, y);
        const own = green(x, y);
        const same = 0.0013 * (white - Math.max(...black)) + Math.max(0, own * 0.01);
        let [sum, total] = [0, 0];
        for (let dy = -2; dy <= 2; dy++)
          for (let dx = -2; dx <= 2; dx++) {
            if (colourAt(x + dx, y + dy) !== colour) continue;
            const weight = 1 / (dy * dy + dx * dx) / (Math.abs(green(x + dx, y + dy) - own) + same);
            sum += weight * difference(x + dx, y + dy);
            total += weight;
          }
        return sum / total;
      }),
    );
  const first = spreadOf(greenOf());
  const again = greenOf(first);
  const last = spreadOf(again);
  const level = (value: number, factor: number): number =>
    Math.min(65535, Math.max(0, Math.trunc(value * factor + (pedestal + 0.5))));
  return Uint16Array.from({ length: width * height * 3 }, (_, i) => {
    const [colour, x, y] = [i % 3, Math.floor(i / 3) % width, Math.floor(i / 3 / width)];
    if (colour === 1) return level(again.green(x, y), gain);
    return level(again.green(x, y) + last[colour](x, y), gain / BALANCE[colour]);
  });
}

describe.each(ARRANGEMENTS)("a mosaic that begins %d, %d, %d", (...colours) => {
  test.each(SIZES)("of %d × %d sites is what its formulas say", (width, height) => {
    for (const white of [16383, 65535]) {
      const mosaic = mosaicOf(width, height, colours, white);
      expect(demosaicXTrans(mosaic, BALANCE)).toEqual(bySites(mosaic));
    }
  });

  testsOfEachDemosaicing(demosaicXTrans, BALANCE, (width, height) => mosaicOf(width, height, colours, 16383));
});
