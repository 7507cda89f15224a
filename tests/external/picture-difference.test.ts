/**
 * The difference of two pictures against the colour library colorjs.io (a devDependency): from 16-bit sRGB to ΔE00, the
 * whole way. The formula by itself is held to the published pairs in colour.test.ts.
 */
import Color from "colorjs.io";
import { expect, test } from "vitest";
import { pictureDifference } from "../../extension/engine/colour/picture-difference.ts";
import type { Raster } from "../../extension/engine/types.ts";

/** Numbers that are always the same (a linear congruential generator, from memory). */
function codes(count: number, seed: number): Uint16Array {
  let state = seed;
  return Uint16Array.from({ length: count }, () => (state = (state * 1_664_525 + 1_013_904_223) >>> 0) >>> 16);
}

const PIXELS = 400;
const raster = (data: Uint16Array, channels: 1 | 3 = 3): Raster<Uint16Array> => ({
  width: data.length / channels,
  height: 1,
  channels,
  data,
});
const colour = ({ data, channels }: Raster<Uint16Array>, i: number): Color => {
  const [r, g, b] = [0, 1, 2].map((c) => data[channels === 1 ? i : i * 3 + c]! / 65535);
  return new Color("srgb", [r!, g!, b!]);
};

test.each([
  ["colour and colour", raster(codes(PIXELS * 3, 1)), raster(codes(PIXELS * 3, 2))],
  ["grey and colour", raster(codes(PIXELS, 3), 1), raster(codes(PIXELS * 3, 4))],
  [
    "nearly the same",
    raster(codes(PIXELS * 3, 5)),
    raster(codes(PIXELS * 3, 5).map((v, i) => Math.min(65535, v + (i % 7) * 90))),
  ],
])("%s", (_, a, b) => {
  const { deltaE, mean, p95, max } = pictureDifference(a, b, "srgb");
  const wanted = Array.from({ length: PIXELS }, (_one, i) => colour(a, i).deltaE(colour(b, i), "2000"));
  for (const [i, value] of wanted.entries()) expect(deltaE[i]).toBeCloseTo(value, 2);
  const sorted = wanted.toSorted((one, two) => one - two);
  expect(mean).toBeCloseTo(wanted.reduce((sum, value) => sum + value, 0) / PIXELS, 2);
  expect(max).toBeCloseTo(sorted.at(-1)!, 2);
  // 95 of 100 pixels are no further apart.
  expect(sorted.filter((value) => value <= p95 + 0.01).length / PIXELS).toBeGreaterThanOrEqual(0.95);
  expect(sorted.filter((value) => value < p95 - 0.01).length / PIXELS).toBeLessThan(0.95);
});

test("the same picture, and pictures of two sizes", () => {
  const picture = raster(codes(300, 9));
  expect(pictureDifference(picture, picture, "srgb")).toMatchObject({ mean: 0, p95: 0, max: 0 });
  expect(() => pictureDifference(picture, raster(codes(30, 9)), "srgb")).toThrow(/100 × 1 and 10 × 1/);
});
