/** Codes under the canvas's pixels, as the CPU path keeps them. */
import { describe, expect, it } from "vitest";
import type { Grid, Source } from "../../../../webview/render/source.ts";
import { clippedOn, sampledOn } from "../../../../webview/render/sampler.ts";
import { chained, moving, scaling, rotation } from "../../../../webview/state/affine.ts";

const [W, H] = [60, 40];
const gridOf = (width: number, height: number, code: (x: number, y: number, c: number) => number): Grid => ({
  width,
  height,
  codes: Uint16Array.from({ length: width * height * 3 }, (_, i) => {
    const pixel = Math.floor(i / 3);
    return code(pixel % width, Math.floor(pixel / width), i % 3);
  }),
});
const sourceOf = (levels: readonly Grid[], part = { left: 0, top: 0, width: 1, height: 1 }): Source => ({
  key: "a",
  scanWidth: W,
  scanHeight: H,
  part,
  weights: [1, 1, 1],
  warnings: [],
  levels,
});
const ramp = gridOf(W, H, (x, y, c) => 20_000 + 100 * x + 40 * y + c);

describe("sampling", () => {
  it("takes pixels as they are where they fall on the canvas's own", () => {
    const sampled = sampledOn({ x: 3, y: 2, width: 20, height: 10 }, [sourceOf([ramp])], moving(-7, 4));
    for (const [x, y] of [
      [0, 2],
      [19, 9],
      [5, 6],
    ])
      for (let c = 0; c < 3; c++)
        expect(sampled.codes[(y * 20 + x) * 3 + c]).toBe(ramp.codes[((y + 2 - 4) * W + x + 3 + 7) * 3 + c]);
    // The scan begins two rows further down.
    expect(Array.from(sampled.spans.subarray(0, 6))).toEqual([0, 0, 0, 0, 0, 20]);
  });

  it.each([
    ["larger", chained(scaling(2.3), moving(1.3, -2.1))],
    ["smaller", chained(scaling(0.6), moving(0.4, 0.2))],
    ["straightened", chained(rotation(3), scaling(0.8), moving(4, 1))],
    ["turned", chained(rotation(90), moving(H, 0))],
  ] as const)("finds a slope where it lies: %s", (_, map) => {
    const box = { x: 0, y: 0, width: 70, height: 70 };
    const { codes, spans } = sampledOn(box, [sourceOf([ramp])], map);
    const det = map.a * map.d - map.b * map.c;
    let looked = 0;
    for (let y = 0; y < box.height; y++)
      for (let x = spans[2 * y]; x < spans[2 * y + 1]; x++) {
        const [p, q] = [x + 0.5 - map.e, y + 0.5 - map.f];
        const [u, v] = [(map.d * p - map.c * q) / det - 0.5, (map.a * q - map.b * p) / det - 0.5];
        // At the rim the outermost pixel goes on.
        if (u < 1 || v < 1 || u > W - 2 || v > H - 2) continue;
        looked++;
        const expected = 20_000 + 100 * u + 40 * v;
        expect(Math.abs(codes[(y * box.width + x) * 3] - expected)).toBeLessThanOrEqual(1.01);
      }
    expect(looked).toBeGreaterThan(300);
  });

  it("covers what is coarse by what is fine, where that lies", () => {
    const fine = sourceOf([gridOf(30, 20, () => 50_000)], { left: 0.5, top: 0.5, width: 0.5, height: 0.5 });
    const { codes, spans } = sampledOn({ x: 0, y: 0, width: W, height: H }, [sourceOf([ramp]), fine], scaling(1));
    expect(codes[(10 * W + 10) * 3]).toBe(ramp.codes[(10 * W + 10) * 3]);
    expect(codes[(30 * W + 50) * 3]).toBe(50_000);
    expect(Array.from(spans.subarray(60, 62))).toEqual([0, W]);
  });

  it("averages what falls together: a fine pattern becomes its mean", () => {
    const pattern = gridOf(W, H, (x, y) => ((x + y) % 2 ? 30_000 : 20_000));
    const { codes } = sampledOn({ x: 2, y: 2, width: 20, height: 12 }, [sourceOf([pattern])], scaling(0.5));
    for (const code of codes) expect(Math.abs(code - 25_000)).toBeLessThanOrEqual(1);
  });

  it("finds lost pixels at the same places", () => {
    const marks = Uint8Array.from({ length: W * H }, (_, i) => Number(i % W === 12));
    const lost = clippedOn({ x: 0, y: 0, width: W, height: H }, [sourceOf([ramp])], moving(3, 0), () => marks);
    expect([lost[5 * W + 15], lost[5 * W + 14], lost[5 * W + 1]]).toEqual([1, 0, 0]);
  });
});
