/** What a camera sees of a piece of film: its transmittance in the camera's three channels, before lens and sensor. */
import type { Plane } from "../blur.ts";
import type { Camera, Light } from "./cameras.ts";
import type { Triple } from "../spectra/colour.ts";
import { emulsionOf, spectralDensity } from "../film/emulsion.ts";
import type { Box, DevelopedFilm } from "../film/film.ts";
import { BANDS, flat, integralDensities, product, type Spectrum } from "../spectra/spectrum.ts";
import type { Stock } from "../film/stocks.ts";

/** Weights of the camera's channels under a light. */
export function channelWeights(camera: Camera, light: Light): readonly [Spectrum, Spectrum, Spectrum] {
  return [0, 1, 2].map((c) => product(camera.sensitivity[c], light.power)) as [Spectrum, Spectrum, Spectrum];
}

/** Densities that the camera sees of given amounts, straight from the spectra. */
export function cameraDensity(camera: Camera, light: Light, stock: Stock, amounts: readonly number[]): Triple {
  const density = spectralDensity(stock, amounts);
  return integralDensities(channelWeights(camera, light), density) as Triple;
}

/** A table from amounts to camera densities; `nodes` per layer between `low` and `high`. */
export interface DensityTable {
  readonly nodes: number;
  readonly layers: 1 | 3;
  readonly low: number;
  readonly step: readonly number[];
  /** Red, green, blue density per node; the last layer runs fastest. */
  readonly data: Float32Array;
}

const tables = new Map<Stock, Map<string, DensityTable>>();

export function densityTable(camera: Camera, light: Light, stock: Stock): DensityTable {
  const key = `${camera.model}|${light.name}`;
  let own = tables.get(stock);
  if (!own) tables.set(stock, (own = new Map()));
  let table = own.get(key);
  if (!table) own.set(key, (table = buildTable(camera, light, stock)));
  return table;
}

function buildTable(camera: Camera, light: Light, stock: Stock): DensityTable {
  const layers = stock.layers.length as 1 | 3;
  const nodes = layers === 1 ? 513 : 49;
  const low = -0.4;
  const max = emulsionOf(stock).amounts.map((t) => t.reduce((a, b) => Math.max(a, b)) + 0.6);
  const step = max.map((m) => (m - low) / (nodes - 1));
  // Transmittances multiply, so each layer's can be tabled by itself.
  const powers = stock.layers.map((layer, k) =>
    Array.from({ length: nodes }, (_, i) => layer.dye.map((d) => 10 ** -(d * (low + i * step[k])))),
  );
  const base = stock.base.map((d) => 10 ** -d);
  const weights = channelWeights(camera, light).map((w) => {
    const total = w.reduce((a, b) => a + b, 0);
    return w.map((v, b) => (v * base[b]) / total);
  });
  const data = new Float32Array(nodes ** layers * 3);
  const put = (node: number, before: Spectrum, last: Spectrum): void => {
    for (let c = 0; c < 3; c++) {
      let t = 0;
      for (let b = 0; b < BANDS; b++) t += weights[c][b] * (before[b] * last[b]);
      data[node * 3 + c] = -Math.log10(t);
    }
  };
  if (layers === 1) for (let i = 0; i < nodes; i++) put(i, flat(1), powers[0][i]);
  else
    for (let i = 0; i < nodes; i++)
      for (let j = 0; j < nodes; j++) {
        const two = product(powers[0][i], powers[1][j]);
        for (let k = 0; k < nodes; k++) put((i * nodes + j) * nodes + k, two, powers[2][k]);
      }
  return { nodes, layers, low, step, data };
}

