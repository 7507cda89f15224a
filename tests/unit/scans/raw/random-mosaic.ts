/** Mosaics of noise, what no rule of a picture helps to get right, and what holds for every demosaicing of them. */
import { expect, test } from "vitest";
import { levelsOf, type Mosaic } from "../../../../extension/scans/raw/mosaic.ts";
import type { demosaicBayer } from "../../../../extension/scans/raw/bayer.ts";

/** A seeded mosaic of even noise from 0 to `white`, within a larger recorded area. */
export function randomMosaic(
  width: number,
  height: number,
  filters: Pick<Mosaic, "colours" | "black" | "period">,
  white: number,
): Mosaic {
  const stride = width + 5;
  let state = 1;
  const data = Uint16Array.from({ length: stride * (height + 4) }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * white);
  });
  return { width, height, stride, left: 2, top: 2, data, ...filters, white, monochrome: false };
}

/** Two tests that every demosaicing stands. */
export function testsOfEachDemosaicing(
  demosaic: typeof demosaicBayer,
  balance: readonly [number, number, number],
  mosaicOf: (width: number, height: number) => Mosaic,
): void {
  test("of which a part is wanted is there what the whole one is", () => {
    const mosaic = mosaicOf(120, 90);
    const whole = demosaic(mosaic, balance);
    const part = { left: 41, top: 37, width: 30, height: 21 };
    const alone = demosaic(mosaic, balance, undefined, part);
    for (let y = part.top; y < part.top + part.height; y++) {
      const [from, to] = [(y * 120 + part.left) * 3, (y * 120 + part.left + part.width) * 3];
      expect(alone.subarray(from, to)).toEqual(whole.subarray(from, to));
    }
  });

  test("keeps what was recorded", () => {
    const mosaic = mosaicOf(33, 21);
    const { colours, period, black } = mosaic;
    const { gain, pedestal } = levelsOf(mosaic);
    const out = demosaic(mosaic, balance);
    for (let y = 0; y < 21; y++)
      for (let x = 0; x < 33; x++) {
        const site = (y % period) * period + (x % period);
        const number = mosaic.data[(2 + y) * mosaic.stride + 2 + x] - black[site];
        expect(out[(y * 33 + x) * 3 + colours[site]]).toBe(Math.max(0, Math.floor(number * gain + pedestal + 0.5)));
      }
  });
}
