/** What a recipe's numbers make of a camera's densities, worked out one colour at a time, as a maker would check them. */
import { apply, type Matrix, type Triple } from "../spectra/colour.ts";
import { publishedDensity } from "./emulsion.ts";
import type { Stock } from "./stocks.ts";

/** Below this part of the straight-line slope the curve's own slope is no longer followed. */
const MIN_SLOPE = 0.2;

/** Linear sRGB of camera densities above base; `stops` is the exposure to be corrected. */
export function positiveOf(
  stock: Stock,
  m: { readonly unmix: Matrix; readonly colour: Matrix },
  density: Readonly<Triple>,
  stops: number,
): Triple {
  if (stock.film === "slide") return apply(m.colour, density.map((d) => 10 ** -d) as Triple);
  const d = apply(m.unmix, density);
  const exposures = d.map((v, k) => 0.18 * 10 ** exposureOf(stock, Math.min(k, stock.layers.length - 1), v));
  return apply(m.colour, exposures.map((e) => e * 2 ** -stops) as Triple);
}

interface Inverse {
  readonly density: Float64Array;
  readonly low: number;
  readonly step: number;
  readonly slopes: readonly [toe: number, shoulder: number];
}

const inverses = new Map<Stock, Inverse[]>();

/** h of a published density above base. */
function exposureOf(stock: Stock, layer: number, density: number): number {
  let own = inverses.get(stock);
  if (!own) inverses.set(stock, (own = stock.layers.map((_, k) => inverse(stock, k))));
  const { density: table, low, step, slopes } = own[layer];
  const last = table.length - 1;
  if (density <= table[0]) return low + (density - table[0]) / slopes[0];
  if (density >= table[last]) return low + last * step + (density - table[last]) / slopes[1];
  let [a, b] = [0, last];
  while (b - a > 1) {
    const middle = (a + b) >> 1;
    if (table[middle] <= density) a = middle;
    else b = middle;
  }
  return low + (a + (density - table[a]) / (table[b] - table[a])) * step;
}

/** The curve tabled between the ends of its usable part. */
function inverse(stock: Stock, layer: number): Inverse {
  const min = MIN_SLOPE * stock.layers[layer].curve.gamma;
  const at = (h: number): number => publishedDensity(stock, layer, h);
  const slope = (h: number): number => (at(h + 1e-4) - at(h - 1e-4)) / 2e-4;
  const step = 0.005;
  let low = 0;
  while (slope(low - step) > min) low -= step;
  let count = 1;
  while (slope(low + count * step) > min) count++;
  const density = Float64Array.from({ length: count }, (_, i) => at(low + i * step));
  return { density, low, step, slopes: [slope(low), slope(low + (count - 1) * step)] };
}
