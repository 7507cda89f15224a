import { describe, expect, it } from "vitest";
import {
  publishedDensity,
  baseDensity,
  developed,
  emulsionOf,
  spectralDensity,
} from "../../../witness/film/emulsion.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135, FORMAT_69 } from "../../../witness/film/format.ts";
import { evenScene } from "../../../witness/scenes/scene.ts";
import { integral } from "../../../witness/spectra/spectrum.ts";
import { statusDensity } from "../../../witness/spectra/status.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400, SKERRY_100, STOCKS } from "../../../witness/film/stocks.ts";
import { spectrumOfRgb } from "../../../witness/spectra/upsample.ts";

const STOP = Math.log10(2);

describe("stocks", () => {
  it("masked negatives have base densities blue > green > red", () => {
    for (const stock of [NORTHLIGHT_400, SKERRY_100]) {
      const [r, g, b] = baseDensity(stock);
      expect(b).toBeGreaterThan(g);
      expect(g).toBeGreaterThan(r);
    }
  });

  it("put a neutral on all three published curves at every exposure", () => {
    for (const stock of [NORTHLIGHT_400, SKERRY_100, LANTERN_64]) {
      const base = baseDensity(stock);
      for (const h of [-1.2, -0.6, 0, 0.45, 0.9, 1.8]) {
        const e = 0.18 * 10 ** h;
        const status = statusDensity(stock.status, spectralDensity(stock, developed(emulsionOf(stock), [e, e, e])));
        for (let k = 0; k < 3; k++) expect(status[k] - base[k]).toBeCloseTo(publishedDensity(stock, k, h), 3);
      }
    }
  });

  it("one stop more light adds gamma × 0.30103 D to a negative on its straight part, −1 … +3 stops around mid-grey", () => {
    for (const stock of [NORTHLIGHT_400, SKERRY_100, COALFISH_125])
      for (const [k, layer] of stock.layers.entries())
        for (const stops of [-1, 0, 1, 2]) {
          const rise = publishedDensity(stock, k, (stops + 1) * STOP) - publishedDensity(stock, k, stops * STOP);
          expect(Math.abs(rise / (layer.curve.gamma * STOP) - 1), `${stock.name} ${stops}`).toBeLessThan(0.015);
        }
  });

  it("the inter-layer effect leaves neutrals and strengthens colours", () => {
    const e = emulsionOf(NORTHLIGHT_400);
    const alone = {
      ...e,
      stock: {
        ...NORTHLIGHT_400,
        interlayer: [
          [0, 0, 0],
          [0, 0, 0],
          [0, 0, 0],
        ],
      },
    };
    expect(developed(e, [0.3, 0.3, 0.3])).toEqual(developed(alone, [0.3, 0.3, 0.3]));
    const spread = (a: number[]): number => Math.max(...a) - Math.min(...a);
    expect(spread(developed(e, [0.5, 0.1, 0.1]))).toBeGreaterThan(1.05 * spread(developed(alone, [0.5, 0.1, 0.1])));
  });

  it("a slide is clearest where most exposed", () => {
    const e = emulsionOf(LANTERN_64);
    const dark = developed(e, [0.02, 0.02, 0.02]);
    const bright = developed(e, [0.9, 0.9, 0.9]);
    for (let k = 0; k < 3; k++) expect(dark[k]).toBeGreaterThan(bright[k] + 0.8);
  });
});

describe("development over a raster", () => {
  const scene = evenScene(180, 120, [0.3, 0.18, 0.08]);

  it("agrees with the single colour, and exposure counts in stops", () => {
    for (const stock of STOCKS)
      for (const exposure of [-1, 0, 2]) {
        const film = develop(scene, stock, { format: FORMAT_135, exposure, grain: 0 }, 1);
        const n = stock.layers.length;
        const middle = ((film.height >> 1) * film.width + (film.width >> 1)) * n;
        const e = emulsionOf(stock);
        const spectrum = spectrumOfRgb([0.3, 0.18, 0.08]);
        const aim = developed(
          e,
          e.responses.map((r) => 2 ** exposure * integral(r, spectrum)),
        );
        for (let k = 0; k < n; k++) expect(film.amounts[middle + k]).toBeCloseTo(aim[k], 4);
      }
  });

  it("is the same with the same seed, and only the grain changes with another", () => {
    const at = (seed: number): Float32Array => develop(scene, NORTHLIGHT_400, { format: FORMAT_135 }, seed).amounts;
    expect(at(3)).toEqual(at(3));
    expect(at(3)).not.toEqual(at(4));
  });

  it("leaves the rebate unexposed but for its marking, and the strip ends at its width", () => {
    const film = develop(scene, NORTHLIGHT_400, { format: FORMAT_135, frame: "12A", grain: 0, margin: [2, 6] }, 1);
    const rows = (from: number, to: number): Float32Array =>
      film.amounts.subarray(Math.round(from) * film.width * 3, Math.round(to) * film.width * 3);
    const most = (a: Float32Array): number => a.reduce((m, v) => Math.max(m, v), 0);
    expect(most(rows(film.strip[0] + 2, film.strip[0] + 8))).toBeGreaterThan(1);
    expect(most(rows(film.picture.top - 3, film.picture.top - 1))).toBeLessThan(0.01);
    expect((film.strip[1] - film.strip[0]) / film.pixelsPerMm).toBeCloseTo(34.975, 6);
    expect(film.holes.length).toBeGreaterThanOrEqual(16);
  });

  it("refuses a scene of other proportions with a sentence that says so", () => {
    expect(() => develop(evenScene(100, 100, [1, 1, 1]), NORTHLIGHT_400, { format: FORMAT_69 }, 1)).toThrow(
      /100 × 100.*84 × 56 mm/,
    );
  });
});