/** Camera densities by interpolation in the table, into `out` at `o`; `amounts` at `i`. */
export function lookUp(t: DensityTable, amounts: Float32Array, i: number, out: Float32Array, o: number): void {
  const last = t.nodes - 1.0001;
  const { data, nodes, low, step } = t;
  if (t.layers === 1) {
    const u = Math.min(last, Math.max(0, (amounts[i] - low) / step[0]));
    const a = u | 0;
    const f = u - a;
    for (let c = 0; c < 3; c++) out[o + c] = data[a * 3 + c] * (1 - f) + data[a * 3 + 3 + c] * f;
    return;
  }
  const u = Math.min(last, Math.max(0, (amounts[i] - low) / step[0]));
  const v = Math.min(last, Math.max(0, (amounts[i + 1] - low) / step[1]));
  const w = Math.min(last, Math.max(0, (amounts[i + 2] - low) / step[2]));
  const [a, b, c] = [u | 0, v | 0, w | 0];
  const [fu, fv, fw] = [u - a, v - b, w - c];
  const n = ((a * nodes + b) * nodes + c) * 3;
  const [sv, su] = [nodes * 3, nodes * nodes * 3];
  for (let k = 0; k < 3; k++) {
    const p = n + k;
    const x0 = data[p] + fw * (data[p + 3] - data[p]);
    const x1 = data[p + sv] + fw * (data[p + sv + 3] - data[p + sv]);
    const y0 = data[p + su] + fw * (data[p + su + 3] - data[p + su]);
    const y1 = data[p + su + sv] + fw * (data[p + su + sv + 3] - data[p + su + sv]);
    const x = x0 + fv * (x1 - x0);
    out[o + k] = x + fu * (y0 + fv * (y1 - y0) - x);
  }
}

/** Transmittance of the whole piece, interleaved RGB; 1 where there is no film. */
export function transmittance(film: DevelopedFilm, camera: Camera, light: Light): Plane {
  const table = densityTable(camera, light, film.stock);
  const { width, height, amounts } = film;
  const n = film.stock.layers.length;
  const data = new Float32Array(width * height * 3);
  for (let i = 0, a = 0; i < data.length; i += 3, a += n) {
    lookUp(table, amounts, a, data, i);
    data[i] = Math.exp(-Math.LN10 * data[i]);
    data[i + 1] = Math.exp(-Math.LN10 * data[i + 1]);
    data[i + 2] = Math.exp(-Math.LN10 * data[i + 2]);
  }
  const plane = { width, height, channels: 3, data };
  for (const hole of film.holes) clear(plane, hole, hole.corner ?? 0.2 * hole.height);
  const [top, bottom] = film.strip;
  if (top > 0) clear(plane, { left: -9, top: -9, width: width + 18, height: top + 9 }, 0);
  if (bottom < height) clear(plane, { left: -9, top: bottom, width: width + 18, height: height - bottom + 9 }, 0);
  return plane;
}

/** Transmittance at one place (film pixels, the first pixel's middle at 0.5), bilinear between pixels. */
export function transmittanceAt(
  film: DevelopedFilm,
  camera: Camera,
  light: Light,
  at: readonly [number, number],
): Triple {
  const table = densityTable(camera, light, film.stock);
  const x = Math.min(film.width - 1.001, Math.max(0, at[0] - 0.5));
  const y = Math.min(film.height - 1.001, Math.max(0, at[1] - 0.5));
  const inside = (b: Box): boolean =>
    at[0] > b.left && at[0] < b.left + b.width && at[1] > b.top && at[1] < b.top + b.height;
  if (at[1] < film.strip[0] || at[1] > film.strip[1] || film.holes.some(inside)) return [1, 1, 1];
  const [i, j] = [Math.floor(x), Math.floor(y)];
  const out: Triple = [0, 0, 0];
  const density = new Float32Array(3);
  for (const [k, l] of [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ]) {
    const weight = (k ? x - i : 1 - x + i) * (l ? y - j : 1 - y + j);
    lookUp(table, film.amounts, ((j + l) * film.width + i + k) * film.stock.layers.length, density, 0);
    for (let c = 0; c < 3; c++) out[c] += weight * 10 ** -density[c];
  }
  return out;
}

/** Sets a box with round corners to bare light, its edge one pixel soft. */
function clear({ width, height, data }: Plane, box: Box, radius: number): void {
  const [cx, cy] = [box.left + box.width / 2, box.top + box.height / 2];
  const [hx, hy] = [box.width / 2 - radius, box.height / 2 - radius];
  for (let y = Math.max(0, Math.floor(box.top - 1)); y < Math.min(height, box.top + box.height + 1); y++)
    for (let x = Math.max(0, Math.floor(box.left - 1)); x < Math.min(width, box.left + box.width + 1); x++) {
      const dx = Math.abs(x + 0.5 - cx) - hx;
      const dy = Math.abs(y + 0.5 - cy) - hy;
      const distance = Math.hypot(Math.max(0, dx), Math.max(0, dy)) + Math.min(0, Math.max(dx, dy)) - radius;
      const cover = Math.min(1, Math.max(0, 0.5 - distance));
      for (let c = 0; c < 3; c++) {
        const i = (y * width + x) * 3 + c;
        data[i] += cover * (1 - data[i]);
      }
    }
}
