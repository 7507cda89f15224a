/** Histograms of the finished picture: densities above base, and tones of the print. */
import { densityOf } from "../../extension/engine/colour/density.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
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

/** Transmittance at evenly spread places of the finished picture, three values each. */
export function samplesOf(source: Source, transform: FrameTransform): Float32Array {
  const [grid] = source.levels;
  const table = codeTable();
  const step = Math.sqrt((transform.width * transform.height) / PLACES);
  const columns = Math.max(1, Math.floor(transform.width / step));
  const rows = Math.max(1, Math.floor(transform.height / step));
  const toScan = inverse(transform.toFinished);
  const t = new Float32Array(columns * rows * 3);
  let k = 0;
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < columns; q++) {
      const [x, y] = apply(toScan, [((q + 0.5) / columns) * transform.width, ((r + 0.5) / rows) * transform.height]);
      const u = Math.floor(((x / source.scanWidth - source.part.left) / source.part.width) * grid.width);
      const v = Math.floor(((y / source.scanHeight - source.part.top) / source.part.height) * grid.height);
      if (u < 0 || v < 0 || u >= grid.width || v >= grid.height) continue;
      const i = (v * grid.width + u) * 3;
      for (let c = 0; c < 3; c++) t[k++] = table[grid.codes[i + c]];
    }
  return t.subarray(0, k);
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

export function printHistogram(samples: Float32Array, plan: Plan): PrintHistogram {
  const n = samples.length / 3;
  const counts = new Float64Array(768);
  const pixels = new Uint8ClampedArray(n * 4);
  runPlan8(plan, samples, pixels, n);
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
