import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { codeOf, codeTable, transmittanceOfCode } from "../../../../extension/engine/plan/log-code.ts";
import type { Proxy } from "../../../../extension/messages.ts";
import { halved, sourceOf } from "../../../../webview/render/source.ts";
import { levelFor, saturatedPixels, signalOf } from "../../../../webview/render/surface.ts";
import { lightAt } from "../../../../webview/state/readings.ts";

const whole = { left: 0, top: 0, width: 1, height: 1 };
function proxy(
  width: number,
  height: number,
  code: (x: number, y: number, c: number) => number,
  more: Partial<Proxy> = {},
): Proxy {
  const codes = new Uint16Array(width * height * 3);
  for (let i = 0; i < codes.length; i++) codes[i] = code(Math.floor(i / 3) % width, Math.floor(i / 3 / width), i % 3);
  return {
    source: "a",
    scanWidth: width * 2,
    scanHeight: height * 2,
    part: whole,
    width,
    height,
    codes: new Uint8Array(codes.buffer),
    weights: [1 / 3, 1 / 3, 1 / 3],
    warnings: [],
    ...more,
  };
}

describe("proxies", () => {
  it("halve by averaging light, within 0.001 D", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 9000, max: 44000 }), { minLength: 12, maxLength: 12 }), (codes) => {
        const small = halved({ width: 2, height: 2, codes: Uint16Array.from(codes) });
        for (let c = 0; c < 3; c++) {
          const mean = [0, 1, 2, 3].reduce((sum, i) => sum + transmittanceOfCode(codes[3 * i + c]), 0) / 4;
          expect(Math.abs(Math.log10(codeTable()[small.codes[c]] / mean))).toBeLessThan(0.001);
        }
      }),
    );
  });

  it("come with smaller levels, and refuse bytes that do not fit", () => {
    const source = sourceOf(proxy(2000, 1000, () => 40000));
    expect(source.levels.map((l) => [l.width, l.height])).toEqual([
      [2000, 1000],
      [1000, 500],
      [500, 250],
    ]);
    expect(() => sourceOf({ ...proxy(4, 4, () => 1), codes: new Uint8Array(5) })).toThrow("cannot be shown");
  });

  it("read bytes that lie at an odd place of their buffer", () => {
    const { codes, ...rest } = proxy(2, 1, (x) => 1000 + x);
    const odd = new Uint8Array(codes.length + 1);
    odd.set(codes, 1);
    expect([...sourceOf({ ...rest, codes: odd.subarray(1) }).levels[0].codes]).toEqual([
      1000, 1000, 1000, 1001, 1001, 1001,
    ]);
  });

  it("give the level whose pixels are not larger than the canvas's", () => {
    const source = sourceOf(proxy(2000, 1000, () => 40000)); // of a scan of 4000 pixels
    expect([
      levelFor(source, 1),
      levelFor(source, 0.5),
      levelFor(source, 0.25),
      levelFor(source, 0.24),
      levelFor(source, 0.01),
    ]).toEqual([0, 0, 1, 1, 2]);
  });

  it("tell transmittance and camera signal of a place", () => {
    const light = {
      columns: 2,
      rows: 1,
      channels: 3 as const,
      level: [0.8, 0.8, 0.8, 0.4, 0.4, 0.4],
      flare: [0.1, 0, 0] as const,
      ratio: 0.5,
    };
    const source = sourceOf(proxy(100, 50, (_x, _y, c) => codeOf([0.5, 0.25, 0.1][c]), { light }));
    const read = lightAt(source, [0.5, 0.5], 0);
    expect(read?.transmittance[0]).toBeCloseTo(0.5, 3);
    // (T·(1 − f) + f) · level · ratio, the level half-way between both cells.
    expect(read?.camera?.[0]).toBeCloseTo((0.5 * 0.9 + 0.1) * 0.6 * 0.5, 2);
    expect(read?.camera?.[1]).toBeCloseTo(0.25 * 0.6 * 0.5, 2);
    expect(lightAt(source, [1.2, 0.5])).toBeUndefined();
    expect(signalOf(sourceOf(proxy(4, 4, () => 1)))).toBeUndefined();
  });

  it("know where the camera was saturated", () => {
    const light = { columns: 1, rows: 1, channels: 1 as const, level: [0.9], flare: [0, 0, 0] as const, ratio: 1.2 };
    const source = sourceOf(proxy(4, 1, (x) => codeOf([1, 0.93, 0.9, 0.5][x]), { light }));
    expect([...saturatedPixels(source, 0)]).toEqual([1, 1, 0, 0]);
    expect([...saturatedPixels(sourceOf(proxy(2, 1, () => 65535)), 0)]).toEqual([0, 0]);
  });
});
