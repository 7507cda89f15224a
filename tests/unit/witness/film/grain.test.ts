import { describe, expect, it } from "vitest";
import { develop, type DevelopedFilm } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { grainAt } from "../../../witness/film/grain.ts";
import { evenScene } from "../../../witness/scenes/scene.ts";
import { COALFISH_125, NORTHLIGHT_400, type Stock } from "../../../witness/film/stocks.ts";

const exposed = (stock: Stock, pixelsPerMm: number, grey: number): DevelopedFilm =>
  develop(evenScene(180, 120, [grey, grey, grey]), stock, { format: FORMAT_135, pixelsPerMm }, 9);

/** Standard deviation of layer 0's amount, averaged over squares of `side` mm, and the mean amount. */
function fluctuation(film: DevelopedFilm, side: number): { sigma: number; mean: number } {
  const n = film.stock.layers.length;
  const px = Math.round(side * film.pixelsPerMm);
  const values: number[] = [];
  const { left, top, width, height } = film.picture;
  for (let y = top + 8; y + px < top + height - 8; y += px)
    for (let x = left + 8; x + px < left + width - 8; x += px) {
      let s = 0;
      for (let j = 0; j < px; j++) for (let i = 0; i < px; i++) s += film.amounts[((y + j) * film.width + x + i) * n];
      values.push(s / (px * px));
    }
  const mean = values.reduce((a, b) => a + b) / values.length;
  return { sigma: Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length), mean };
}

describe("grain", () => {
  // Selwyn's law from memory: σ_D·√A is constant for areas well above the grain's size.
  it("obeys Selwyn's law, whatever the fineness of the raster", () => {
    for (const stock of [NORTHLIGHT_400, COALFISH_125])
      for (const pixelsPerMm of [25, 50]) {
        const film = exposed(stock, pixelsPerMm, 0.18);
        for (const side of [0.24, 0.48]) {
          const { sigma, mean } = fluctuation(film, side);
          const granularity = (sigma * side * 1000) / (stock.layers[0].granularity * grainAt(mean));
          expect(Math.abs(granularity - 1), `${stock.name} ${side}`).toBeLessThan(0.08);
        }
      }
  });

  it("grows with density and is faint in clear film", () => {
    const clear = fluctuation(exposed(NORTHLIGHT_400, 20, 0.0001), 0.2).sigma;
    const middle = fluctuation(exposed(NORTHLIGHT_400, 20, 0.18), 0.2).sigma;
    const dense = fluctuation(exposed(NORTHLIGHT_400, 20, 2), 0.2).sigma;
    expect(clear).toBeLessThan(0.35 * middle);
    expect(dense).toBeGreaterThan(1.1 * middle);
  });
});
