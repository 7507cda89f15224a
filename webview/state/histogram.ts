/** Histograms of the finished picture: densities above base, and tones of the print. */
import { densityOf } from "../../extension/engine/colour/density.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { NODE_VALUES, readGrid } from "../../extension/engine/local/grid.ts";
import { runLocal } from "../../extension/engine/plan/run-local.ts";
import { runPlan8 } from "../../extension/engine/plan/run.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import { endsOf } from "../render/clipping.ts";
import type { Source } from "../render/source.ts";
import { apply, inverse } from "./affine.ts";
import type { FrameTransform } from "./frame-transform.ts";

/** Bins of a density histogram, over MIN_DENSITY … MAX_DENSITY above base. */
export const DENSITY_BINS = 120;
export const MIN_DENSITY = -0.25;
export const MAX_DENSITY = 2.75;

/** Enough places for a smooth curve; more would not change it. */
const PLACES = 30_000;

/** Evenly spread places of the finished picture. */
export interface Samples {
  /** Transmittance, three values each. */
  readonly light: Float32Array;
  /** Where they lie, in fractions of the scan, two values each. */
  readonly places: Float32Array;
}

export function samplesOf(source: Source, transform: FrameTransform): Samples {
  const [grid] = source.levels;
  const table = codeTable();
  const step = Math.sqrt((transform.width * transform.height) / PLACES);
  const columns = Math.max(1, Math.floor(transform.width / step));
  const rows = Math.max(1, Math.floor(transform.height / step));
  const toScan = inverse(transform.toFinished);
  const t = new Float32Array(columns * rows * 3);
  const places = new Float32Array(columns * rows * 2);
  let k = 0;
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < columns; q++) {
      const [x, y] = apply(toScan, [((q + 0.5) / columns) * transform.width, ((r + 0.5) / rows) * transform.height]);
      const u = Math.floor(((x / source.scanWidth - source.part.left) / source.part.width) * grid.width);
      const v = Math.floor(((y / source.scanHeight - source.part.top) / source.part.height) * grid.height);
      if (u < 0 || v < 0 || u >= grid.width || v >= grid.height) continue;
      const i = (v * grid.width + u) * 3;
      places[(k / 3) * 2] = x / source.scanWidth;
      places[(k / 3) * 2 + 1] = y / source.scanHeight;
      for (let c = 0; c < 3; c++) t[k++] = table[grid.codes[i + c]];
    }
  return { light: t.subarray(0, k), places: places.subarray(0, (k / 3) * 2) };
}

/** Counts per channel, one channel after the other, of densities above base; what lies outside counts at the ends. */
export function densityHistogram(samples: Float32Array, look: FrameLook): Float64Array {
  const counts = new Float64Array(3 * DENSITY_BINS);
  const base = look.film === "slide" ? [0, 0, 0] : look.base;
  const perBin = DENSITY_BINS / (MAX_DENSITY - MIN_DENSITY);
  for (let i = 0; i < samples.length; i++) {
    const c = i % 3;
    const bin = Math.floor((densityOf(Math.max(samples[i], 1e-6)) - base[c] - MIN_DENSITY) * perBin);
    counts[c * DENSITY_BINS + Math.min(DENSITY_BINS - 1, Math.max(0, bin))]++;
  }
  return counts;
}

export interface PrintHistogram {
  /** 256 counts per channel, one channel after the other. */
  readonly counts: Float64Array;
  /** Parts of the picture with a channel at white, and with all channels at the deepest black. */
  readonly white: number;
  readonly black: number;
}

/** Makes the samples inside of areas of local exposure again. */
function addLocal(plan: Plan, t: Float32Array, places: Float32Array, pixels: Uint8ClampedArray): void {
  if (!plan.local) return;
  const n = t.length / 3;
  const adjustments = new Float32Array(n * NODE_VALUES);
  for (let i = 0; i < n; i++) {
    const place = { x: places[2 * i], y: places[2 * i + 1], dx: 0, dy: 0 };
    readGrid(plan.local, place, 1, adjustments.subarray(i * NODE_VALUES, (i + 1) * NODE_VALUES));
  }
  const out = new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.length);
  runLocal(plan, 255, { n, t, from: 0, adjustments, out, to: 0, stride: 4 });
}

export function printHistogram({ light, places }: Samples, plan: Plan): PrintHistogram {
  const n = light.length / 3;
  const counts = new Float64Array(768);
  const pixels = new Uint8ClampedArray(n * 4);
  runPlan8(plan, light, pixels, n);
  addLocal(plan, light, places, pixels);
  const ends = endsOf(plan);
  let [white, black] = [0, 0];
  for (let k = 0; k < pixels.length; k += 4) {
    for (let c = 0; c < 3; c++) counts[c * 256 + pixels[k + c]]++;
    const top = Math.max(pixels[k], pixels[k + 1], pixels[k + 2]);
    if (top >= ends.white) white++;
    else if (top <= ends.black) black++;
  }
  return { counts, white: n ? white / n : 0, black: n ? black / n : 0 };
}
