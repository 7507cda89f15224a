/** A stock made ready: how much dye each layer forms at each exposure, solved so that neutrals follow its curves. */
import { solve, type Triple } from "../spectra/colour.ts";
import { atH, densityAbove, H_LOW, H_NODES, H_STEP } from "./curve.ts";
import { BANDS, integral, scaled, type Spectrum } from "../spectra/spectrum.ts";
import { statusDensity } from "../spectra/status.ts";
import type { Stock } from "./stocks.ts";
import { D55 } from "../spectra/tables.ts";
import { faceSpectra, NODES } from "../spectra/upsample.ts";

export interface Emulsion {
  readonly stock: Stock;
  /** Sensitivity × daylight, scaled so that a white of reflectance 1 exposes every layer by 1. */
  readonly responses: readonly Spectrum[];
  /** Amount of dye per layer against h (characteristic-curve.ts's axis). */
  readonly amounts: readonly Float32Array[];
  /** Development per layer against h, 0 … 1: what holds the neighbours back. */
  readonly development: readonly Float32Array[];
  /** Layer exposures of pure colours: per face of the colour cube NODES² × layers values. */
  readonly exposures: readonly Float32Array[];
}

const ready = new Map<Stock, Emulsion>();

export function emulsionOf(stock: Stock): Emulsion {
  let e = ready.get(stock);
  if (!e) ready.set(stock, (e = prepare(stock)));
  return e;
}

function prepare(stock: Stock): Emulsion {
  const responses = stock.layers.map((l) => {
    const r = l.sensitivity.map((s, i) => s * D55[i]);
    return scaled(r, 1 / integral(r));
  });
  const development = stock.layers.map((l) => {
    const max = densityAbove(l.curve, 5);
    return tabulate((h) => densityAbove(l.curve, h) / max);
  });
  return { stock, responses, development, amounts: solveAmounts(stock), exposures: exposureTables(responses) };
}

function tabulate(at: (h: number) => number): Float32Array {
  return Float32Array.from({ length: H_NODES }, (_, i) => at(H_LOW + i * H_STEP));
}

/** Status density above base that a neutral of h has in each layer's channel, as the maker publishes it. */
export function publishedDensity(stock: Stock, layer: number, h: number): number {
  const c = stock.layers[layer].curve;
  return stock.film === "slide" ? densityAbove(c, 5) - densityAbove(c, h) : densityAbove(c, h);
}

/** Spectral density of the film for given amounts. */
export function spectralDensity(stock: Stock, amounts: readonly number[]): Spectrum {
  const out = Float64Array.from(stock.base);
  for (const [k, layer] of stock.layers.entries()) for (let b = 0; b < BANDS; b++) out[b] += amounts[k] * layer.dye[b];
  return out;
}

/** Status densities of unexposed (slide: clearest) film. */
export function baseDensity(stock: Stock): Triple {
  return statusDensity(stock.status, stock.base);
}

function solveAmounts(stock: Stock): Float32Array[] {
  const tables = stock.layers.map(() => new Float32Array(H_NODES));
  if (stock.layers.length === 1) {
    tables[0].set(tabulate((h) => publishedDensity(stock, 0, h)));
    return tables;
  }
  const base = baseDensity(stock);
  let amounts = [0, 0, 0];
  for (let i = 0; i < H_NODES; i++) {
    const aim = [0, 1, 2].map((k) => base[k] + publishedDensity(stock, k, H_LOW + i * H_STEP));
    amounts = amountsFor(stock, aim, amounts);
    for (let k = 0; k < 3; k++) tables[k][i] = amounts[k];
  }
  return tables;
}

/** Amounts whose status densities are `aim` (Newton's method). */
export function amountsFor(stock: Stock, aim: readonly number[], start: readonly number[] = [0, 0, 0]): number[] {
  const x = [...start];
  for (let round = 0; round < 30; round++) {
    const at = statusDensity(stock.status, spectralDensity(stock, x));
    const error = aim.map((a, i) => a - at[i]);
    if (Math.max(...error.map(Math.abs)) < 1e-9) break;
    const columns = [0, 1, 2].map((k) => {
      const moved = [...x];
      moved[k] += 1e-4;
      return statusDensity(stock.status, spectralDensity(stock, moved)).map((v, i) => (v - at[i]) / 1e-4);
    });
    const step = solve(
      [0, 1, 2].map((i) => columns.map((c) => c[i])),
      error,
    );
    for (let k = 0; k < 3; k++) x[k] += step[k];
  }
  return x;
}

function exposureTables(responses: readonly Spectrum[]): Float32Array[] {
  const n = responses.length;
  return faceSpectra().map((spectra) => {
    const out = new Float32Array(NODES * NODES * n);
    for (let node = 0; node < NODES * NODES; node++)
      for (let k = 0; k < n; k++) {
        let e = 0;
        for (let b = 0; b < BANDS; b++) e += spectra[node * BANDS + b] * responses[k][b];
        out[node * n + k] = e;
      }
    return out;
  });
}

/** Amounts formed by layer exposures (1 = white of a scene whose mid-grey is 0.18), inter-layer effect included. */
export function developed(e: Emulsion, exposures: readonly number[]): number[] {
  const h = exposures.map((x) => Math.log10(Math.max(x, 1e-9) / 0.18));
  const done = h.map((v, k) => atH(e.development[k], v));
  return h.map((v, k) => {
    const held = done.reduce((s, d, j) => s + (e.stock.interlayer[k][j] ?? 0) * (done[k] - d), 0);
    return atH(e.amounts[k], v + held);
  });
}
